import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const cordOutOfSpec: Check = {
  name: 'cord-out-of-spec',
  kind: 'contradiction',
  severity: 'error',
  title: 'A test cord’s check is over the figure of its grade',
  explanation:
    'A cord that loses more than its grade allows puts its own loss into every reading. The limit takes the figure of the grade, never the measured one.',
  source: 'ISO/IEC 14763-3 (test cord requirements), figures as the limits in force state them.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('verified 0.08 dB', 'verified 0.95 dB'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'cord-out-of-spec',
    (d) =>
      `The check of ${d.text('cord')} is ${d.db('check')}; a pair of its grade may lose ${d.db('figure')}. ${d.beginReadings('made', 'made')} with it cannot stand. Clean or replace the cord and measure again.`,
  ),
};
