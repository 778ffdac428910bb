import { micrometres } from '../../../grammar/src/quantity/index.ts';
import { longestByDispersion } from '../optics/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { inMetres } from './figures.ts';
import { failing, lightInWords, windowDetails } from './light-windows.ts';

/** To a hundredth; what is less than half of one keeps its digits, so that no excess is said to be nothing. */
const perNm = (value: number) => {
  const shown = Number((value / 1e6).toFixed(2));
  return `${shown === 0 ? Number((value / 1e6).toFixed(6)) : shown} ps/nm`;
};

function* find({ result }: LinkContext): Iterable<Found> {
  const over = failing(result, ({ dispersion }) =>
    dispersion?.path === undefined ? undefined : dispersion.bears - dispersion.path,
  );
  for (const [worst, ...others] of over) {
    const { dispersion, to, place } = worst.power;
    if (dispersion?.path === undefined) continue;
    const { path, bears } = dispersion;
    const { length } = result;
    // The same fibre all along: the reach shrinks as the dispersion does.
    const longest =
      worst.way === undefined && length !== undefined
        ? longestByDispersion(bears, (path * 1e9) / length)
        : undefined;
    yield {
      place,
      message:
        `${lightInWords(worst, others)}: the path spreads the light by up to ${perNm(path)}, ${perNm(path - bears)} more than ${to} bears.` +
        `${longest === undefined ? '' : ` Such a path may be ${inMetres(micrometres(longest - (longest % 1_000_000)))} long.`} ` +
        `Look at the fibre’s zero and slope at this wavelength, or for a transceiver that bears more.`,
      details: { ...windowDetails(worst), dispersion: path / 1e6, bears: bears / 1e6 },
    };
  }
}

export const dispersionExceeded: Check = {
  name: 'dispersion-exceeded',
  kind: 'note',
  severity: 'error',
  title: 'The path spreads the light more than the receiver bears',
  explanation:
    'Chromatic dispersion adds up with length, whatever the loss. The sum of what each fibre adds at the sender’s wavelength must stay within what the receiver bears; a strong signal does not help. A fibre states its most at a wavelength, or where its dispersion is zero and with what slope; lengths are those along the fibre.',
  source:
    'D(λ) = S0/4·(λ − λ0⁴/λ³), ITU-T G.652 (from memory and textbooks); most per wavelength: makers’ data sheets.',
  bad: example(singleModePlan, farTransceiver.replace('1600 ps/nm', '400 ps/nm'), longLink),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
