import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import { sameWindow } from '../evaluate/thresholds.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  readings,
  singleModeLink,
  singleModePlan,
  singleModeReadings,
  singleModeSetup,
} from './examples.ts';
import { inNm } from './figures.ts';

/** Single-mode links that were read, all in one window, and of which no trace is there. */
function* find({ link, evidence }: LinkContext): Iterable<Found> {
  if (link.kind !== 'link' || link.mode !== 'single-mode') return;
  const losses = evidence.readings.filter(({ quantity }) => quantity !== 'reflectance');
  const [first] = losses;
  if (!first || evidence.events.length > 0) return;
  if (
    [...losses.map(({ wavelength }) => wavelength), ...link.terms.measure].some(
      (other) => !sameWindow(other, first.wavelength),
    )
  )
    return;
  yield {
    place: link.namePlace,
    message:
      `${link.name} was read at ${inNm(first.wavelength)} alone. A bend shows by what the longer wavelength loses more, so none can be excluded here. ` +
      'Measure at a second wavelength as well, 1310 and 1550 nm as a rule.',
    details: { link: link.name, wavelength: toNanometres(first.wavelength) },
  };
}

export const bendNotExcluded: Check = {
  name: 'bend-not-excluded',
  kind: 'note',
  severity: 'note',
  title: 'Readings at one wavelength cannot show a bend',
  explanation:
    'On single-mode fibre a tight bend takes little at 1310 nm and much at 1550 nm, while a joint takes the same at both. Only the two together tell one from the other. A reading at one wavelength may pass with a bend in it that grows.',
  source:
    'Bend loss rises with wavelength (ITU-T G.652, G.657: bend limits are stated at 1550 and 1625 nm); that two are read is common practice.',
  bad: example(
    singleModePlan.replace('1310 nm, 1550 nm', '1310 nm'),
    singleModeLink,
    singleModeSetup,
    readings('SM-1', '1310 nm A>B', ['1  0.72', '2  0.68']),
  ),
  good: example(
    singleModePlan,
    singleModeLink,
    singleModeSetup,
    singleModeReadings('1  0.72  0.62', '2  0.68  0.58'),
  ),
  link: find,
};
