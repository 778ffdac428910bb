import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
  soundBatch,
} from './examples.ts';

export const levelChanges: Check = {
  name: 'level-changes',
  kind: 'doubt',
  severity: 'warning',
  title: 'From one fibre on all readings lie elsewhere',
  explanation:
    'Losses of one batch scatter about one level. Where they jump at one fibre and stay, the cause is shared by all that was measured after it: a test cord that went bad, a plug that got dirty, a reference taken anew. Another cassette that begins at this fibre does the same, and is answered in words.',
  source:
    'Rank test of Mann and Whitney (1947) at every place, noise from neighbours’ differences; bounds are ours, see the error study.',
  bounds: [W.course],
  bad: example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..12'),
    multimodeSetup,
    multimodeReadings(
      '1  1.12  0.81',
      '2  1.05  0.75',
      '3  1.09  0.80',
      '4  1.17  0.86',
      '5  1.02  0.72',
      '6  1.14  0.85',
      '7  1.48  1.17',
      '8  1.46  1.16',
      '9  1.55  1.26',
      '10  1.44  1.13',
      '11  1.51  1.21',
      '12  1.47  1.18',
    ),
  ),
  good: soundBatch,
  link: noticed(
    'level-changes',
    (d) =>
      `From fibre ${d.text('fibre')} on all readings lie ${d.db('size')} ${d.number('up') === 1 ? 'higher' : 'lower'} than up to fibre ${d.text('before')} (${d.text('wavelengths')} nm, ${d.text('directions')}). Most likely a test cord of set-up ${d.text('setup')} ${d.number('up') === 1 ? 'went bad or got dirty' : 'was cleaned or changed'} there: inspect it, check the reference, and measure fibres ${d.text('later')} again. If other parts begin at fibre ${d.text('fibre')}, say so.`,
  ),
};
