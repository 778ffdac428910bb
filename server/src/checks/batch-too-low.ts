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
import { orItsLength } from './spoken-length.ts';

export const batchTooLow: Check = {
  name: 'batch-too-low',
  kind: 'doubt',
  severity: 'warning',
  title: 'A whole batch loses less than its parts can make likely',
  explanation:
    'What all readings of a set-up share is their reference and its cords. A dirty plug while the reference was taken makes all of them too low by what it lost; a receive cord that was never put in makes them too low by one pair. Both are on the unsafe side. The median of the batch is compared with the least that its parts make likely by their typical figures.',
  source:
    'Rule of what a reading holds (IEC 61280-4-1 and -4-2, configurations of the reference); shares of the typical figures are ours, see the error study.',
  bounds: [W.tooLow],
  bad: example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..12'),
    multimodeSetup,
    multimodeReadings(
      '1  0.57  0.31',
      '2  0.50  0.25',
      '3  0.54  0.30',
      '4  0.62  0.36',
      '5  0.47  0.22',
      '6  0.59  0.35',
      '7  0.53  0.27',
      '8  0.51  0.26',
      '9  0.60  0.36',
      '10  0.49  0.23',
      '11  0.56  0.31',
      '12  0.52  0.28',
    ),
  ),
  good: soundBatch,
  link: noticed(
    'batch-too-low',
    (d, context) =>
      `${d.beginReadings('is', 'are')} low together: at ${d.text('wavelength')} nm the median is ${d.db('median')}, and what lies on this path makes less than ${d.db('least')} unlikely. ${d.has('onePair') ? 'One pair is missing: look whether the receive cord was in place. Else the' : 'The'} reference of set-up ${d.text('setup')} was taken with a dirty plug${d.has('onePair') ? '' : ', or the receive cord was not in place'}: inspect the cords, take the reference again and measure three fibres anew.${orItsLength(context)}`,
  ),
};
