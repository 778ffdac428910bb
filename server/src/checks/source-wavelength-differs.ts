import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import { sameWindow } from '../evaluate/thresholds.ts';
import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inNm } from './figures.ts';

/** Wavelengths referenced that the source does not send, each once. */
function* find({ setup }: SetupContext): Iterable<Found> {
  const { source } = setup;
  if (!source || source.wavelengths.length === 0) return;
  const told = new Set<number>();
  for (const event of setup.events) {
    if (event.kind !== 'taken' || told.has(event.wavelength)) continue;
    if (source.wavelengths.some((sent) => sameWindow(sent, event.wavelength))) continue;
    told.add(event.wavelength);
    yield {
      place: event.place,
      related: [{ place: source.place, message: `${source.text} and what it sends` }],
      message:
        `A reference is taken at ${inNm(event.wavelength)}, and ${source.text} sends ${source.wavelengths.map(inNm).join(' and ')}. ` +
        'A meter set to another wavelength than the light reads by a wrong factor. Correct the wavelength, or what the source sends.',
      details: { setup: setup.name, wavelength: toNanometres(event.wavelength) },
    };
  }
}

const plan = (sent: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('"S-3" LED', `"S-3" LED wavelength ${sent}`),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  );

export const sourceWavelengthDiffers: Check = {
  name: 'source-wavelength-differs',
  kind: 'doubt',
  severity: 'warning',
  title: 'A reference was taken at a wavelength that the source does not send',
  explanation:
    'Source and meter are set by hand, each for itself. A meter answers differently to each wavelength, and a fibre loses differently at each: with the two apart neither the power nor the limit belongs to the light that was there.',
  source:
    'Common practice, no source; nominal windows are ±30 nm (IEC 61280-4-1 and -4-2, from memory).',
  bad: plan('850 nm'),
  good: plan('850 nm, 1300 nm'),
  setup: find,
};
