import { type Picometres, toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkModel, Place } from '../model/types.ts';
import { type Check, doubtsNamed, type Found, type LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import { inNm } from './figures.ts';

/** A reading answers an application in the same nominal window only: ±30 nm, from memory. */
const WINDOW_NM = 30;

function* find(context: LinkContext): Iterable<Found> {
  const { link } = context;
  yield* ofSharedLine(link);
  const measured = measuredAt(link);
  if (link.kind !== 'link' || measured.length === 0) return;
  // An application that is not made for this fibre is told so; it wants no wavelength here.
  const unsuited = new Set(
    [...doubtsNamed(context, 'application-fibre-unsuited')].map(({ place }) => place),
  );
  for (const carried of link.terms.carries) {
    if (unsuited.has(carried.place)) continue;
    const missing = carried.application?.wavelengths.find(
      ({ wavelength }) => !isMeasured(measured, wavelength),
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

/** The wavelength that a channel uses on a line, against what it and the links it takes are measured at. */
function* ofSharedLine(link: LinkModel): Iterable<Found> {
  const { wavelength } = link;
  if (link.kind !== 'channel' || wavelength === undefined) return;
  const objects: { readonly object: LinkModel; readonly place: Place }[] = [
    { object: link, place: link.namePlace },
    ...link.path.flatMap((element) =>
      element.kind === 'link' && element.link
        ? [{ object: element.link, place: element.place }]
        : [],
    ),
  ];
  for (const { object, place } of objects) {
    const measured = measuredAt(object);
    if (measured.length === 0 || isMeasured(measured, wavelength)) continue;
    yield {
      place,
      message:
        `${link.name} uses ${inNm(wavelength)}, and ${object.name} is to be measured at ${measured.join(', ')} nm only. ` +
        `No reading will answer for it. Add the wavelength to measure.`,
      details: { link: object.name, wavelength: toNanometres(wavelength) },
    };
  }
}

function measuredAt({ terms }: LinkModel): readonly number[] {
  return terms.measure.map((wavelength) => toNanometres(wavelength));
}

function isMeasured(measured: readonly number[], wavelength: Picometres): boolean {
  return measured.some((nm) => Math.abs(nm - toNanometres(wavelength)) <= WINDOW_NM);
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
