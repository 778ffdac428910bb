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

export const rowsRepeated: Check = {
  name: 'rows-repeated',
  kind: 'doubt',
  severity: 'warning',
  title: 'Rows repeat the values of other rows',
  explanation:
    'Two fibres seldom show the same digits, and several in a row hardly ever. Where they do, rows were pasted twice or filled in. How often the values of a column occur says how many rows may be alike by chance; where one value stands all along, the scatter says it that two readings of one set-up have.',
  source:
    'Chance of equal values by how often each occurs (counting); the bound of one in a million is ours, see the error study.',
  bounds: [W.repeated],
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
      '7  1.12  0.81',
      '8  1.05  0.75',
      '9  1.09  0.80',
      '10  1.17  0.86',
      '11  1.02  0.72',
      '12  1.14  0.85',
    ),
  ),
  good: soundBatch,
  link: noticed(
    'rows-repeated',
    (d) =>
      `Fibres ${d.text('fibres')} have digit for digit the values of ${/^\d+$/u.test(d.text('like')) ? 'fibre' : 'fibres'} ${d.text('like')}: ${d.number('rows')} rows of ${d.number('readings') === 1 ? 'one reading' : `${d.number('readings')} readings`}. Chance does not make so many. Look whether a part of the table was pasted twice, and type what was measured.`,
  ),
};
