import { roundedLosses } from '../evaluate/thresholds.ts';
import type { ReadingCell } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

/** Blocks of readings in which no loss has a second decimal. */
function* find({ evidence }: LinkContext): Iterable<Found> {
  const blocks = new Map<number, ReadingCell[]>();
  for (const cell of evidence.readings) {
    if (cell.quantity === 'reflectance' || cell.typed === 'dark') continue;
    const block = blocks.get(cell.place.block);
    if (block) block.push(cell);
    else blocks.set(cell.place.block, [cell]);
  }
  for (const cells of blocks.values()) {
    const [first] = cells;
    if (!first || cells.length < roundedLosses || !cells.every(isCoarse)) continue;
    yield {
      place: first.place,
      message:
        `None of these ${cells.length} figures has more than one decimal. A meter shows a hundredth of a decibel: ` +
        'rounded by a tenth, a reading may come to lie on the other side of its limit. Type what the instrument showed.',
      details: { readings: cells.length },
    };
  }
}

/** At most one decimal, in decibels. */
function isCoarse({ typed }: ReadingCell): boolean {
  return typed !== 'dark' && /^dBm?$/u.test(typed.unit) && !/\.\d\d/u.test(typed.digits);
}

const plan = (...rows: readonly string[]) =>
  example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..4'),
    multimodeSetup,
    multimodeReadings(...rows),
  );

export const resolutionSuspect: Check = {
  name: 'resolution-suspect',
  kind: 'note',
  severity: 'warning',
  title: 'Readings look rounded',
  explanation:
    'Limits are compared without rounding. Figures typed to a tenth of a decibel hide up to half of that in each direction, as much as the repeatability of a good set-up, and directions and wavelengths can no longer be compared.',
  source: 'Common practice, no source: power meters show 0.01 dB.',
  bad: plan('1  1.1  0.8', '2  1.0  0.8', '3  1.2  0.9', '4  1.1  0.8'),
  good: plan('1  1.12  0.84', '2  1.04  0.80', '3  1.2  0.91', '4  1.1  0.8'),
  link: find,
};
