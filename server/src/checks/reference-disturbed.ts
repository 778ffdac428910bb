import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const referenceDisturbed: Check = {
  name: 'reference-disturbed',
  kind: 'contradiction',
  severity: 'error',
  title: 'The reference was disturbed before the reading',
  explanation:
    'Once the launch plug has been moved at the source, or a cord of the reference was exchanged, the recorded power no longer belongs to the arrangement. No later check heals that, since it would compare with a reference that is gone.',
  source:
    'MIL-STD-2042-6 method 6F1: the plug at the source stays undisturbed between the two powers.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('}', '  disturbed   2026-03-14 08:40 because "launch plug cleaned"\n}'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'reference-disturbed',
    (d) =>
      `${d.beginReadings('falls', 'fall')} out: ${d.text('because')}. Take a new reference and measure again.`,
  ),
};
