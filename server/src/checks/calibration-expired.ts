import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const calibrationExpired: Check = {
  name: 'calibration-expired',
  kind: 'doubt',
  severity: 'warning',
  title: 'An instrument was past its calibration',
  explanation:
    'An acceptance record names each instrument with the date its calibration is due. A reading made after it is not wrong for that, and a client may refuse the whole set.',
  source:
    'Public contracts and solicitations ask for calibration dates (read); that expiry is a doubt and not a void is ours.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(
      'calibrated 2026-01-12 due 2027-01-12',
      'calibrated 2025-01-12 due 2026-01-12',
    ),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'calibration-expired',
    (d) =>
      `${d.text('instrument')} of ${d.text('setup')} was due for calibration on ${d.text('due')}, and ${d.number('readings') === 1 ? 'one reading' : `${d.number('readings')} readings`} with it date from ${d.text('tested')}. Contracts refuse such a record: write the new calibration, or measure again.`,
  ),
};
