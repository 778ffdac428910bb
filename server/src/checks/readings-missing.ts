import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

export const readingsMissing: Check = {
  name: 'readings-missing',
  kind: 'note',
  severity: 'note',
  title: 'Readings that the plan asks for are not there',
  explanation:
    'Every fibre that ends at the link, lit or dark, is measured at each wavelength and direction the plan names, less fibres declared dead. Nothing is inferred from another wavelength or direction. A row count that matches is no proof: keys are compared.',
  source:
    '100 % of fibres tested is the norm of public specifications; wavelengths and directions as the plan’s measure and directions say.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  -'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: noticed(
    'readings-missing',
    (d) =>
      `${d.number('missing')} of ${d.number('expected')} readings are still to make: ${d.text('list')}${d.number('more') > 0 ? `; ${d.text('more')} more` : ''}.`,
  ),
};
