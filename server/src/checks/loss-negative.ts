import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const lossNegative: Check = {
  name: 'loss-negative',
  kind: 'contradiction',
  severity: 'error',
  title: 'A loss that cannot be',
  explanation:
    'With one cord in the reference nothing can make the link appear to gain light. With two or three, a very short link may read slightly below zero, down to the lowest fibre loss less the pairs in the reference; below that the value is impossible too.',
  source:
    'MIL-STD-2042-6: test power greater than the reference power means the reference is to be taken again; the floor with several cords is arithmetic.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  -0.07  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'loss-negative',
    (d) =>
      `${d.Key}: ${d.text('because')}. ${d.has('trace') ? 'Look at its sign, and at where the markers stood on the trace.' : 'Look at the reference: a dirty plug in it, or a source that rose since. Take a new reference and measure again.'}${d.number('readings') > 1 ? ` The same holds for all ${d.readings}.` : ''}`,
  ),
};
