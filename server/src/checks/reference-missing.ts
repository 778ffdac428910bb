import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const referenceMissing: Check = {
  name: 'reference-missing',
  kind: 'contradiction',
  severity: 'error',
  title: 'A reading has no reference at its wavelength',
  explanation:
    'A loss is the difference between a reference power and what arrived. Without a reference of the same set-up and wavelength, taken before the reading, the figure has no meaning, whatever it says.',
  source:
    'MIL-STD-2042-6 methods 6C1 and 6E1 ask for the reference power to be recorded; IEC 61280-4-1.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(/ {2}taken .*1300 nm.*\n/u, ''),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'reference-missing',
    (d) =>
      `${d.beginReadings('cannot', 'cannot')} be judged: ${d.text('because')}. Write taken with the power and time of the reference, or name the set-up they were made with.`,
  ),
};
