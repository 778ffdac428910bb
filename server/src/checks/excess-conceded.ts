import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { beside } from './over-limit.ts';

const concession = (accepted: string) => `concession KQ-1 {
  fibres      1
  wavelength  850 nm
  accepted    ${accepted}
  because     "spare fibre"
  by          "M. Ashdown" on 2026-03-20
}
`;

export const excessConceded: Check = {
  name: 'excess-conceded',
  kind: 'note',
  severity: 'note',
  title: 'A reading over its limit has been accepted by name',
  explanation:
    'Somebody with the right to decide has accepted this excess up to a value, with a reason and a date. The reading stays over its limit and is shown so; it counts as conceded. The concession covers this fibre, wavelength and direction only, and the first later pass spends it.',
  source: 'Our own rule, after the quality trade’s use of concessions.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  2.31  0.84', '2  1.08  0.80'),
    concession('2.40 dB'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  2.31  0.84', '2  1.08  0.80'),
    concession('2.20 dB'),
  ),
  link: noticed('excess-conceded', (d) => `${d.Key} ${beside(d)}: ${d.text('because')}.`),
};
