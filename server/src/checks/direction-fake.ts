import { W } from '../../../grammar/src/vocabulary/index.ts';
import { type Check, noticed } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';

export const directionFake: Check = {
  name: 'direction-fake',
  kind: 'doubt',
  severity: 'warning',
  title: 'Both directions are equal to the last digit',
  explanation:
    'Two measurements of one fibre from opposite ends differ by a few hundredths of a decibel. More than five fibres on which none differs were most likely measured once.',
  source: 'Common practice, no source.',
  bounds: [W.copied],
  bad: example(
    multimodePlan
      .replace('directions  A>B', 'directions  both')
      .replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('1..2', '1..6'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm B>A', [
      '1  1.12  1.12',
      '2  1.08  1.08',
      '3  1.10  1.10',
      '4  1.05  1.05',
      '5  1.16  1.16',
      '6  1.11  1.11',
    ]),
  ),
  good: example(
    multimodePlan
      .replace('directions  A>B', 'directions  both')
      .replace('850 nm, 1300 nm', '850 nm'),
    multimodeLink.replace('1..2', '1..6'),
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 850 nm B>A', [
      '1  1.12  1.14',
      '2  1.08  1.08',
      '3  1.10  1.09',
      '4  1.05  1.07',
      '5  1.16  1.13',
      '6  1.11  1.11',
    ]),
  ),
  link: noticed(
    'direction-fake',
    (d) =>
      `At ${d.text(d.has('wavelengths') ? 'wavelengths' : 'wavelength')} nm both directions are equal to the last digit on all of fibres ${d.text('fibres')}. Measured twice, some would differ by a hundredth. Look whether one direction was copied.`,
  ),
};
