/**
 * A whole batch that loses less, or more, than its parts can make likely: what
 * all its readings share is wrong, a reference, a cord of the test, the set-up.
 */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Place } from '../model/types.ts';
import { middleOf, robustSigma } from '../optics/index.ts';
import { type Batch, type BatchDoubt, inDetail, level, termsOf, type Usual } from './batches.ts';
import { boundsOf } from './bounds.ts';
import { exact, numbersInWords } from './doubts.ts';
import { hasCoreStep } from './path.ts';
import { nm } from './reasons.ts';
import { coreStepFrom, levelMates, sureDeviations } from './thresholds.ts';

/**
 * What an object has with too few readings to have a level of its own, at one
 * wavelength of a set-up: one figure, to be asked together with those of others.
 */
export interface FewReadings {
  readonly object: string;
  readonly setup: string;
  readonly wavelength: Picometres;
  readonly readings: number;
  /** Their mean less what the parts usually lose, dB. */
  readonly away: number;
  /** And less what that may be exceeded by, dB. */
  readonly excess: number;
  /** The first of them. */
  readonly place: Place;
}

/** What the object's few readings with a set-up give to say together with those of other objects. */
export function fewReadingsOf(batches: readonly Batch[]): readonly FewReadings[] {
  const groups = new Map<string, Batch[]>();
  for (const batch of batches) {
    if (batch.attempts.length >= levelMates || hasCoreStep(batch.context.path.pieces)) continue;
    const key = `${batch.wavelength} ${batch.setup}`;
    groups.set(key, [...(groups.get(key) ?? []), batch]);
  }
  return [...groups.values()].flatMap((group) => fewOf(group) ?? []);
}

function fewOf(group: readonly Batch[]): FewReadings | undefined {
  const [first] = group;
  const [attempt] = first?.attempts ?? [];
  if (!first || !attempt) return undefined;
  const own = group.flatMap((batch) => {
    const known = mostOf(batch);
    return known ? batch.attempts.map((one) => ({ ...known, loss: level(one) })) : [];
  });
  if (own.length === 0) return undefined;
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
  return {
    object: first.context.link.name,
    setup: first.setup,
    wavelength: first.wavelength,
    readings: own.length,
    away: mean(own.map(({ loss, usual }) => loss - usual)),
    excess: mean(own.map(({ loss, most }) => loss - most)),
    place: attempt.measurement.cell.place,
  };
}

function mostOf(batch: Batch): { readonly usual: number; readonly most: number } | undefined {
  const usual = batch.usual();
  return usual && { usual: exact(usual.value), most: highestOf(batch.context, usual) };
}

/** Objects of a few readings each that are high together: the median of one figure each, at the wavelength where it is most. */
export function highTogether(
  few: readonly FewReadings[],
):
  | { readonly wavelength: Picometres; readonly away: number; readonly of: readonly FewReadings[] }
  | undefined {
  const found = [...new Set(few.map(({ wavelength }) => wavelength))]
    .map((wavelength) => few.filter((one) => one.wavelength === wavelength))
    .filter((of) => of.length >= levelMates && isSure(of.map(({ excess }) => excess)))
    .map((of) => ({
      wavelength: of[0]!.wavelength,
      away: middleOf(of.map(({ away }) => away)),
      of,
    }));
  return found.sort((a, b) => b.away - a.away || a.wavelength - b.wavelength)[0];
}

const isSure = (excess: readonly number[]) => middleOf(excess) > errorOf(excess);

function errorOf(values: readonly number[]): number {
  return (sureDeviations * robustSigma(values)) / Math.sqrt(values.length);
}

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
  const usual = attempts.length >= levelMates ? batch.usual() : undefined;
  if (!usual) return undefined;
  const { leastOfFibre, leastOfPair } = boundsOf(context.settings);
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
    most: highestOf(context, usual),
    pair: count > 0 ? pairs / count : 0,
    error: errorOf(losses),
  };
}

/** What a high batch makes if its losses are powers that were typed without their minus, where its parts may lose that. */
function asPowers({ batch, least, most }: Level): number | undefined {
  const losses = batch.attempts.flatMap(({ measurement: { cell }, result }) =>
    cell.quantity === 'loss' && result.reference !== undefined && result.loss !== undefined
      ? [(result.reference + result.loss) / 1e6]
      : [],
  );
  if (losses.length === 0) return undefined;
  const middle = middleOf(losses);
  return middle >= least && middle <= most ? middle : undefined;
}

/** What a path usually loses at most before a whole batch over it is named, dB. */
function highestOf({ settings }: Batch['context'], { value, terms }: Usual): number {
  const { tooHigh, highOfFibre } = boundsOf(settings);
  return exact(value) + (tooHigh + highOfFibre * termsOf(terms, 'fibre', 'part')) / 1_000_000;
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
  const asPower = asPowers(worst);
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
      ...(asPower !== undefined && { asPower: inDetail(asPower) }),
      // Short of one pair: the receive cord may never have been there.
      ...(first?.arrangement?.receiveCord && Math.abs(away - pair) < pair / 2 && { onePair: 1 }),
      ...(batch.context.link.mode === 'multimode' && away >= coreStepFrom / 1e6 && { coreStep: 1 }),
    },
    instead: { names, attempts },
  };
}
