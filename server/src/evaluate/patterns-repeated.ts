/**
 * Rows that repeat: more fibres in a row with the very digits of others than
 * chance makes likely at the resolution they were typed with. How likely one
 * row is like another is taken from how often the column's values occur; a
 * second column follows the first in part, so it counts at least a quarter.
 * One value all along tells nothing of how often values occur: there the
 * scatter counts that two readings of one set-up have.
 */
import { countsOf } from '../optics/index.ts';
import type { BatchDoubt } from './batches.ts';
import { boundsOf } from './bounds.ts';
import type { Context } from './context.ts';
import { numbersInWords } from './doubts.ts';
import { db } from './reasons.ts';
import type { Attempt } from './settle.ts';
import { repeatedChance } from './thresholds.ts';

interface Row {
  readonly fibre: number;
  readonly attempts: readonly Attempt[];
  /** Digits of all its readings. */
  readonly text: string;
}

export function* repeatedDoubts(context: Context, good: readonly Attempt[]): Iterable<BatchDoubt> {
  const least = boundsOf(context.settings).repeated;
  const blocks = new Map<number, Attempt[]>();
  for (const attempt of good) {
    const { block } = attempt.measurement.cell.place;
    const known = blocks.get(block);
    if (known) known.push(attempt);
    else blocks.set(block, [attempt]);
  }
  for (const attempts of blocks.values()) {
    const rows = rowsOf(attempts);
    if (rows.length < 2 * least) continue;
    const doubt =
      longestRepeat(rows, chanceOf(attempts), least) ?? sameAllAlong(rows, context, least);
    if (doubt) yield doubt;
  }
}

function rowsOf(attempts: readonly Attempt[]): readonly Row[] {
  const rows = new Map<number, Attempt[]>();
  for (const attempt of attempts) {
    const start = attempt.measurement.cell.row.span.start;
    const known = rows.get(start);
    if (known) known.push(attempt);
    else rows.set(start, [attempt]);
  }
  return [...rows.entries()]
    .sort(([a], [b]) => a - b)
    .flatMap(([, own]) => {
      const [first] = own;
      const text = own
        .map(({ measurement: { cell } }) => `${cell.wavelength} ${cell.direction} ${digits(cell)}`)
        .sort()
        .join();
      return first ? [{ fibre: first.measurement.cell.fibre, attempts: own, text }] : [];
    });
}

function digits({ typed }: Attempt['measurement']['cell']): string {
  return typed === 'dark' ? typed : typed.digits;
}

/** How likely two rows are alike: Σ over pairs of equal values, column by column. */
function chanceOf(attempts: readonly Attempt[]): number {
  const columns = new Map<string, string[]>();
  for (const { measurement } of attempts) {
    const { wavelength, direction } = measurement.cell;
    const key = `${wavelength} ${direction}`;
    columns.set(key, [...(columns.get(key) ?? []), digits(measurement.cell)]);
  }
  const each = [...columns.values()].map((values) => {
    const n = values.length;
    const alike = [...countsOf(values).values()].reduce((sum, f) => sum + f * (f - 1), 0);
    // Of a single value nothing is alike, and 1 / n is all of it.
    return Math.max(alike / Math.max(n * (n - 1), 1), 1 / n);
  });
  const [first = 1, ...others] = each;
  return others.reduce((product, one) => product * Math.max(one, 1 / 4), first);
}

function longestRepeat(
  rows: readonly Row[],
  chance: number,
  least: number,
): BatchDoubt | undefined {
  let best: { from: number; like: number; length: number } | undefined;
  const places = new Map<string, number[]>();
  /** Length of the run of equal rows that ends at this row and at an earlier one, by the earlier. */
  let before = new Map<number, number>();
  for (const [at, { text }] of rows.entries()) {
    const now = new Map<number, number>();
    for (const like of places.get(text) ?? []) {
      const length = (before.get(like - 1) ?? 0) + 1;
      now.set(like, length);
      // A run may not overlap what it repeats, or one value all along would be many.
      if (length > at - like) continue;
      if (!best || length > best.length)
        best = { from: at - length + 1, like: like - length + 1, length };
    }
    places.set(text, [...(places.get(text) ?? []), at]);
    before = now;
  }
  if (!best || best.length < least) return undefined;
  const ways = (rows.length * rows.length) / 2;
  if (ways * chance ** best.length > repeatedChance) return undefined;
  return repeatOf(rows, best);
}

/** Rows one below the other that all have the same values. */
function sameAllAlong(
  rows: readonly Row[],
  context: Context,
  least: number,
): BatchDoubt | undefined {
  let best = { from: 0, length: 1 };
  let from = 0;
  for (const [at, { text }] of rows.entries()) {
    if (rows[from]?.text !== text) from = at;
    if (at - from + 1 > best.length) best = { from, length: at - from + 1 };
  }
  const first = rows[best.from];
  const again = best.length - 1;
  if (!first || again < least) return undefined;
  const [one = 1, ...others] = first.attempts.map((attempt) => chanceOfScatter(attempt, context));
  const chance = others.reduce((product, each) => product * Math.max(each, 1 / 4), one);
  if (rows.length * chance ** again > repeatedChance) return undefined;
  return repeatOf(rows, { from: best.from + 1, like: best.from, length: again, whole: 1 });
}

/**
 * How likely a reading shows the digits of another of the same loss: the step
 * of its last digit over 2·√π times the deviation, for normal scatter. Half the
 * repeatability is taken, since a good set-up has less.
 */
function chanceOfScatter({ measurement: { cell }, result }: Attempt, context: Context): number {
  if (cell.typed === 'dark') return 1;
  const { digits: shown, unit } = cell.typed;
  const step = 10 ** -(shown.split('.')[1]?.length ?? 0);
  const inDecibels = unit === 'dB' || unit === 'dBm';
  const decibels = inDecibels ? step : (10 / Math.LN10) * (step / Math.abs(Number(shown)));
  const { repeatable } = context.uncertainty(cell.wavelength, result.method);
  return Math.min(1, decibels / (db(repeatable) * Math.sqrt(Math.PI)));
}

function repeatOf(
  rows: readonly Row[],
  { from, like, length, whole }: { from: number; like: number; length: number; whole?: 1 },
): BatchDoubt | undefined {
  const fibresAt = (at: number, count: number) =>
    numbersInWords(rows.slice(at, at + count).map(({ fibre }) => fibre));
  const first = rows[from]?.attempts[0];
  const other = rows[like]?.attempts[0];
  if (!first || !other) return undefined;
  return {
    name: 'rows-repeated',
    place: first.measurement.cell.row,
    related: [{ place: other.measurement.cell.row, message: 'the same values' }],
    details: {
      rows: length,
      fibres: fibresAt(from, length),
      like: fibresAt(like, whole ?? length),
      readings: rows[from]?.attempts.length ?? 1,
    },
  };
}
