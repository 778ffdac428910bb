import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const referenceExpired: Check = {
  name: 'reference-expired',
  kind: 'contradiction',
  severity: 'error',
  title: 'A reading was made after its reference had expired',
  explanation:
    'Sources drift and plugs wear, so a reference holds for a time only: to the end of its day, or as long as the plan’s drift line says after the last reference or good check. Whether a later good check may heal what is older is for the contract to say.',
  source: 'Common practice, no source: references are renewed daily and after every pause.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80').replace(
      '2026-03-14 09:05 to 09:40',
      '2026-03-15 09:05',
    ),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'reference-expired',
    (d) =>
      `${d.beginReadings('', '').trim()}, first ${d.key}, came at ${d.text('time')}: ${d.text('because')}. Take a new reference and measure again.`,
  ),
};
