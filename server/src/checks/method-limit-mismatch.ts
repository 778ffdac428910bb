import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const methodLimitMismatch: Check = {
  name: 'method-limit-mismatch',
  kind: 'note',
  severity: 'warning',
  title: 'Readings were made with another reference than the plan wants',
  explanation:
    'The number of cords in the reference decides how many end pairs a reading holds. A reading is never converted from one method to another: the limit is built for the method used. A reading of three cords judged by a one-cord limit would pass by two pairs too many.',
  source: 'Configurations and methods of IEC 61280-4-1; identity of the references is arithmetic.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup
      .replace('one-cord', 'three-cord')
      .replace('  taken', '  cord        TC-3 substitution LC OM4 reference-grade\n  taken'),
    multimodeReadings('1  0.52  0.24', '2  0.48  0.20'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'method-limit-mismatch',
    (d) =>
      `${d.beginReadings('was', 'were')} made ${d.text('used')}, and the plan wants ${d.text('wanted')}. Each is judged by the limit of its own method${d.has('limit') ? ` (${d.db('limit')})` : ''}; nothing is converted. Look whether the contract accepts it.`,
  ),
};
