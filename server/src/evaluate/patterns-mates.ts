/** A reading beside its mates, and an attempt beside the one before. */
import { type MicroDb, microDb } from '../../../grammar/src/quantity/index.ts';
import { exceedsRootTwo, median, medianDeviation, standardDeviation } from '../optics/index.ts';
import { pathOf, type Standing } from './batches.ts';
import { boundsOf } from './bounds.ts';
import type { Context } from './context.ts';
import { exact, keyDetails, numbersInWords } from './doubts.ts';
import { db } from './reasons.ts';
import type { Doubt } from './result.ts';
import type { Attempt } from './settle.ts';
import { outlierDeviations } from './thresholds.ts';

export function* mateDoubts(
  context: Context,
  settled: Standing,
  good: readonly Attempt[],
): Iterable<Doubt> {
  yield* outliers(context, good);
  yield* unrepeatable(settled);
  yield* otherMethod(context, good);
}

/** A pass that stands out from its mates in the same link: a poor joint hides in a generous limit. */
function* outliers(context: Context, good: readonly Attempt[]): Iterable<Doubt> {
  const groups = new Map<string, Attempt[]>();
  // Mates take one path: ends of a tree may lie far apart.
  const paths = new Map<Context, number>();
  for (const attempt of good) {
    const { wavelength, direction } = attempt.measurement.cell;
    const own = pathOf(context, attempt);
    const path = paths.get(own) ?? paths.size;
    paths.set(own, path);
    const key = `${wavelength} ${direction} ${path}`;
    const group = groups.get(key);
    if (group) group.push(attempt);
    else groups.set(key, [attempt]);
  }
  const { outlier, outlierMates } = boundsOf(context.settings);
  for (const group of groups.values()) {
    if (group.length < outlierMates) continue;
    const losses = group.map((attempt) => attempt.result.loss as MicroDb);
    const [middle, spread] = [median(losses), medianDeviation(losses)];
    if (middle === undefined || spread === undefined) continue;
    const usual = [...losses].sort((a, b) => a - b).slice(0, -2);
    const scatter = outlierDeviations(group.length) * standardDeviation(usual);
    const bound = microDb(middle + Math.max(Math.round(scatter), outlier));
    for (const attempt of group) {
      const { loss, verdict } = attempt.result;
      if (verdict !== 'pass' || loss === undefined || loss <= bound) continue;
      yield {
        name: 'pass-but-outlier',
        place: attempt.measurement.cell.place,
        details: {
          ...keyDetails(attempt),
          loss: db(loss),
          median: db(middle),
          deviation: db(spread),
          bound: db(bound),
          mates: group.length,
        },
      };
    }
  }
}

/** Two valid attempts with no work between them differ by more than both uncertainties allow: U·√2. */
function* unrepeatable(settled: Standing): Iterable<Doubt> {
  for (const { attempts, current } of settled.values()) {
    if (!current?.valid || current.result.verdict === 'stale') continue;
    const before = attempts.findLast(
      (attempt) => attempt.number < current.number && attempt.valid && !attempt.withdrawn,
    );
    if (!before || before.result.verdict === 'stale') continue;
    const [a, b] = [before.result.loss, current.result.loss];
    if (a === undefined || b === undefined) continue;
    const difference = microDb(Math.abs(a - b));
    const { uncertainty } = current.result;
    if (uncertainty === 0 || !exceedsRootTwo(difference, uncertainty)) continue;
    yield {
      name: 'not-repeatable',
      place: current.measurement.cell.place,
      related: [{ place: before.measurement.cell.place, message: 'the attempt before' }],
      details: {
        ...keyDetails(current),
        loss: db(b),
        before: db(a),
        difference: db(difference),
        bound: Number((db(uncertainty) * Math.SQRT2).toFixed(4)),
        uncertainty: db(uncertainty),
      },
    };
  }
}

/** Another number of cords than the plan wants: judged by its own, and said. */
function* otherMethod(context: Context, good: readonly Attempt[]): Iterable<Doubt> {
  const wanted = context.link.terms.reference;
  if (!wanted) return;
  const bySetup = new Map<string, Attempt[]>();
  for (const attempt of good) {
    if (!attempt.result.method || attempt.result.method === wanted) continue;
    const { setup } = attempt.measurement.cell;
    bySetup.set(setup, [...(bySetup.get(setup) ?? []), attempt]);
  }
  for (const [setup, attempts] of bySetup) {
    const [first] = attempts;
    if (!first) continue;
    yield {
      name: 'method-limit-mismatch',
      place: first.measurement.cell.place,
      details: {
        setup,
        wanted,
        used: first.result.method ?? '',
        readings: attempts.length,
        fibres: numbersInWords(attempts.map((attempt) => attempt.measurement.cell.fibre)),
        ...(first.result.limit?.value === undefined
          ? {}
          : { limit: exact(first.result.limit.value) }),
      },
    };
  }
}
