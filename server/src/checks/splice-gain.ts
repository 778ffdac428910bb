import { type Check, noticed } from './check.ts';
import { soundTrace, traceWith } from './examples.ts';

export const spliceGain: Check = {
  name: 'splice-gain',
  kind: 'note',
  severity: 'note',
  title: 'A joint seems to gain light in one direction',
  explanation:
    'A reflectometer measures what glass scatters back. Where light goes from a fibre that scatters less into one that scatters more, the trace steps up, and the joint seems to amplify; the other direction shows as much too much. Nothing gains light: half of the sum of both directions is what the joint loses, half of their difference is how unlike the two fibres are. It is no fault.',
  source:
    'Average of both directions of a backscatter measurement: published teaching notes on bidirectional averaging; the halves are arithmetic.',
  bad: traceWith('1  4.2  splice      -0.06  0.22'),
  good: soundTrace,
  link: noticed(
    'splice-gain',
    (d) =>
      `${d.number('events') === 1 ? 'One joint seems' : `${d.text('events')} joints seem`} to gain light in one direction (fibre${/^\d+$/u.test(d.text('fibres')) ? '' : 's'} ${d.text('fibres')}): the two fibres scatter unlike, here by ${d.db('unlike')}. ${d.db('forward')} A>B and ${d.db('back')} B>A average ${d.db('average')}, which is what it loses. Nothing to mend.`,
  ),
};
