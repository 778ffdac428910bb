import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import {
  example,
  singleModeLink,
  singleModePlan,
  singleModeReadings,
  singleModeSetup,
} from './examples.ts';

export const wavelengthsExchanged: Check = {
  name: 'wavelengths-exchanged',
  kind: 'doubt',
  severity: 'warning',
  title: 'A whole batch loses more at the longer wavelength by what it should lose less',
  explanation:
    'Fibre loses more at the shorter wavelength, by its slope times its length. One fibre that does not is bent; a whole batch that is the other way round by about the same was written under the wrong headings, or measured with the source set to the other wavelength.',
  source:
    'Slope of the fibres’ own typical attenuation times their length (arithmetic); bounds are ours, see the error study.',
  bounds: [W.exchanged],
  bad: example(
    singleModePlan,
    singleModeLink.replace('1..2', '1..6').replace('800 m', '4 km'),
    singleModeSetup,
    singleModeReadings(
      '1  1.14  1.72',
      '2  1.09  1.66',
      '3  1.19  1.75',
      '4  1.12  1.70',
      '5  1.11  1.68',
      '6  1.17  1.73',
    ),
  ),
  good: example(
    singleModePlan,
    singleModeLink.replace('1..2', '1..6').replace('800 m', '4 km'),
    singleModeSetup,
    singleModeReadings(
      '1  1.72  1.14',
      '2  1.66  1.09',
      '3  1.75  1.19',
      '4  1.70  1.12',
      '5  1.68  1.11',
      '6  1.73  1.17',
    ),
  ),
  link: noticed(
    'wavelengths-exchanged',
    (d) =>
      `${d.beginReadings('is', 'are')} the wrong way round: at ${d.text('long')} nm they lose ${d.db('more')} more than at ${d.text('short')} nm, and this fibre loses ${d.db('slope')} less. Most likely the two headings are exchanged: compare them with what the instrument stored, then exchange them. If the headings are right, look for a bend that the whole cable shares.`,
  ),
};
