import { toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { ReadingResult } from '../evaluate/result.ts';
import { nearFloor } from '../evaluate/thresholds.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { fibresInWords, inNm, microInDb, microInDbm } from './figures.ts';

/** Standing readings whose light was hardly more than the meter's floor, once for each set-up. */
function* find({ result, setup }: LinkContext): Iterable<Found> {
  const weak = new Map<string, { floor: number; power: number; readings: ReadingResult[] }>();
  for (const reading of result.readings) {
    if (!reading.current || reading.setup === undefined || reading.reading?.typed === 'dark')
      continue;
    // What cannot be is told as that.
    if (reading.verdict === 'invalid') continue;
    const floor = setup(reading.setup)?.meter?.floor;
    const power = powerOf(reading);
    if (floor === undefined || power === undefined || power > floor + nearFloor) continue;
    const known = weak.get(reading.setup);
    if (known) known.readings.push(reading);
    else weak.set(reading.setup, { floor, power, readings: [reading] });
  }
  for (const { floor, power, readings } of weak.values()) {
    const [first] = readings;
    if (!first?.reading) continue;
    const fibres = [...new Set(readings.map(({ fibre }) => fibre))];
    yield {
      place: first.reading.place,
      message:
        `${readings.length === 1 ? 'One reading' : `${readings.length} readings`} with ${first.setup} (${fibresInWords(fibres)}): ${microInDbm(power)} at ${inNm(first.wavelength)}${readings.length > 1 ? ' and the like' : ''}, within ${microInDb(nearFloor)} of the ${microInDbm(floor)} that its meter can see at least. ` +
        'Such a figure is mostly noise. Look whether light comes through at all; where none does, write dark.',
      details: {
        wavelength: toNanometres(first.wavelength),
        power,
        floor,
        fibres: fibres.length,
      },
    };
  }
}

/** As read, or by the reference that the loss was read against. */
function powerOf({ power, reference, loss }: ReadingResult): number | undefined {
  if (power !== undefined) return power;
  return reference === undefined || loss === undefined ? undefined : reference - loss;
}

const plan = (floor: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace('floor -60 dBm', `floor ${floor}`),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  );

export const powerBelowFloor: Check = {
  name: 'power-below-floor',
  kind: 'doubt',
  severity: 'warning',
  title: 'A reading lies at the floor of its meter',
  explanation:
    'Near the least power that a meter can see it shows its own noise, whether light comes or not. A large loss read there is most often no loss but a break, a wrong fibre or a cap left on: the figure says nothing of the link. Look for the light with a fault finder (class 2 at most, never into an eye), then measure again or write dark.',
  source: 'Common practice, no source: a reading within 3 dB of the floor is not used.',
  bad: plan('-23 dBm'),
  good: plan('-60 dBm'),
  link: find,
};
