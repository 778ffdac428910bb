/**
 * What a repair asks of the readings after it: beside the new limit, that the
 * rise over the last valid reading before it is at most the allowances of what
 * was put in. The two are compared plainly, without uncertainty: both readings
 * hold the same path but for the piece put in.
 *
 * Source: rule-derived; that a repaired fibre is compared with its own record
 * from before is common practice in outside plant, no source.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  floorDb,
  type MicroDb,
  subtractMicroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { LinkModel, ReadingCell, Repair } from '../model/types.ts';
import type { Context } from './context.ts';
import { marginTo } from './decide.ts';
import { exact, numbersInWords } from './doubts.ts';
import { setFigures } from './figures.ts';
import { putIn } from './path.ts';
import { db, inDb } from './reasons.ts';
import type { Doubt, Limit, Term } from './result.ts';
import type { Attempt, Settled } from './settle.ts';
import { wholeSum } from './sums.ts';

/** What a rise that is not allowed is made of, for its finding. */
export type Rise = Readonly<Record<'rise' | 'allowed' | 'before' | 'repairs', string | number>>;

/** Every key with its standing reading judged by the rise as well; a rise that is not allowed fails it. */
export function riseJudged(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  doubts: Doubt[],
): ReadonlyMap<string, Settled> {
  const { link } = context;
  if (link.repairs.length === 0) return settled;
  const without = new Map<Repair, ReadingCell[]>();
  const judged = new Map<string, Settled>();
  for (const [key, one] of settled) {
    const { current } = one;
    const attempt = current ? byRise(context, one.attempts, current, without) : undefined;
    const attempts = one.attempts.map((each) => (each === current ? attempt! : each));
    judged.set(key, { ...one, attempts, current: attempt });
  }
  doubts.push(...baselinesMissing(without), ...reserveExceeded(link));
  return judged;
}

function byRise(
  context: Context,
  attempts: readonly Attempt[],
  current: Attempt,
  without: Map<Repair, ReadingCell[]>,
): Attempt {
  const { cell } = current.measurement;
  const { loss, verdict } = current.result;
  const before = context.link.repairs.filter(
    ({ fibres, on }) => fibres.includes(cell.fibre) && on.to < cell.at.from,
  );
  const last = before.at(-1);
  if (!last || !current.valid || loss === undefined || verdict === 'stale') return current;
  const base = attempts.findLast((attempt) => standsBefore(attempt, current, last));
  if (base?.result.loss === undefined) {
    without.set(last, [...(without.get(last) ?? []), cell]);
    return current;
  }
  const since = before.filter(({ on }) => on.from > base.measurement.cell.at.to);
  const allowed = allowance(context, cell, since);
  if (!allowed) return current;
  const rise = subtractMicroDb(loss, base.result.loss);
  if (exactDb(rise) <= allowed.value) return current;
  const limit = riseLimit(base, base.result.loss, allowed, since);
  // Over a limit that is smaller still: that one has been said.
  const own = current.result.limit?.value;
  if (verdict === 'fail' && own !== undefined && own <= limit.value) return current;
  const names = inWords(since);
  const most = floorDb(allowed.value);
  const because = `${inDb(rise, most)} more than before ${names}, and what was put in allows ${inDb(most, rise)}`;
  return {
    ...current,
    rise: {
      rise: db(rise),
      allowed: exact(allowed.value),
      before: db(base.result.loss),
      repairs: names,
    },
    result: {
      ...current.result,
      verdict: 'fail',
      limit,
      margin: marginTo(limit.value, loss),
      because,
      reason: 'rise-after-repair',
    },
  };
}

/** A valid loss from before a repair, measured by the same method: only then do both hold the same pairs. */
function standsBefore(attempt: Attempt, current: Attempt, repair: Repair): boolean {
  return (
    attempt.valid &&
    !attempt.withdrawn &&
    attempt.result.loss !== undefined &&
    attempt.result.method === current.result.method &&
    attempt.measurement.cell.at.to < repair.on.from
  );
}

interface Allowance {
  readonly value: ExactDb;
  readonly terms: readonly Term[];
  /** The limits that allow it are a contract's. */
  readonly contract: boolean;
}

/** What was put in, by the figures of each limits set in force; the smallest counts. */
function allowance(
  { link }: Context,
  { wavelength, direction }: ReadingCell,
  repairs: readonly Repair[],
): Allowance | undefined {
  const pieces = repairs.flatMap(putIn);
  let least: Allowance | undefined;
  for (const set of link.terms.limits) {
    const figures = setFigures(set, wavelength, link.mode);
    const sum = wholeSum(pieces, figures, direction ?? 'A>B', wavelength);
    if ('because' in sum || (least && sum.value >= least.value)) continue;
    least = { ...sum, contract: set.contract };
  }
  return least;
}

function riseLimit(
  base: Attempt,
  loss: MicroDb,
  allowed: Allowance,
  repairs: readonly Repair[],
): Limit & { readonly value: ExactDb } {
  const { cell } = base.measurement;
  const value = addDb(exactDb(loss), allowed.value);
  const reading: Term = {
    what: `reading of ${cell.at.text}`,
    role: 'part',
    count: 1,
    each: loss,
    total: exactDb(loss),
    source: `the last valid one before ${inWords(repairs)}`,
    place: cell.place,
  };
  return {
    kind: allowed.contract ? 'contract' : 'components',
    name: `reading before ${inWords(repairs)} and what was put in`,
    value,
    floor: floorDb(value),
    terms: [reading, ...allowed.terms],
    beside: false,
    recalled: allowed.terms.some(({ trust }) => trust === 'recalled'),
  };
}

function inWords(repairs: readonly Repair[]): string {
  const names = repairs.map(({ name }) => name).join(', ');
  return `${repairs.length === 1 ? 'repair' : 'repairs'} ${names}`;
}

function* baselinesMissing(without: ReadonlyMap<Repair, readonly ReadingCell[]>): Iterable<Doubt> {
  for (const [repair, cells] of without) {
    const [first] = cells;
    if (!first) continue;
    yield {
      name: 'reading-before-repair-missing',
      place: first.place,
      related: [{ place: repair.place, message: `${repair.name}, ${repair.on.text}` }],
      details: {
        repair: repair.name,
        on: repair.on.text,
        readings: cells.length,
        fibres: numbersInWords(cells.map(({ fibre }) => fibre)),
      },
    };
  }
}

/** The most repairs that one fibre of a link has had. */
export function repairsUsed({ fibres, repairs }: LinkModel): number {
  const used = fibres.map((fibre) => repairs.filter((each) => each.fibres.includes(fibre)).length);
  return used.length === 0 ? 0 : Math.max(...used);
}

function* reserveExceeded(link: LinkModel): Iterable<Doubt> {
  const used = repairsUsed(link);
  const { repairs: reserved } = link.terms.reserve;
  // Without a reserve there is nothing to use up.
  if (reserved === 0 || used <= reserved) return;
  yield {
    name: 'repair-reserve-used-up',
    place: link.namePlace,
    related: link.repairs.map(({ name, on, place }) => ({ place, message: `${name}, ${on.text}` })),
    details: { link: link.name, used, reserved },
  };
}
