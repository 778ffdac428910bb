import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const bendOrSwapMm: Check = {
  name: 'bend-or-swap-mm',
  kind: 'doubt',
  severity: 'warning',
  title: '1300 nm loses more than 850 nm',
  explanation:
    'Multimode fibre attenuates about twice as much at 850 nm as at 1300 nm. If 1300 nm reads higher, the two values were most likely exchanged; a tight bend is the other cause.',
  source:
    'Attenuation of multimode categories (ISO/IEC 11801-1, IEC 60793-2-10); threshold of 0.1 dB common practice.',
  bounds: [W.inversion],
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  0.84  1.12', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'bend-or-swap-mm',
    (d) =>
      `Fibre ${d.text('fibre')}${d.has('direction') ? ` ${d.text('direction')}` : ''} lost ${d.db('lossLong')} at ${d.text('long')} nm and ${d.db('lossShort')} at ${d.text('short')} nm, ${d.db('difference')} more at the longer. Multimode fibre does the opposite: look whether the two columns were exchanged, then for a bend.`,
  ),
};
