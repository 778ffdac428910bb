import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const cordNotVerified: Check = {
  name: 'cord-not-verified',
  kind: 'contradiction',
  severity: 'error',
  title: 'A test cord has not been proven',
  explanation:
    'The receive cord is added after a one-cord reference, so nothing in the reference says that it is good. One measurement of the pair that the two cords make proves both, before or after the readings.',
  source:
    'ISO/IEC 14763-3 (verification of test cords; figures of 0.10 dB multimode and 0.20 dB single-mode from memory).',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(' verified 0.08 dB', ''),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'cord-not-verified',
    (d) =>
      `${d.text('cord')} has no check in ${d.text('setup')}, so ${d.readings} cannot stand. Measure the pair it makes with the launch cord and write verified with the loss; a good check made later heals them.`,
  ),
};
