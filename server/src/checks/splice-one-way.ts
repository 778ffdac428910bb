import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';

export const spliceOneWay: Check = {
  name: 'splice-one-way',
  kind: 'note',
  severity: 'note',
  title: 'A splice was seen from one side only',
  explanation:
    'One direction shows the loss of a splice and, mixed into it, how unlike the two fibres scatter. Only the average of both directions is the splice. Until the other direction is there, nothing is said of it, neither good nor bad.',
  source:
    'Splice loss by reflectometer is the average of two directions: contract clauses on acceptance of splices.',
  bad: traceWith('1  4.2  splice      0.09   -'),
  good: soundTrace,
  link: noticed(
    'splice-one-way',
    (d) =>
      `${d.number('events') === 1 ? 'One splice was' : `${d.text('events')} splices were`} seen ${d.text('direction')} alone (fibre${/^\d+$/u.test(d.text('fibres')) ? '' : 's'} ${d.text('fibres')}), so ${d.number('events') === 1 ? 'it is' : 'they are'} not judged. Measure the other direction too.`,
  ),
};
