import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const referenceDrift: Check = {
  name: 'reference-drift',
  kind: 'contradiction',
  severity: 'error',
  title: 'A check shows that the reference has drifted',
  explanation:
    'A drift check is compared with the reference, not with the check before it. If it differs by more than the tolerance, nobody knows when the source moved: every reading since the last good check or reference is void, and all until the next reference. Earlier ones stand. The bias is named, never corrected.',
  source:
    'Common practice, no source: bracketing of readings by checks; the tolerance is the plan’s drift line.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('}', '  checked     2026-03-14 09:50 850 nm -20.40 dBm\n}'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('}', '  checked     2026-03-14 09:50 850 nm -20.09 dBm\n}'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'reference-drift',
    (d) =>
      `${d.beginReadings('falls', 'fall')} out: ${d.text('because')}. They lie between the last good check and the bad one. Take a new reference and measure them again.`,
  ),
};
