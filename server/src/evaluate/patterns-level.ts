/**
 * A whole batch that loses less, or more, than its parts can make likely: what
 * all its readings share is wrong, a reference, a cord of the test, the set-up.
 */
import { middleOf, robustSigma } from '../optics/index.ts';
import { type Batch, type BatchDoubt, inDetail, level, termsOf, usualOf } from './batches.ts';
import { boundsOf } from './bounds.ts';
import { exact, numbersInWords } from './doubts.ts';
import { hasCoreStep } from './path.ts';
import { nm } from './reasons.ts';
import { coreStepFrom, levelMates, sureDeviations } from './thresholds.ts';

interface Level {
  readonly batch: Batch;
  readonly middle: number;
  readonly usual: number;
  readonly least: number;
  readonly most: number;
  /** One pair as the parts' figures have it. */
  readonly pair: number;
  readonly error: number;
}

/** One doubt for all batches of a set-up that lie on the same side: they share the cause. */
export function* levelDoubts(batches: readonly Batch[]): Iterable<BatchDoubt> {
  const levels = batches.flatMap((batch) => levelOf(batch) ?? []);
  for (const setup of new Set(levels.map(({ batch }) => batch.setup))) {
    const own = levels.filter(({ batch }) => batch.setup === setup);
    const low = own.filter(({ middle, error, least }) => middle + error < least);
    // What a step of the path's own cores takes has no typical figure.
    const high = own.filter(
      ({ middle, error, most, batch }) =>
        middle - error > most && !hasCoreStep(batch.context.path.pieces),
    );
    if (low.length > 0) {
      yield told('batch-too-low', low, ['loss-too-good'], (one) => one.least - one.middle);
    }
    if (high.length > 0) {
      yield told('batch-too-high', high, ['joint-signature'], (one) => one.middle - one.usual);
    }
  }
}

function levelOf(batch: Batch): Level | undefined {
  const { attempts, context } = batch;
  const [first] = attempts;
  const usual = first && attempts.length >= levelMates ? usualOf(context, first) : undefined;
  if (!usual) return undefined;
  const { leastOfFibre, leastOfPair, tooHigh, highOfFibre } = boundsOf(context.settings);
  const losses = attempts.map(level);
  const pairs = termsOf(usual.terms, 'pair', 'end-pair', 'reference-pair');
  const count = usual.terms
    .filter(({ role }) => role === 'pair' || role === 'end-pair' || role === 'reference-pair')
    .reduce((sum, term) => sum + term.count, 0);
  return {
    batch,
    middle: middleOf(losses),
    usual: exact(usual.value),
    least: (leastOfFibre * termsOf(usual.terms, 'fibre', 'part') + leastOfPair * pairs) / 1_000_000,
    most:
      exact(usual.value) +
      (tooHigh + highOfFibre * termsOf(usual.terms, 'fibre', 'part')) / 1_000_000,
    pair: count > 0 ? pairs / count : 0,
    error: (sureDeviations * robustSigma(losses)) / Math.sqrt(losses.length),
  };
}

function told(
  name: string,
  levels: readonly Level[],
  names: readonly string[],
  awayOf: (one: Level) => number,
): BatchDoubt {
  const worst = levels.reduce((a, b) => (awayOf(b) > awayOf(a) ? b : a));
  const { batch, middle, usual, least, pair } = worst;
  const attempts = levels.flatMap((one) => one.batch.attempts);
  const [first] = batch.attempts;
  const away = Math.abs(middle - usual);
  return {
    name,
    place: first?.measurement.cell.place ?? batch.context.link.namePlace,
    details: {
      wavelength: nm(batch.wavelength),
      ...(batch.direction && { direction: batch.direction }),
      setup: batch.setup,
      readings: attempts.length,
      fibres: numbersInWords(attempts.map(({ measurement }) => measurement.cell.fibre)),
      median: inDetail(middle),
      usual: inDetail(usual),
      least: inDetail(least),
      away: inDetail(away),
      pair: inDetail(pair),
      // Short of one pair: the receive cord may never have been there.
      ...(first?.arrangement?.receiveCord && Math.abs(away - pair) < pair / 2 && { onePair: 1 }),
      ...(batch.context.link.mode === 'multimode' && away >= coreStepFrom / 1e6 && { coreStep: 1 }),
    },
    instead: { names, attempts },
  };
}
