import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const cordFibreMismatch: Check = {
  name: 'cord-fibre-mismatch',
  kind: 'contradiction',
  severity: 'error',
  title: 'A test cord has another fibre than the link it measured',
  explanation:
    'A 62.5 µm launch cord into a 50 µm link loses extra light at the first joint and nothing the other way; a single-mode cord on a multimode link says nothing about it at all. The readings do not describe the link.',
  source: 'IEC 61280-4-1 and 61280-4-2 ask for test cords of the fibre under test.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('TC-1 launch LC OM4', 'TC-1 launch LC OM1'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'cord-fibre-mismatch',
    (d) =>
      `The ${d.text('role')} cord ${d.text('cord')} is ${d.text('cordFibre')}, and the fibre it meets is ${d.text('pathFibre')}. ${d.beginReadings('made', 'made')} with it cannot stand: the step adds loss in one direction only. Measure again with cords of the link’s own fibre.`,
  ),
};
