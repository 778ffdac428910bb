/**
 * Patterns across readings: directions that differ or are copied, wavelengths
 * that show a bend, values that stand out, attempts that do not agree. They
 * judge nothing; they say where to look.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  type MicroDb,
  microDb,
  type Picometres,
  type RatePerKm,
  toMetres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Direction } from '../model/types.ts';
import {
  bendExcessOf,
  coreStepLoss,
  exceedsRootTwo,
  median,
  medianDeviation,
  slopeLoss,
} from '../optics/index.ts';
import type { Context } from './context.ts';
import { exact, keyDetails, numbersInWords } from './doubts.ts';
import { keyText } from './expected.ts';
import { ownFigures, ownRate } from './figures.ts';
import { fibresOf, hasCoreStep, lengthsOf } from './path.ts';
import { db, nm } from './reasons.ts';
import type { Doubt } from './result.ts';
import type { Attempt, Settled } from './settle.ts';
import { wholeSum } from './sums.ts';
import {
  bendExcess,
  copiedFibres,
  directionsDiffer,
  jointResidual,
  longAboveShort,
  outlierDeviations,
  outlierLeast,
  outlierMates,
  sameWindow,
  usualBendSlope,
} from './thresholds.ts';

type Standing = ReadonlyMap<string, Settled>;

export function* doubtsOfPatterns(context: Context, settled: Standing): Iterable<Doubt> {
  const good = [...settled.values()].flatMap(({ current }) =>
    current?.valid &&
    current.result.loss !== undefined &&
    current.result.verdict !== 'stale' &&
    context.link.fibres.includes(current.measurement.cell.fibre)
      ? [current]
      : [],
  );
  yield* asymmetry(context, settled, good);
  yield* copied(settled, good);
  yield* longWavelengths(context, good);
  yield* outliers(context, good);
  yield* unrepeatable(settled);
  yield* otherMethod(context, good);
}

/**
 * Both directions of one fibre far apart: a cord, dirt, or a step in core or
 * mode field. Where the limits of the two differ, a step was allowed for in one
 * direction, and so much more is expected there.
 */
function* asymmetry(
  context: Context,
  settled: Standing,
  good: readonly Attempt[],
): Iterable<Doubt> {
  const { average, within } = context.link.terms.directions;
  const bound = average && within !== undefined ? within : directionsDiffer;
  for (const a of good) {
    if (a.measurement.cell.direction !== 'A>B') continue;
    const b = partner(settled, a);
    if (b?.result.loss === undefined || a.result.loss === undefined) continue;
    const difference = a.result.loss - b.result.loss;
    const allowed = limitOf(a) - limitOf(b);
    if (difference >= Math.min(0, allowed) - bound && difference <= Math.max(0, allowed) + bound)
      continue;
    const greater = difference > 0 ? a : b;
    yield {
      name: 'direction-asymmetry',
      place: greater.measurement.cell.place,
      related: [
        { place: (greater === a ? b : a).measurement.cell.place, message: 'the other direction' },
      ],
      details: {
        ...keyDetails(greater),
        forward: db(a.result.loss),
        back: db(b.result.loss),
        difference: db(Math.abs(difference)),
        bound: db(bound),
        ...(allowed !== 0 && allowed > 0 === difference > 0
          ? { allowed: db(Math.abs(allowed)) }
          : {}),
        ...coreStep(context, difference > 0 ? 'A>B' : 'B>A'),
      },
    };
  }
}

const limitOf = ({ result }: Attempt): number => result.limit?.floor ?? 0;

/** What an overfilled step of the path's cores may take in the direction that lost more. */
function coreStep(context: Context, direction: Direction): Record<string, string | number> {
  const { pieces } = context.path;
  if (!hasCoreStep(pieces)) return {};
  const fibres = fibresOf(pieces);
  const order = direction === 'A>B' ? fibres : [...fibres].reverse();
  for (const [index, next] of order.entries()) {
    const before = order[index - 1];
    const [from, to] = [before?.type?.core, next.type?.core];
    if (from === undefined || to === undefined || from <= to) continue;
    return {
      coreStep: `${before?.name} to ${next.name}`,
      coreLoss: db(coreStepLoss({ core: from }, { core: to })),
    };
  }
  return { coreStep: 'against the step' };
}

function* copied(settled: Standing, good: readonly Attempt[]): Iterable<Doubt> {
  const byWavelength = new Map<Picometres, { first: Attempt; fibres: number[]; differ: boolean }>();
  for (const a of good) {
    if (a.measurement.cell.direction !== 'A>B') continue;
    const b = partner(settled, a);
    if (b?.result.loss === undefined) continue;
    const { wavelength, fibre } = a.measurement.cell;
    const known = byWavelength.get(wavelength) ?? { first: a, fibres: [], differ: false };
    byWavelength.set(wavelength, known);
    if (a.result.loss === b.result.loss) known.fibres.push(fibre);
    else known.differ = true;
  }
  for (const [wavelength, { first, fibres, differ }] of byWavelength) {
    if (differ || fibres.length <= copiedFibres) continue;
    yield {
      name: 'direction-fake',
      place: first.measurement.cell.place,
      details: {
        wavelength: nm(wavelength),
        fibres: numbersInWords(fibres),
        readings: fibres.length,
      },
    };
  }
}

/** Two wavelengths of one fibre and direction: excess against length on single-mode, order on multimode. */
function* longWavelengths(context: Context, good: readonly Attempt[]): Iterable<Doubt> {
  const { mode } = context.link;
  if (mode !== 'single-mode' && mode !== 'multimode') return;
  const groups = new Map<string, Attempt[]>();
  for (const attempt of good) {
    const { fibre, direction } = attempt.measurement.cell;
    const key = keyText(fibre, 0 as Picometres, direction);
    const group = groups.get(key);
    if (group) group.push(attempt);
    else groups.set(key, [attempt]);
  }
  for (const group of groups.values()) {
    const sorted = group.sort(
      (a, b) => a.measurement.cell.wavelength - b.measurement.cell.wavelength,
    );
    const [short, ...longer] = sorted;
    if (!short || longer.length === 0) continue;
    if (mode === 'multimode') yield* inverted(short, longer);
    else yield* bent(context, short, longer);
  }
}

function* inverted(short: Attempt, longer: readonly Attempt[]): Iterable<Doubt> {
  for (const long of longer) {
    if (sameWindow(short.measurement.cell.wavelength, long.measurement.cell.wavelength)) continue;
    const difference = microDb((long.result.loss ?? 0) - (short.result.loss ?? 0));
    if (difference <= longAboveShort) continue;
    yield {
      name: 'bend-or-swap-mm',
      place: long.measurement.cell.place,
      related: [{ place: short.measurement.cell.place, message: 'the shorter wavelength' }],
      details: {
        ...pairDetails(short, long),
        difference: db(difference),
        bound: db(longAboveShort),
      },
    };
    return;
  }
}

function* bent(whole: Context, short: Attempt, longer: readonly Attempt[]): Iterable<Doubt> {
  const context = pathOf(whole, short);
  const { wavelength } = short.measurement.cell;
  const repeatable = context.uncertainty(wavelength, short.result.method).repeatable;
  let worst: { long: Attempt; excess: ExactDb; slope: ExactDb } | undefined;
  for (const long of longer) {
    const slope = slopeOver(context, wavelength, long.measurement.cell.wavelength);
    if (slope === undefined) continue;
    const excess = bendExcessOf(lossOf(short), lossOf(long), slope);
    if (!worst || excess > worst.excess) worst = { long, excess, slope };
  }
  if (!worst) return;
  const { cable } = lengthsOf(context.path.pieces);
  const details = {
    ...pairDetails(short, worst.long),
    excess: exact(worst.excess),
    slope: exact(worst.slope),
    ...(cable === undefined ? {} : { length: toMetres(cable) }),
  };
  const size = microDb(Math.floor(Number(worst.excess) / 1e9));
  // At least the difference that two readings of one set-up may show by chance: √2 · 2 · repeatability.
  if (worst.excess > exactDb(bendExcess) && exceedsRootTwo(size, repeatable, 2)) {
    yield {
      name: 'bend-signature-sm',
      place: worst.long.measurement.cell.place,
      related: [{ place: short.measurement.cell.place, message: 'the shorter wavelength' }],
      details: { ...details, bound: db(bendExcess) },
    };
    return;
  }
  const residual = residualOf(context, short);
  const other = residualOf(context, worst.long);
  if (residual === undefined || other === undefined) return;
  const apart = microDb(Math.round(Number(residual - other) / 1e9));
  const alike = !exceedsRootTwo(apart, repeatable, 2);
  if (alike && residual > exactDb(jointResidual) && other > exactDb(jointResidual)) {
    yield {
      name: 'joint-signature',
      place: short.measurement.cell.place,
      related: [{ place: worst.long.measurement.cell.place, message: 'the longer wavelength' }],
      details: { ...details, residual: exact(residual), residualLong: exact(other) },
    };
  }
}

/** Loss over what the parts typically lose; undefined unless each of them says. */
function residualOf(context: Context, attempt: Attempt): ExactDb | undefined {
  const { wavelength, direction } = attempt.measurement.cell;
  const figures = ownFigures(context.link.terms.limits, wavelength, context.link.mode, 'typ');
  const sum = wholeSum(context.path.pieces, figures, direction ?? 'A>B', wavelength);
  return 'value' in sum ? ((lossOf(attempt) - sum.value) as ExactDb) : undefined;
}

/** Σ (α short − α long)·L by the fibres' typical figures; the usual slope from 1310 to 1550 nm where they have none. */
function slopeOver(context: Context, short: Picometres, long: Picometres): ExactDb | undefined {
  const parts: ExactDb[] = [];
  for (const piece of fibresOf(context.path.pieces)) {
    if (piece.length === undefined) return undefined;
    const a = ownRate(piece.type, short, 'typ')?.each;
    const b = ownRate(piece.type, long, 'typ')?.each;
    if (a !== undefined && b !== undefined) {
      parts.push(slopeLoss(a as RatePerKm, b as RatePerKm, piece.length));
    } else if (nm(short) === usual.short && nm(long) === usual.long) {
      parts.push(slopeLoss(usualBendSlope, 0 as RatePerKm, piece.length));
    } else return undefined;
  }
  return addDb(zeroDb, ...parts);
}

const usual = { short: 1310, long: 1550 };

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
  for (const group of groups.values()) {
    if (group.length < outlierMates) continue;
    const losses = group.map((attempt) => attempt.result.loss as MicroDb);
    const [middle, spread] = [median(losses), medianDeviation(losses)];
    if (middle === undefined || spread === undefined) continue;
    const bound = microDb(middle + Math.max(outlierDeviations * spread, outlierLeast));
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

/** The context of the path that a reading's light took. */
function pathOf(context: Context, { measurement: { cell } }: Attempt): Context {
  return context.along(cell.fibre, cell.at.from);
}

function partner(settled: Standing, attempt: Attempt): Attempt | undefined {
  const { fibre, wavelength, direction } = attempt.measurement.cell;
  const other = direction === 'A>B' ? 'B>A' : 'A>B';
  const one = settled.get(keyText(fibre, wavelength, other))?.current;
  return one?.valid && one.result.verdict !== 'stale' ? one : undefined;
}

function pairDetails(short: Attempt, long: Attempt): Record<string, string | number> {
  return {
    ...keyDetails(long),
    short: nm(short.measurement.cell.wavelength),
    long: nm(long.measurement.cell.wavelength),
    lossShort: db(short.result.loss ?? 0),
    lossLong: db(long.result.loss ?? 0),
  };
}

function lossOf(attempt: Attempt): ExactDb {
  return exactDb(attempt.result.loss ?? (0 as MicroDb));
}
