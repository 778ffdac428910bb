import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const concessionSpent: Check = {
  name: 'concession-spent',
  kind: 'note',
  severity: 'note',
  title: 'A concession has been spent by a later pass',
  explanation:
    'A concession covers a known excess until the fibre has passed once. After that a new excess is a new fact, and somebody must decide again.',
  source: 'Our own rule, after the quality trade’s use of concessions.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  2.31  0.84', '2  1.08  0.80'),
    `concession KQ-1 {
  fibres      1
  wavelength  850 nm
  accepted    2.40 dB
  because     "spare fibre"
  by          "M. Ashdown" on 2026-03-14
}
`,
    multimodeReadings('1  1.10  0.84').replace('09:05 to 09:40', '10:05'),
    multimodeReadings('1  2.30  0.84').replace('09:05 to 09:40', '11:05'),
  ).replaceAll('"M. Ashdown" on 2026-03-14', '"M. Ashdown" on 2026-03-14 09:50'),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'concession-spent',
    (d) =>
      `${d.Key} reads ${d.db('loss')} again, and the concession of up to ${d.db('accepted')} by ${d.text('by')} was spent by the pass of ${d.text('passed')}. It counts as over the limit; a new decision is needed.`,
  ),
};
