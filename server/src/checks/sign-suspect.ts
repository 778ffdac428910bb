import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const signSuspect: Check = {
  name: 'sign-suspect',
  kind: 'contradiction',
  severity: 'error',
  title: 'All losses of a block are negative',
  explanation:
    'By its logarithm a loss is a negative change of level, and some instruments show it so. The notation keeps losses positive; the sign of a whole block is declared, never guessed row by row.',
  source: 'Trade teaching on the sign of loss (read in secondary texts).',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  -1.12  -0.84', '2  -1.08  -0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  -1.12  -0.84', '2  -1.08  -0.80').replace(
      'loss in dB',
      'loss in dB sign negative',
    ),
  ),
  link: noticed(
    'sign-suspect',
    (d) =>
      `All ${d.number('readings')} losses of this block are negative. Some meters show a loss as a negative number: if yours does, write values loss in dB sign negative, for the whole block.`,
  ),
};
