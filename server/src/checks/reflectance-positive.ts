import { type Check, noticed } from './check.ts';
import { angledPlan, example, multimodeSetup, reflected } from './examples.ts';

export const reflectancePositive: Check = {
  name: 'reflectance-positive',
  kind: 'contradiction',
  severity: 'error',
  title: 'A reflectance is written as a positive number',
  explanation:
    'Less light comes back than was sent, so a reflectance is negative: −48 dB. The same seen as a loss is the return loss, 48 dB, which is positive and of which more is better. Instruments show one or the other; a reading is written as reflectance. Where a whole block was typed as return loss, write values reflectance in dB sign negative, for the whole block.',
  source: 'Definitions of reflectance and return loss in IEC 61300-3-6, from memory.',
  bad: example(angledPlan, multimodeSetup, reflected('62.0')),
  good: example(angledPlan, multimodeSetup, reflected('-62.0')),
  link: noticed(
    'reflectance-positive',
    (d) =>
      `${d.Key}: ${d.text('because')}. Look which of the two the instrument shows; if the whole block is return loss, write sign negative behind its values.`,
  ),
};
