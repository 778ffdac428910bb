import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const marginalPass: Check = {
  name: 'marginal-pass',
  kind: 'note',
  severity: 'note',
  title: 'A reading is under its limit by less than the uncertainty',
  explanation:
    'The value is under the limit, but by less than the expanded uncertainty of the measurement. The plan says what such a result counts as; if it says nothing it is accepted and stays visible.',
  source: 'ILAC-G8:09/2019 and JCGM 106:2012 (guard bands), read in secondary texts.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.95  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'marginal-pass',
    (d) =>
      `${d.Key} ${d.measured}, ${d.number('margin') === 0 ? 'exactly' : `only ${d.db('margin')} inside`} ${d.limit}, within the uncertainty of ${d.db('uncertainty')}. A cleaner joint would put it beyond doubt.`,
  ),
};
