/** Wavelengths of a fibre beside each other: a bend, a joint, or headings that are exchanged. */
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
  exceedsRootTwo,
  median,
  middleOf,
  robustSigma,
  slopeLoss,
} from '../optics/index.ts';
import { type Batch, type BatchDoubt, inDetail, level, pathOf } from './batches.ts';
import { boundsOf } from './bounds.ts';
import type { Context } from './context.ts';
import { exact, keyDetails, numbersInWords } from './doubts.ts';
import { keyText } from './expected.ts';
import { ownFigures, ownRate } from './figures.ts';
import { fibresOf, lengthsOf } from './path.ts';
import { db, nm } from './reasons.ts';
import type { Doubt } from './result.ts';
import type { Attempt } from './settle.ts';
import { wholeSum } from './sums.ts';
import { sameWindow, sureDeviations, usualBendSlope } from './thresholds.ts';

export function* wavelengthDoubts(
  context: Context,
  good: readonly Attempt[],
  batches: readonly Batch[],
): Iterable<BatchDoubt> {
  yield* exchanged(batches);
  yield* longWavelengths(context, good);
}

/**
 * A fibre loses more at the shorter wavelength, by its slope times its length.
 * Where a whole batch loses about as much more at the longer, the headings are
 * exchanged. The reference of each wavelength has its own error, which a batch
 * cannot average: twice the difference that two readings show by chance is
 * asked for beside the scatter of the batch.
 */
function* exchanged(batches: readonly Batch[]): Iterable<BatchDoubt> {
  for (const short of batches) {
    for (const long of batches) {
      if (short.wavelength >= long.wavelength || sameWindow(short.wavelength, long.wavelength))
        continue;
      if (short.context !== long.context || short.direction !== long.direction) continue;
      const slope = slopeOver(short.context, short.wavelength, long.wavelength);
      if (slope === undefined) continue;
      const byFibre = new Map(long.attempts.map((one) => [one.measurement.cell.fibre, one]));
      const pairs = short.attempts.flatMap((one) => {
        const other = byFibre.get(one.measurement.cell.fibre);
        return other ? [{ one, other, more: level(other) - level(one) }] : [];
      });
      const [first] = pairs;
      const { exchanged: beyond, exchangedMates } = boundsOf(short.context.settings);
      if (!first || pairs.length < exchangedMates) continue;
      const differences = pairs.map(({ more }) => more);
      const [middle, wanted] = [middleOf(differences), exact(slope)];
      const repeatable = db(
        short.context.uncertainty(short.wavelength, first.one.result.method).repeatable,
      );
      const scatter = robustSigma(differences) / Math.sqrt(pairs.length);
      if (middle <= sureDeviations * scatter + 2 * Math.SQRT2 * repeatable) continue;
      // Far more than the slope is a bend that all fibres share.
      if (middle > wanted * (1 + beyond / 1_000_000)) continue;
      if (pairs.filter(({ more }) => more > 0).length < pairs.length * commonShare) continue;
      const attempts = pairs.flatMap(({ one, other }) => [one, other]);
      yield {
        name: 'wavelengths-exchanged',
        place: first.other.measurement.cell.place,
        related: [{ place: first.one.measurement.cell.place, message: 'the shorter wavelength' }],
        details: {
          short: nm(short.wavelength),
          long: nm(long.wavelength),
          ...(short.direction && { direction: short.direction }),
          fibres: numbersInWords(pairs.map(({ one }) => one.measurement.cell.fibre)),
          readings: attempts.length,
          more: inDetail(middle),
          slope: inDetail(wanted),
        },
        // Under the wrong heading a level is compared with the wrong figures.
        instead: {
          names: [
            'bend-signature-sm',
            'bend-or-swap-mm',
            'joint-signature',
            'batch-too-low',
            'batch-too-high',
            'loss-too-good',
          ],
          attempts,
        },
      };
    }
  }
}

/** All but a few of a batch have to say the same. */
const commonShare = 0.8;

/** Two wavelengths of one fibre and direction: excess against length on single-mode, order on multimode. */
function* longWavelengths(context: Context, good: readonly Attempt[]): Iterable<BatchDoubt> {
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
  const excesses = new Map<Direction | undefined, Excess[]>();
  for (const group of groups.values()) {
    const sorted = group.sort(
      (a, b) => a.measurement.cell.wavelength - b.measurement.cell.wavelength,
    );
    const [short, ...longer] = sorted as [Attempt, ...Attempt[]];
    if (mode === 'multimode') {
      yield* inverted(context, short, longer);
      continue;
    }
    const worst = excessOf(context, short, longer);
    if (!worst) continue;
    const { direction } = short.measurement.cell;
    excesses.set(direction, [...(excesses.get(direction) ?? []), worst]);
  }
  for (const mates of excesses.values()) {
    const few = mates.length < boundsOf(context.settings).outlierMates;
    const shared = few ? undefined : median(mates.map(({ size }) => size));
    for (const one of mates) yield* bent(one, shared);
  }
}

/** More at the longer than the plan lets pass, and than two readings of one set-up differ by chance. */
function* inverted(context: Context, short: Attempt, longer: readonly Attempt[]): Iterable<Doubt> {
  const bound = boundsOf(context.settings).inversion;
  const { repeatable } = context.uncertainty(
    short.measurement.cell.wavelength,
    short.result.method,
  );
  for (const long of longer) {
    if (sameWindow(short.measurement.cell.wavelength, long.measurement.cell.wavelength)) continue;
    const difference = microDb((long.result.loss ?? 0) - (short.result.loss ?? 0));
    if (difference <= bound || !exceedsRootTwo(difference, repeatable, 2)) continue;
    yield {
      name: 'bend-or-swap-mm',
      place: long.measurement.cell.place,
      related: [{ place: short.measurement.cell.place, message: 'the shorter wavelength' }],
      details: {
        ...pairDetails(short, long),
        difference: db(difference),
        bound: db(bound),
      },
    };
    return;
  }
}

/** What a reading loses more at a longer wavelength than the slope of its fibre has it, at the worst of them. */
interface Excess {
  readonly context: Context;
  readonly short: Attempt;
  readonly long: Attempt;
  readonly excess: ExactDb;
  readonly slope: ExactDb;
  readonly size: MicroDb;
}

function excessOf(whole: Context, short: Attempt, longer: readonly Attempt[]): Excess | undefined {
  const context = pathOf(whole, short);
  let worst: Excess | undefined;
  for (const long of longer) {
    const slope = slopeOver(
      context,
      short.measurement.cell.wavelength,
      long.measurement.cell.wavelength,
    );
    if (slope === undefined) continue;
    const excess = bendExcessOf(lossOf(short), lossOf(long), slope);
    const size = microDb(Math.floor(Number(excess) / 1e9));
    if (!worst || excess > worst.excess) worst = { context, short, long, excess, slope, size };
  }
  return worst;
}

/**
 * `shared` is the median excess of the fibre's mates: what the references of
 * both wavelengths and the slope of this cable leave to all of them. A bend of
 * one fibre stands out from it by more than two readings differ by chance.
 */
function* bent(worst: Excess, shared: MicroDb | undefined): Iterable<BatchDoubt> {
  const { context, short, size } = worst;
  const { wavelength } = short.measurement.cell;
  const repeatable = context.uncertainty(wavelength, short.result.method).repeatable;
  const { bend, bendOfSlope, joint } = boundsOf(context.settings);
  const left = bend + Math.max(0, Math.round(exact(worst.slope) * bendOfSlope));
  const common = shared === undefined || shared > left ? microDb(0) : shared;
  const own = microDb(size - common);
  // What the mates share says what this slope is; without them it is known as well as its figures.
  const bound = microDb(common === 0 ? left : bend);
  const { cable } = lengthsOf(context.path.pieces);
  const details = {
    ...pairDetails(short, worst.long),
    excess: exact(worst.excess),
    slope: exact(worst.slope),
    ...(cable === undefined ? {} : { length: toMetres(cable) }),
  };
  // At least the difference that two readings of one set-up may show by chance: √2 · 2 · repeatability.
  const apart = [size, own].every((each) => each > 0 && exceedsRootTwo(each, repeatable, 2));
  if (Math.min(size, common > bend ? own : size) > bound && apart) {
    yield {
      name: 'bend-signature-sm',
      place: worst.long.measurement.cell.place,
      related: [{ place: short.measurement.cell.place, message: 'the shorter wavelength' }],
      details: { ...details, bound: db(bound) },
      instead: { names: ['pass-but-outlier'], attempts: [worst.long] },
    };
    return;
  }
  const residual = residualOf(context, short);
  const other = residualOf(context, worst.long);
  if (residual === undefined || other === undefined) return;
  const difference = microDb(Math.round(Number(residual - other) / 1e9));
  const alike = !exceedsRootTwo(difference, repeatable, 2);
  if (alike && residual > exactDb(joint) && other > exactDb(joint)) {
    yield {
      name: 'joint-signature',
      place: short.measurement.cell.place,
      related: [{ place: worst.long.measurement.cell.place, message: 'the longer wavelength' }],
      details: { ...details, residual: exact(residual), residualLong: exact(other) },
      instead: { names: ['pass-but-outlier'], attempts: [short, worst.long] },
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
