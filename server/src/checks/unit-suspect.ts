import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const unitSuspect: Check = {
  name: 'unit-suspect',
  kind: 'contradiction',
  severity: 'error',
  title: 'A value that is impossible in its unit',
  explanation:
    'A loss of over 45 dB is beyond what source and meter can show, and a “loss” between −35 and −5 is what received powers look like. A power of more than 40 dBm or less than −110 dBm is in no fibre that is tested. Most often the unit at the head of the table is not the one the meter showed.',
  source: 'Common practice, no source; the bounds are ours.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  -21.17  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed('unit-suspect', (d) =>
    d.has('likely')
      ? `${d.beginReadings('is', 'are')} impossible as headed. Taken for ${d.text('likely')} they make about ${d.db('as')}; these parts usually lose ${d.db('usual')}. Look what the meter showed, and head the values of this block with it: loss in dB, power in dBm or power in uW.`
      : d.has('least')
        ? `${d.Key}: ${d.text('because')}. Look what the meter showed, and at the unit that the reading or its reference is written in: dBm, mW or uW.`
        : `${d.Key}: ${d.text('because')}. If it is a power, head the values with power in dBm; if it is µW, with power in uW.`,
  ),
};
