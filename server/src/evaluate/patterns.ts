/**
 * Patterns across readings: directions that differ or are copied, wavelengths
 * that show a bend, values that stand out, attempts that do not agree, and what
 * is wrong with a whole batch. They judge nothing; they say where to look.
 */
import { type BatchDoubt, batchesOf, goodOf, type Standing } from './batches.ts';
import type { Context } from './context.ts';
import { directionsDoubts } from './patterns-directions.ts';
import { type FewReadings, fewReadingsOf, levelDoubts } from './patterns-level.ts';
import { mateDoubts } from './patterns-mates.ts';
import { numberingDoubts } from './patterns-numbering.ts';
import { orderDoubts } from './patterns-order.ts';
import { repeatedDoubts } from './patterns-repeated.ts';
import { wavelengthDoubts } from './patterns-wavelengths.ts';

export function* doubtsOfPatterns(context: Context, settled: Standing): Iterable<BatchDoubt> {
  const good = goodOf(context, settled);
  const batches = batchesOf(context, good);
  yield* directionsDoubts(context, settled, good);
  yield* wavelengthDoubts(context, good, batches);
  yield* levelDoubts(batches);
  yield* orderDoubts(batches);
  yield* repeatedDoubts(context, good);
  yield* numberingDoubts(context, settled, batches);
  yield* mateDoubts(context, settled, good);
}

/** What the object's few readings with a set-up give to say together with those of other objects. */
export function fewReadings(context: Context, settled: Standing): readonly FewReadings[] {
  return fewReadingsOf(batchesOf(context, goodOf(context, settled)));
}
