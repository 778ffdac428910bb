import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const lossTooGood: Check = {
  name: 'loss-too-good',
  kind: 'doubt',
  severity: 'warning',
  title: 'A loss smaller than this path can have',
  explanation:
    'A reading that is better than the fibre alone allows, or an attenuator that states its least, is a mistake more often than a marvel. It passes, and the acceptance record waits until somebody has said why it is so.',
  source:
    'Lowest attenuation of the fibre times its length, less the uncertainty (arithmetic); that it blocks acceptance is common practice, no source.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  0.03  0.02', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'loss-too-good',
    (d) =>
      `${d.Key} lost ${d.db('loss')}; what lies on this path loses at least ${d.db('least')}. Look whether the right fibre was measured, and whether all parts are in place: a short loop, a neighbouring port, or a reference taken with a dirty plug reads like this.`,
  ),
};
