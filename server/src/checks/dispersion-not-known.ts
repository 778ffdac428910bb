import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { inNm } from './figures.ts';
import { litWays } from './light-windows.ts';

/** Once for each line that names a transceiver whose tolerance cannot be held against the path. */
function* find({ result }: LinkContext): Iterable<Found> {
  const told = new Set<string>();
  for (const { power } of litWays(result)) {
    const { dispersion, place, to, wavelength } = power;
    const key = `${place.block}|${place.span.start}|${to}|${wavelength}`;
    if (!dispersion || dispersion.path !== undefined || wavelength === 0 || told.has(key)) continue;
    told.add(key);
    const bears = `${Number((dispersion.bears / 1e6).toFixed(6))} ps/nm`;
    yield {
      place,
      message:
        `${to} bears ${bears}, and a fibre of the path states no dispersion at ${inNm(wavelength)}: whether the light spreads too far is not known. ` +
        'Name the fibre by its kind, such as G.652.D, or write its dispersion.',
      details: { transceiver: to, wavelength: wavelength / 1000, bears: dispersion.bears / 1e6 },
    };
  }
}

export const dispersionNotKnown: Check = {
  name: 'dispersion-not-known',
  kind: 'note',
  severity: 'warning',
  title: 'What a receiver bears of dispersion cannot be held against the path',
  explanation:
    'The transceiver states how much dispersion it bears, and some fibre of the path states neither its most at that wavelength nor where it is zero and with what slope. A category of cabling, such as OS2, is a limit of loss and says nothing of it. Nothing is made up in its place, so the path is not judged by it.',
  source: 'Our own rule: what cannot be judged is said, and is no pass.',
  bad: example(singleModePlan, farTransceiver, longLink.replaceAll('G.652.D', 'OS2')),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
