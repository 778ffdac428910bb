import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const referenceSuspect: Check = {
  name: 'reference-suspect',
  kind: 'contradiction',
  severity: 'error',
  title: 'An impossible reading holds its neighbours',
  explanation:
    'A one-cord loss below zero means that more light arrived than the reference holds, so the reference itself is in doubt, and with it every reading since the last good check.',
  source:
    'MIL-STD-2042-6: test power above the reference power means a defective reference; holding the batch is common practice.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  -0.07  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'reference-suspect',
    (d) =>
      `${d.beginReadings('is', 'are')} held: ${d.text('because')}. Check the reference; if the check passes, only the impossible reading stays invalid.`,
  ),
};
