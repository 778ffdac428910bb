/**
 * Values that fit other numbers better than their own. A fibre's joints lose
 * alike at both wavelengths and in both directions, and alike when it is
 * measured again; where fibres of one link differ by what was put in, the plan
 * itself foretells which lose more. Two such rows of values go together fibre
 * by fibre; where they go together better one number on, by every second one
 * or from the other end, one of them is numbered wrongly. A table whose columns
 * all share the mistake shows it only beside an earlier one, or where the
 * fibres differ.
 */
import { correlation, mean, middleOf } from '../optics/index.ts';
import { type Batch, type BatchDoubt, inDetail, level, type Standing } from './batches.ts';
import { boundsOf } from './bounds.ts';
import type { Context } from './context.ts';
import { nm } from './reasons.ts';
import { numberedSignificance } from './thresholds.ts';

type Values = ReadonlyMap<number, number>;

interface Comparison {
  readonly what: string;
  readonly against: string;
  readonly values: Values;
  readonly others: Values;
  readonly place: BatchDoubt['place'];
  /** What single fibres seem to have where their numbers are not theirs. */
  readonly instead: NonNullable<BatchDoubt['instead']>;
}

/** Numbers that a value may really belong to, given its own, of fibres first to last. */
const numberings: readonly {
  readonly shift: string;
  readonly move: (fibre: number, first: number, last: number) => number;
}[] = [
  { shift: 'one number on', move: (fibre) => fibre + 1 },
  { shift: 'one number back', move: (fibre) => fibre - 1 },
  { shift: 'two numbers on', move: (fibre) => fibre + 2 },
  { shift: 'two numbers back', move: (fibre) => fibre - 2 },
  { shift: 'every second number', move: (fibre, first) => first + 2 * (fibre - first) },
  {
    shift: 'half as far from the first number',
    move: (fibre, first) => first + (fibre - first) / 2,
  },
  { shift: 'the other way round', move: (fibre, first, last) => first + last - fibre },
];

export function* numberingDoubts(
  context: Context,
  settled: Standing,
  batches: readonly Batch[],
): Iterable<BatchDoubt> {
  const mates = boundsOf(context.settings).numbered;
  for (const comparison of comparisonsOf(settled, batches, mates)) {
    const found = better(comparison, mates);
    if (!found) continue;
    yield {
      name: 'numbers-shifted',
      place: comparison.place,
      details: {
        what: comparison.what,
        against: comparison.against,
        shift: found.shift,
        fibres: comparison.values.size,
        own: inDetail(found.own),
        other: inDetail(found.other),
      },
      instead: comparison.instead,
    };
    // Columns that share a numbering would say it again.
    return;
  }
}

function* comparisonsOf(
  settled: Standing,
  batches: readonly Batch[],
  mates: number,
): Iterable<Comparison> {
  const large = batches.filter(({ attempts }) => attempts.length >= mates);
  const by = (key: (batch: Batch) => string | undefined) => {
    const groups = new Map<string, Batch[]>();
    for (const batch of large) {
      const name = key(batch);
      if (name !== undefined) groups.set(name, [...(groups.get(name) ?? []), batch]);
    }
    return [...groups];
  };
  const symptoms = ['direction-asymmetry'];
  for (const [groups, names] of [
    [by(({ direction }) => direction), symptoms],
    [by(({ wavelength }) => `${nm(wavelength)} nm`), []],
  ] as const) {
    const [first, ...others] = groups;
    for (const other of others) {
      if (!first) continue;
      const place = other[1][0]?.attempts[0]?.measurement.cell.place;
      if (!place) continue;
      yield {
        what: other[0],
        against: first[0],
        values: meansOf(other[1]),
        others: meansOf(first[1]),
        place,
        instead: {
          names,
          attempts: [...first[1], ...other[1]].flatMap(({ attempts }) => attempts),
        },
      };
    }
  }
  const place = large[0]?.attempts[0]?.measurement.cell.place;
  if (place) {
    yield {
      what: 'these readings',
      against: 'those before',
      values: meansOf(large),
      others: earlierOf(settled, large),
      place,
      instead: {
        names: ['not-repeatable'],
        attempts: large.flatMap(({ attempts }) => attempts),
      },
    };
  }
}

/** Mean over the batches of each fibre's distance from the batch's median. */
function meansOf(batches: readonly Batch[]): Values {
  const each = new Map<number, number[]>();
  for (const { attempts } of batches) {
    const middle = middleOf(attempts.map(level));
    for (const attempt of attempts) {
      const { fibre } = attempt.measurement.cell;
      each.set(fibre, [...(each.get(fibre) ?? []), level(attempt) - middle]);
    }
  }
  return new Map([...each].map(([fibre, values]) => [fibre, mean(values)]));
}

/** What the attempts before showed, made as the ones that stand. */
function earlierOf(settled: Standing, batches: readonly Batch[]): Values {
  const standing = new Set(batches.flatMap(({ attempts }) => attempts));
  const each = new Map<number, number[]>();
  for (const { attempts, current } of settled.values()) {
    if (!current || !standing.has(current)) continue;
    const before = attempts.findLast(
      (one) => one.number < current.number && one.valid && one.result.loss !== undefined,
    );
    if (!before) continue;
    const { fibre } = current.measurement.cell;
    each.set(fibre, [...(each.get(fibre) ?? []), level(before)]);
  }
  return new Map([...each].map(([fibre, values]) => [fibre, mean(values)]));
}

/** The numbering with which both rows go together surely better than with their own (Fisher's z, 1915). */
function better({ values, others }: Comparison, mates: number) {
  const fibres = [...values.keys()];
  const [first, last] = [Math.min(...fibres), Math.max(...fibres)];
  const own = together(values, others, (fibre) => fibre);
  if (own.n < mates) return undefined;
  let best: { shift: string; own: number; other: number; gain: number } | undefined;
  for (const { shift, move } of numberings) {
    const other = together(values, others, (fibre) => move(fibre, first, last));
    if (other.n < mates) continue;
    const error = Math.sqrt(1 / (own.n - 3) + 1 / (other.n - 3));
    const gain = (fisher(other.r) - fisher(own.r)) / error;
    if (gain > (best?.gain ?? 0) && fisher(other.r) * Math.sqrt(other.n - 3) > numberedSignificance)
      best = { shift, own: own.r, other: other.r, gain };
  }
  return best && best.gain * Math.SQRT2 > numberedSignificance ? best : undefined;
}

function together(values: Values, others: Values, move: (fibre: number) => number) {
  const [a, b]: [number[], number[]] = [[], []];
  for (const [fibre, value] of values) {
    const other = others.get(move(fibre));
    if (other === undefined) continue;
    a.push(value);
    b.push(other);
  }
  return { r: correlation(a, b), n: a.length };
}

function fisher(r: number): number {
  return Math.atanh(Math.max(-0.999, Math.min(0.999, r)));
}
