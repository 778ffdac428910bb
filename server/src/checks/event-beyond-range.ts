import { type Check, noticed } from './check.ts';
import {
  example,
  soundTrace,
  spliceLimits,
  traceLink,
  tracePlan,
  traceSetup,
  traces,
} from './examples.ts';
import { metresInWords } from './figures.ts';

export const eventBeyondRange: Check = {
  name: 'event-beyond-range',
  kind: 'contradiction',
  severity: 'error',
  title: 'An event lies further away than the instrument looked',
  explanation:
    'A trace ends where the range of its set-up ends. An event beyond it was not seen with that set-up: the range, the distance or the unit of one of them is wrong.',
  source: 'Two statements of one fact; the range is what the set-up states.',
  bad: example(
    tracePlan,
    spliceLimits,
    traceLink,
    traceSetup.replace('20 km', '5 km'),
    traces('1  8.1  connector   0.26   0.30'),
  ),
  good: soundTrace,
  link: noticed(
    'event-beyond-range',
    (d) =>
      `An event of fibre ${d.text('fibre')} lies at ${metresInWords(d.number('at'))}, and the set-up ${d.text('setup')} looked no further than ${metresInWords(d.number('range'))}. Correct one of the two.`,
  ),
};
