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

export const driftWhileTesting: Check = {
  name: 'drift-while-testing',
  kind: 'doubt',
  severity: 'warning',
  title: 'Losses drift in the order of measuring',
  explanation:
    'A source that has not warmed up changes its power for minutes; the reference is left behind, and each loss is off by a little more than the one before. Losses that rise or fall steadily along the order of measuring show it. Fibres themselves have no reason to.',
  source:
    'Slope of Theil (1950) and Sen (1968), rank test of Mann (1945) and Kendall (1975); bounds are ours, see the error study.',
  bounds: [W.course],
  bad: example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..12'),
    multimodeSetup,
    multimodeReadings(
      '1  1.12  0.81',
      '2  1.13  0.83',
      '3  1.25  0.96',
      '4  1.41  1.10',
      '5  1.34  1.04',
      '6  1.54  1.25',
      '7  1.56  1.25',
      '8  1.62  1.32',
      '9  1.79  1.50',
      '10  1.76  1.45',
      '11  1.91  1.61',
      '12  1.95  1.66',
    ),
  ),
  good: soundBatch,
  link: noticed(
    'drift-while-testing',
    (d) =>
      `From fibre ${d.text('from')} to fibre ${d.text('to')} the losses ${d.number('up') === 1 ? 'rise' : 'fall'} steadily, by ${d.db('size')} in all (${d.text('wavelengths')} nm, ${d.text('directions')}). Most likely the source of set-up ${d.text('setup')} drifted while it warmed up: let it run, check its reference against the one written here, and measure this batch again.`,
  ),
};
