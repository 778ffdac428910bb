import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inNm, microInDbm } from './figures.ts';

/** Bounds in micro-dBm: +5 and −35 dBm. Common practice, no source. */
const GREATEST = 5_000_000;
const LEAST = -35_000_000;

function* find({ setup }: SetupContext): Iterable<Found> {
  for (const event of setup.events) {
    if (event.kind !== 'taken' || (event.power <= GREATEST && event.power >= LEAST)) continue;
    yield {
      place: event.place,
      message:
        `A reference of ${microInDbm(event.power)} at ${inNm(event.wavelength)} is outside what a test source gives ` +
        `through a cord (${microInDbm(LEAST)} to ${microInDbm(GREATEST)}). Look at the unit: dBm, or µW typed as dBm?`,
      details: { setup: setup.name, power: event.power },
    };
  }
}

export const referencePowerImplausible: Check = {
  name: 'reference-power-implausible',
  kind: 'doubt',
  severity: 'warning',
  title: 'A reference power that no test source gives',
  explanation:
    'Test sources give between about −35 and +5 dBm into a launch cord. A figure outside is most often a power in µW typed as dBm, or a reference taken with the launch plug not seated.',
  source: 'Common practice, no source; the bounds are ours.',
  bad: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('850 nm -20.05 dBm', '850 nm 9.88 dBm'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  setup: find,
};
