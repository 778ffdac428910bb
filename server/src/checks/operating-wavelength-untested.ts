import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import { inNm } from './figures.ts';

/** A reading answers an application in the same nominal window only: ±30 nm, from memory. */
const WINDOW_NM = 30;

function* find({ link }: LinkContext): Iterable<Found> {
  const measured = link.terms.measure.map((wavelength) => toNanometres(wavelength));
  if (link.kind !== 'link' || measured.length === 0) return;
  for (const carried of link.terms.carries) {
    const missing = carried.application?.wavelengths.find(
      ({ wavelength }) =>
        !measured.some((nm) => Math.abs(nm - toNanometres(wavelength)) <= WINDOW_NM),
    );
    if (!missing) continue;
    yield {
      place: carried.place,
      message:
        `${carried.name} works at ${inNm(missing.wavelength)}, and ${link.name} is to be measured at ${measured.join(', ')} nm only. ` +
        `No reading will answer for it. Add the wavelength to measure.`,
      details: { link: link.name, wavelength: toNanometres(missing.wavelength) },
    };
  }
}

export const operatingWavelengthUntested: Check = {
  name: 'operating-wavelength-untested',
  kind: 'note',
  severity: 'warning',
  title: 'The wavelength an application works at is not in the test plan',
  explanation:
    'Loss at one wavelength says little of loss at another: bends show at the longer, dirt at both. A link is tested at least at the wavelength it will be used at.',
  source: 'TIA TSB-140 (advice to test at the operating wavelength), read second-hand.',
  bad: example(
    multimodePlan.replace('850 nm, 1300 nm', '1300 nm'),
    multimodeLink.replace('}', '  carries     10GBASE-SR\n}'),
  ),
  good: example(multimodePlan, multimodeLink.replace('}', '  carries     10GBASE-SR\n}')),
  link: find,
};
