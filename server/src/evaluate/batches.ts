/**
 * Readings that belong together, for whatever is asked of many at once: those
 * of one path, set-up, wavelength and direction, in the order of measuring.
 * Levels are plain decibels here: they point somewhere and judge nothing.
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  type Picometres,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Direction, PairPolicy } from '../model/types.ts';
import { median, medianDeviation } from '../optics/index.ts';
import { plannedArrangement } from './arrangement.ts';
import { boundsOf } from './bounds.ts';
import type { Context } from './context.ts';
import { exact } from './doubts.ts';
import { ownFigures } from './figures.ts';
import type { Doubt, Term } from './result.ts';
import type { Attempt, Settled } from './settle.ts';
import { readingSum } from './sums.ts';

export type Standing = ReadonlyMap<string, Settled>;

/** A doubt about many readings, and which doubts of single ones it makes needless. */
export interface BatchDoubt extends Doubt {
  readonly instead?: {
    readonly names: readonly string[];
    readonly attempts: readonly Attempt[];
  };
}

export interface Batch {
  readonly context: Context;
  readonly setup: string;
  readonly wavelength: Picometres;
  readonly direction: Direction | undefined;
  /** In the order of measuring: by time, then by place in the text. */
  readonly attempts: readonly Attempt[];
  /** What the parts usually lose, of its first reading; worked out once, when it is asked for. */
  usual(): Usual | undefined;
}

/** What the parts of a reading typically lose. */
export interface Usual {
  readonly value: ExactDb;
  readonly terms: readonly Term[];
}

/** The standing readings of the object's fibres that count as measurements. */
export function goodOf(context: Context, settled: Standing): readonly Attempt[] {
  return [...settled.values()].flatMap(({ current }) =>
    current?.valid &&
    current.result.loss !== undefined &&
    current.result.verdict !== 'stale' &&
    context.link.fibres.includes(current.measurement.cell.fibre)
      ? [current]
      : [],
  );
}

export function batchesOf(context: Context, good: readonly Attempt[]): readonly Batch[] {
  const groups = new Map<string, { context: Context; attempts: Attempt[] }>();
  // Mates take one path: ends of a tree may lie far apart.
  const paths = new Map<Context, number>();
  for (const attempt of good) {
    const { wavelength, direction, setup } = attempt.measurement.cell;
    const own = pathOf(context, attempt);
    const path = paths.get(own) ?? paths.size;
    paths.set(own, path);
    const key = `${wavelength} ${direction} ${path} ${setup}`;
    const group = groups.get(key);
    if (group) group.attempts.push(attempt);
    else groups.set(key, { context: own, attempts: [attempt] });
  }
  return [...groups.values()].flatMap((group) => {
    const attempts = group.attempts.sort(byTime);
    const [first] = attempts;
    if (!first) return [];
    const { setup, wavelength, direction } = first.measurement.cell;
    let known: { readonly usual: Usual | undefined } | undefined;
    const usual = () => {
      known ??= { usual: usualOf(group.context, first) };
      return known.usual;
    };
    return [{ context: group.context, setup, wavelength, direction, attempts, usual }];
  });
}

function byTime(a: Attempt, b: Attempt): number {
  const [one, other] = [a.measurement.cell, b.measurement.cell];
  return one.at.from - other.at.from || one.order - other.order;
}

/** The context of the path that a reading's light took. */
export function pathOf(context: Context, { measurement: { cell } }: Attempt): Context {
  return context.along(cell.fibre, cell.at.from);
}

/** What the parts of a reading typically lose, by their own figures; undefined unless each of them says. */
export function usualOf(context: Context, attempt: Attempt): Usual | undefined {
  const { measurement, result } = attempt;
  const arrangement = attempt.arrangement ?? (result.method && plannedArrangement(result.method));
  if (!arrangement) return undefined;
  const { wavelength, direction } = measurement.cell;
  const { link, settings, path } = context;
  const sets = link.terms.limits;
  const policy: PairPolicy = sets[0]?.policy ?? link.terms.policy ?? settings.policy ?? 'counting';
  const figures = ownFigures(sets, wavelength, link.mode, 'typ');
  const sum = readingSum(path, arrangement, figures, policy, direction ?? 'A>B', wavelength);
  return 'value' in sum ? sum : undefined;
}

/** How unusual each standing reading is: against its parts, and among its mates. */
export interface Unusual {
  /** Loss less what its parts typically lose. */
  readonly residual?: ExactDb;
  /** Distance from the median of its mates in median absolute deviations. */
  readonly matesDeviation?: number;
}

export function unusualOf(
  { settings }: Context,
  batches: readonly Batch[],
): ReadonlyMap<Attempt, Unusual> {
  const known = new Map<Attempt, Unusual>();
  for (const batch of batches) {
    const losses = batch.attempts.map(({ result }) => result.loss as MicroDb);
    const middle = median(losses) ?? 0;
    const spread = medianDeviation(losses) ?? 0;
    const usual = batch.usual();
    for (const attempt of batch.attempts) {
      const loss = attempt.result.loss as MicroDb;
      known.set(attempt, {
        ...(usual && { residual: subtractDb(exactDb(loss), usual.value) }),
        ...(losses.length >= boundsOf(settings).outlierMates &&
          spread > 0 && { matesDeviation: Math.round(((loss - middle) / spread) * 100) / 100 }),
      });
    }
  }
  return known;
}

/** Loss in decibels. */
export function level(attempt: Attempt): number {
  return (attempt.result.loss ?? 0) / 1e6;
}

/** Decibels for details, to a hundredth of what is ever shown. */
export function inDetail(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

/** Sum of the terms of some roles, in decibels. */
export function termsOf(terms: readonly Term[], ...roles: readonly Term['role'][]): number {
  return terms.reduce(
    (sum, term) => (roles.includes(term.role) ? sum + exact(term.total) : sum),
    0,
  );
}

/** Doubts without those that a doubt about their whole batch has told already. */
export function withoutTold(doubts: readonly BatchDoubt[]): Doubt[] {
  const told = new Map<string, Set<Doubt['place']>>();
  for (const { instead } of doubts) {
    for (const name of instead?.names ?? []) {
      const places = told.get(name) ?? new Set();
      told.set(name, places);
      for (const { measurement } of instead?.attempts ?? []) places.add(measurement.cell.place);
    }
  }
  return doubts.flatMap(({ instead: _, ...doubt }) =>
    told.get(doubt.name)?.has(doubt.place) ? [] : [doubt],
  );
}
