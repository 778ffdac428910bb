import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

export const passButOutlier: Check = {
  name: 'pass-but-outlier',
  kind: 'note',
  severity: 'warning',
  title: 'A pass that stands out from its mates',
  explanation:
    'Fibres of one cable share length and joints, so their losses lie close together. One far above the median hides a poor joint under a generous limit. The median is used, and the scatter without the two greatest, since a bad value does not move them; where mates are few, more is asked.',
  source:
    'Robust statistics: median, and the scatter of the mates without the two greatest; that one to three of a thousand good batches may reach the bound is ours, see the error study, and so is the least of 0.2 dB.',
  bounds: [W.outlier],
  bad: example(
    multimodePlan.replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('1..2', '1..8'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B', [
      '1  1.02',
      '2  1.05',
      '3  0.98',
      '4  1.01',
      '5  1.66',
      '6  1.03',
      '7  1.00',
      '8  0.99',
    ]),
  ),
  good: example(
    multimodePlan.replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('1..2', '1..8'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B', [
      '1  1.02',
      '2  1.05',
      '3  0.98',
      '4  1.01',
      '5  1.07',
      '6  1.03',
      '7  1.00',
      '8  0.99',
    ]),
  ),
  link: noticed(
    'pass-but-outlier',
    (d) =>
      `${d.Key} lost ${d.db('loss')}; the ${d.number('mates')} fibres of this link have a median of ${d.db('median')}. It passes, and something in it is worse than in all the others. Inspect its joints before they are closed.`,
  ),
};
