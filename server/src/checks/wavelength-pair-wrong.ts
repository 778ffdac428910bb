import { type Picometres, toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkModel, Mode } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan, multimodeSetup, readings } from './examples.ts';
import { inNm } from './figures.ts';

/** Windows in which test sources for a mode work, in nanometres. Nominal tolerance ±30 nm is from memory. */
const windows: Readonly<Record<Mode, readonly (readonly [number, number])[]>> = {
  multimode: [
    [820, 960],
    [1270, 1330],
  ],
  'single-mode': [[1260, 1675]],
  plastic: [[450, 700]],
};

function fits(mode: Mode, nanometres: number): boolean {
  // 1310 nm is the single-mode window's name; multimode sources are called 1300 nm.
  if (mode === 'multimode' && nanometres === 1310) return false;
  if (mode === 'single-mode' && nanometres === 1300) return false;
  return windows[mode].some(([from, to]) => nanometres >= from && nanometres <= to);
}

/** Whether every fibre of the path states its loss there: hard-clad silica at 650 nm is used at what its maker says. */
function stated(link: LinkModel, wavelength: Picometres): boolean {
  const fibres = link.path.flatMap((element) =>
    (element.kind === 'segment' || element.kind === 'cord') && element.fibre ? [element.fibre] : [],
  );
  return (
    fibres.length > 0 &&
    fibres.every(({ attenuation }) => attenuation.some((one) => one.wavelength === wavelength))
  );
}

function* find({ link, evidence }: LinkContext): Iterable<Found> {
  if (!link.mode) return;
  const said = new Set<number>();
  for (const reading of evidence.readings) {
    const nanometres = toNanometres(reading.wavelength);
    if (said.has(reading.wavelength) || fits(link.mode, nanometres)) continue;
    said.add(reading.wavelength);
    if (stated(link, reading.wavelength)) continue;
    const usual =
      link.mode === 'multimode'
        ? '850 and 1300 nm'
        : link.mode === 'plastic'
          ? '650 nm'
          : '1310, 1550 and 1625 nm';
    yield {
      place: reading.place,
      message:
        `${inNm(reading.wavelength)} is no test wavelength of ${link.mode} fibre (usual: ${usual}), and ${link.name} is ${link.mode}. ` +
        `Look at the heading, and whether the source was the right one.`,
      details: { wavelength: nanometres, link: link.name },
    };
  }
}

export const wavelengthPairWrong: Check = {
  name: 'wavelength-pair-wrong',
  kind: 'doubt',
  severity: 'warning',
  title: 'A reading’s wavelength does not belong to the link’s fibre',
  explanation:
    'Multimode links are tested at 850 and 1300 nm, single-mode at 1310 and 1550 nm (and 1625 nm). ' +
    'A wavelength of the other family means a wrong heading, a wrong source, or a wrong link. ' +
    'Where every fibre states a loss at the wavelength read, as hard-clad silica does at 650 nm, it belongs there.',
  source: 'IEC 61280-4-1 and IEC 61280-4-2 (nominal wavelengths); tolerance of ±30 nm from memory.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    readings('MM-1', '1310 nm A>B', ['1  1.12', '2  1.08']),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    readings('MM-1', '850 nm A>B, 1300 nm A>B', ['1  1.12  0.84', '2  1.08  0.80']),
  ),
  link: find,
};
