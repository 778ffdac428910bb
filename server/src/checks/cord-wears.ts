import type { Check, Found, SetupContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { microInDb } from './figures.ts';

/** Rises of less than this in all are how far two good matings differ. Common practice, no source. */
const LEAST_RISE = 50_000;
const FEWEST = 3;

const plan = (...losses: readonly string[]) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup.replace(
      '}',
      `${losses.map((loss, index) => `  verified    2026-03-14 ${10 + index}:00 TC-2 ${loss} dB\n`).join('')}}`,
    ),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  );

/** A cord that lost more each time it was verified; told where it did last. */
function* find({ setup }: SetupContext): Iterable<Found> {
  const verified = setup.events.filter((event) => event.kind === 'verified');
  for (const cord of new Set(verified.map((event) => event.cord))) {
    const own = verified.filter((event) => event.cord === cord);
    // Since it last stood still or fell.
    let start = own.length - 1;
    while (start > 0 && own[start - 1]!.loss < own[start]!.loss) start -= 1;
    const [first, last] = [own[start], own.at(-1)];
    if (!first || !last || own.length - start < FEWEST) continue;
    const rise = last.loss - first.loss;
    if (rise < LEAST_RISE) continue;
    yield {
      place: last.place,
      related: [{ place: first.place, message: `It lost ${microInDb(first.loss)} here.` }],
      message: `${cord} lost more each of the last ${own.length - start} times it was verified, from ${microInDb(first.loss)} to ${microInDb(last.loss)}. Inspect and clean its plugs; if it goes on, take another cord.`,
      details: { cord, setup: setup.name, rise: rise / 1e6 },
    };
  }
}

export const cordWears: Check = {
  name: 'cord-wears',
  kind: 'note',
  severity: 'warning',
  title: 'A test cord loses more each time it is verified',
  explanation:
    'Every mating marks a plug a little, and dirt builds up on one that is not cleaned. A cord whose check rises steadily is still good while it stays within its grade, and every reading made with it is a little too high. It is cleaned or replaced before it is out of its grade and all of them are lost.',
  source: 'Common practice, no source; a rise of 0.05 dB over three checks is ours.',
  bad: plan('0.04', '0.07', '0.09'),
  good: plan('0.04', '0.07', '0.05'),
  setup: find,
};
