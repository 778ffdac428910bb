/**
 * Patterns across readings: directions that differ or are copied, wavelengths
 * that show a bend, values that stand out, attempts that do not agree, and what
 * is wrong with a whole batch. They judge nothing; they say where to look.
 */
import type { Batch, BatchDoubt, Standing } from './batches.ts';
import type { Context } from './context.ts';
import { directionsDoubts } from './patterns-directions.ts';
import { levelDoubts } from './patterns-level.ts';
import { mateDoubts } from './patterns-mates.ts';
import { numberingDoubts } from './patterns-numbering.ts';
import { orderDoubts } from './patterns-order.ts';
import { repeatedDoubts } from './patterns-repeated.ts';
import { wavelengthDoubts } from './patterns-wavelengths.ts';
import type { Attempt } from './settle.ts';

/** Of the readings that count as measurements, `good`, and of their batches. */
export function* doubtsOfPatterns(
  context: Context,
  settled: Standing,
  good: readonly Attempt[],
  batches: readonly Batch[],
): Iterable<BatchDoubt> {
  yield* directionsDoubts(context, settled, good);
  yield* wavelengthDoubts(context, good, batches);
  yield* levelDoubts(batches);
  yield* orderDoubts(batches);
  yield* repeatedDoubts(context, good);
  yield* numberingDoubts(context, settled, batches);
  yield* mateDoubts(context, settled, good);
}
