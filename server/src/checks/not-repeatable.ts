import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const notRepeatable: Check = {
  name: 'not-repeatable',
  kind: 'doubt',
  severity: 'warning',
  title: 'Two attempts differ by more than their uncertainty',
  explanation:
    'Two valid readings of one fibre with nothing done between them should agree within the uncertainty times the root of two. If they do not, something moved: a plug, the launch, or the fibre that was measured.',
  source: 'Difference of two results with equal expanded uncertainty, U·√2 (JCGM 100:2008).',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
    multimodeReadings('1  1.62  0.86').replace('09:05 to 09:40', '09:50'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
    multimodeReadings('1  1.16  0.86').replace('09:05 to 09:40', '09:50'),
  ),
  link: noticed(
    'not-repeatable',
    (d) =>
      `${d.Key} read ${d.db('before')} and then ${d.db('loss')}, ${d.db('difference')} apart with no work between; the uncertainty of ${d.db('uncertainty')} explains ${d.db('bound')}. The last one stands. Find out why before you trust either.`,
  ),
};
