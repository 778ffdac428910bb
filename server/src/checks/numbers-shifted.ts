import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

export const numbersShifted: Check = {
  name: 'numbers-shifted',
  kind: 'doubt',
  severity: 'warning',
  title: 'Values fit other fibre numbers better than their own',
  explanation:
    'The joints of a fibre lose alike in both directions, at both wavelengths, and when it is measured again, so two rows of values go up and down together fibre by fibre. Where they do so only when one of them is moved by a number, one of them was numbered wrongly: begun at the wrong port, or counted by another step. A table in which all columns share the mistake shows it only beside an earlier one.',
  source: 'Correlations compared by the z of Fisher (1915); bounds are ours, see the error study.',
  bounds: [W.numbered],
  bad: example(
    multimodePlan
      .replace('directions  A>B', 'directions  both')
      .replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('1..2', '1..16'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm B>A', [
      '1  1.10  1.30',
      '2  1.31  1.03',
      '3  1.02  1.26',
      '4  1.24  0.93',
      '5  0.95  1.39',
      '6  1.40  1.16',
      '7  1.15  1.01',
      '8  0.99  1.26',
      '9  1.28  1.06',
      '10  1.07  1.37',
      '11  1.36  0.95',
      '12  0.93  1.17',
      '13  1.19  1.03',
      '14  1.04  1.34',
      '15  1.33  1.14',
      '16  1.12  1.13',
    ]),
  ),
  good: example(
    multimodePlan
      .replace('directions  A>B', 'directions  both')
      .replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('1..2', '1..16'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm B>A', [
      '1  1.10  1.08',
      '2  1.31  1.30',
      '3  1.02  1.03',
      '4  1.24  1.26',
      '5  0.95  0.93',
      '6  1.40  1.39',
      '7  1.15  1.16',
      '8  0.99  1.01',
      '9  1.28  1.26',
      '10  1.07  1.06',
      '11  1.36  1.37',
      '12  0.93  0.95',
      '13  1.19  1.17',
      '14  1.04  1.03',
      '15  1.33  1.34',
      '16  1.12  1.14',
    ]),
  ),
  link: noticed(
    'numbers-shifted',
    (d) =>
      `The values of ${d.text('what')} go with those of ${d.text('against')} ${d.text('shift')} (correlation ${d.text('other')}), not with their own (${d.text('own')}). Most likely one of them was begun at the wrong port or counted by another step. Look at which port that batch began, and put the numbers right; where in doubt measure two fibres again.`,
  ),
};
