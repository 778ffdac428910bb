import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { concession } from './over-limit.ts';

export const marginalFail: Check = {
  name: 'marginal-fail',
  kind: 'note',
  severity: 'warning',
  title: 'A reading is over its limit by less than the uncertainty',
  explanation:
    'The value is above the limit, but not by more than the expanded uncertainty of the measurement, so it may in truth lie on either side. Unless the plan says otherwise it does not count as accepted.',
  source:
    'ILAC-G8:09/2019 and JCGM 106:2012 (guard bands), read in secondary texts; ISO/IEC 14763-3 has a clause on marginal results.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  2.11  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'marginal-fail',
    (d) =>
      `${d.Key} ${d.measured}, ${d.beyond}, within the uncertainty of ${d.db('uncertainty')}. ${d.strong ? 'Too much light arrives: put an attenuator in' : 'Clean and measure again'}; as it stands it needs work or a concession.${concession(d)}`,
  ),
};
