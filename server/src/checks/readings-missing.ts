import { type Check, type Details, type LinkContext, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

function onceTested(sentence: (details: Details, context: LinkContext) => string) {
  const find = noticed('readings-missing', sentence);
  return (context: LinkContext) => (context.result.present > 0 ? find(context) : []);
}

/** Fewer fibres than this missing in step are chance. Common practice, no source. */
const inStep = 4;

/** Whether every second fibre, and no other, has no reading at all: an instrument that counted in twos. */
function everySecond({ link, result }: LinkContext): boolean {
  const dead = new Set(link.dead.map(({ fibre }) => fibre));
  const bare = result.fibres
    .filter(({ fibre }) => !dead.has(fibre))
    .map(({ current }) => current.every(({ verdict }) => verdict === 'untested'));
  const [first] = bare;
  return (
    bare.filter(Boolean).length >= inStep &&
    bare.every((missing, index) => missing === (index % 2 === 0 ? first : !first))
  );
}

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
  // Before the first reading of a link nothing is missing yet: its verdict and the tally say untested.
  link: onceTested(
    (d, context) =>
      `${d.number('missing')} of ${d.number('expected')} readings are still to make: ${d.text('list')}${d.number('more') > 0 ? `; ${d.text('more')} more` : ''}.${everySecond(context) ? ' Every second fibre is missing: look whether the instrument counted in steps of two.' : ''}`,
  ),
};
