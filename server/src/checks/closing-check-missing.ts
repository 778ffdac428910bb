import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const closingCheckMissing: Check = {
  name: 'closing-check-missing',
  kind: 'contradiction',
  severity: 'error',
  title: 'The plan asks for a closing check and there is none',
  explanation:
    'Where the plan’s drift line says closing, a batch counts only once a check after its last reading has shown that the reference still holds. A new reference does not close the batch before it.',
  source: 'Common practice, no source: readings are bracketed by reference and closing check.',
  bad: example(
    multimodePlan.replace('  zone', '  drift       0.20 dB closing\n  zone'),
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan.replace('  zone', '  drift       0.20 dB closing\n  zone'),
    multimodeLink,
    multimodeSetup.replace(
      '}',
      '  checked     2026-03-14 09:50 850 nm -20.09 dBm\n  checked     2026-03-14 09:50 1300 nm -20.33 dBm\n}',
    ),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'closing-check-missing',
    (d) =>
      `${d.beginReadings('waits', 'wait')} for it: ${d.text('because')}. Write checked with the power of a check of the same, undisturbed reference.`,
  ),
};
