/**
 * Which attempt stands for its key. The last valid one governs; an invalid one
 * supersedes nothing; what a person withdrew stays visible and counts for
 * nothing. Never the best of several.
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  microDb,
  placesApart,
  printProse,
} from '../../../grammar/src/quantity/index.ts';
import type { ReadingCell, Withdrawal } from '../model/types.ts';
import type { Context, Suspicion } from './context.ts';
import { decide, marginTo } from './decide.ts';
import { keyText } from './expected.ts';
import { type Judged, judge, voided } from './judge.ts';
import { attemptsOf, covers, measurementsOf } from './measurement.ts';
import { hasCoreStep } from './path.ts';
import { db, inDb, reason } from './reasons.ts';
import type { Rise } from './repairs.ts';
import type { ReadingResult } from './result.ts';
import { signBatch } from './thresholds.ts';
import { isHeld } from './timeline.ts';
import { doubtUnits } from './units.ts';

/** One attempt with its place among the attempts of its key. */
export interface Attempt extends Judged {
  readonly number: number;
  readonly withdrawn?: Withdrawal;
  /** More than the reading before a repair by more than what was put in allows: it fails by that. */
  readonly rise?: Rise;
  /** What was compared with the limit: the reading, or both directions summed. */
  readonly compared?: { readonly sum: MicroDb; readonly readings: number };
}

export interface Settled {
  readonly key: string;
  /** In order of time. */
  readonly attempts: readonly Attempt[];
  /** The one that stands; undefined if all were withdrawn. */
  readonly current?: Attempt;
}

export function settle(context: Context): ReadonlyMap<string, Settled> {
  const { evidence } = context.input;
  const attempts = attemptsOf(measurementsOf(evidence.readings));
  const judged = new Map<string, Attempt[]>();
  for (const [key, measurements] of attempts) {
    judged.set(
      key,
      measurements.map((measurement, index) => ({
        ...judge(measurement, context),
        number: index + 1,
        withdrawn: evidence.withdrawals.find((one) => covers(one, measurement.cell)),
      })),
    );
  }
  doubtUnits(judged, context);
  doubtSigns(judged);
  doubtSetups(judged);
  holdSuspected(judged, context);
  const settled = new Map<string, Settled>();
  for (const [key, list] of judged)
    settled.set(key, { key, attempts: list, current: lastValid(list) });
  return averaged(settled, context);
}

/** Readings of a set-up that cannot be, for the other objects that were measured with it. */
export function suspicionsIn(
  readings: readonly ReadingResult[],
): readonly (Suspicion & { readonly setup: string })[] {
  return readings.flatMap(({ reading, reason: why, wavelength, setup, method }) =>
    reading && setup !== undefined && why === 'loss-negative' && method === 'one-cord'
      ? [{ setup, wavelength, at: reading.at }]
      : [],
  );
}

function lastValid(attempts: readonly Attempt[]): Attempt | undefined {
  const standing = attempts.filter((attempt) => !attempt.withdrawn);
  return standing.findLast((attempt) => attempt.valid) ?? standing.at(-1);
}

/** A block in which every loss is impossibly negative was written with the other sign: said once, not as many bad references. */
function doubtSigns(judged: ReadonlyMap<string, Attempt[]>): void {
  const blocks = new Map<number, { attempts: [Attempt[], number][]; all: boolean }>();
  for (const list of judged.values()) {
    for (const [index, attempt] of list.entries()) {
      const { cell } = attempt.measurement;
      if (cell.loss === undefined || attempt.withdrawn) continue;
      const block = blocks.get(cell.place.block) ?? { attempts: [], all: true };
      blocks.set(cell.place.block, block);
      block.attempts.push([list, index]);
      if (attempt.reason?.name !== 'loss-negative' || cell.loss >= 0) block.all = false;
    }
  }
  for (const { attempts, all } of blocks.values()) {
    if (!all || attempts.length < signBatch) continue;
    for (const [list, index] of attempts) {
      const attempt = list[index];
      if (!attempt) continue;
      const because = 'every loss of this block is negative: it was written with the other sign';
      const why = reason('sign-suspect', because, {
        loss: db(attempt.measurement.cell.loss ?? 0),
        readings: attempts.length,
      });
      list[index] = { ...attempt, ...voided(attempt.measurement, attempt.result, why) };
    }
  }
}

/** Two set-ups that claim one reading are two statements of one fact: neither stands. */
function doubtSetups(judged: ReadonlyMap<string, Attempt[]>): void {
  for (const list of judged.values()) {
    for (const [index, attempt] of list.entries()) {
      const { cell } = attempt.measurement;
      if (!attempt.valid || attempt.withdrawn || cell.at.from !== cell.at.to) continue;
      const other = list.find(
        ({ measurement, withdrawn }) =>
          !withdrawn &&
          measurement.cell.setup !== cell.setup &&
          measurement.cell.at.from === cell.at.from &&
          measurement.cell.at.to === cell.at.to,
      )?.measurement.cell;
      if (!other) continue;
      const [one, another] = [cell.setup, other.setup].sort() as [string, string];
      const because = `set-ups ${one} and ${another} both claim it`;
      const why = reason(
        'set-ups-claim-one-reading',
        because,
        { one, other: another, tested: cell.at.text },
        [{ place: other.place, message: `with ${other.setup}` }],
      );
      list[index] = { ...attempt, ...voided(attempt.measurement, attempt.result, why) };
    }
  }
}

/** An impossible one-cord reading holds what was taken with its reference until a check passes. */
function holdSuspected(judged: ReadonlyMap<string, Attempt[]>, context: Context): void {
  const own: { setup: string; wavelength: number; at: Suspicion['at']; cell?: ReadingCell }[] = [];
  for (const list of judged.values()) {
    for (const { measurement, reason: why, withdrawn, arrangement } of list) {
      if (why?.name !== 'loss-negative' || withdrawn || arrangement?.method !== 'one-cord')
        continue;
      const { cell } = measurement;
      own.push({ setup: cell.setup, wavelength: cell.wavelength, at: cell.at, cell });
    }
  }
  const elsewhere = new Map<string, readonly Suspicion[]>();
  for (const list of judged.values()) {
    for (const [index, attempt] of list.entries()) {
      if (!attempt.valid) continue;
      const { cell } = attempt.measurement;
      const setup = context.input.setup(cell.setup);
      if (!setup) continue;
      let others = elsewhere.get(cell.setup);
      if (!others) {
        others = context.input.suspected?.(cell.setup) ?? [];
        elsewhere.set(cell.setup, others);
      }
      const suspects = [...own.filter((one) => one.setup === cell.setup), ...others];
      const suspect = suspects.find(
        (one) =>
          one.wavelength === cell.wavelength &&
          isHeld(setup, cell.wavelength, cell.at, one.at, context.settings),
      );
      if (!suspect) continue;
      const because = `a reading of ${suspect.at.text} with set-up ${setup.name} is impossible, and no check has passed since`;
      const why = reason(
        'reference-suspect',
        because,
        { setup: setup.name, suspect: suspect.at.text },
        [{ place: suspect.at.place, message: 'the impossible reading' }],
      );
      list[index] = { ...attempt, ...voided(attempt.measurement, attempt.result, why) };
    }
  }
}

/**
 * Where the contract says so, both directions are judged by their mean; the
 * difference is bounded, and a mean over a step in core size is no mean.
 */
function averaged(settled: Map<string, Settled>, context: Context): ReadonlyMap<string, Settled> {
  const { average, within } = context.link.terms.directions;
  if (!average) return settled;
  for (const [key, one] of settled) {
    const a = one.current;
    if (a?.measurement.cell.direction !== 'A>B') continue;
    const { fibre, wavelength, at } = a.measurement.cell;
    if (hasCoreStep(context.along(fibre, at.from).path.pieces)) continue;
    const otherKey = keyText(fibre, wavelength, 'B>A');
    const other = settled.get(otherKey);
    const b = other?.current;
    if (!other || !b || !meanable(a) || !meanable(b)) continue;
    const [first, second] = [a.result.loss, b.result.loss];
    const limit = a.result.limit?.value;
    if (first === undefined || second === undefined || limit === undefined) continue;
    if (limit !== b.result.limit?.value) continue;
    if (within !== undefined && Math.abs(first - second) > within) continue;
    const sum = microDb(first + second);
    const uncertainty = microDb(Math.max(a.result.uncertainty, b.result.uncertainty));
    const verdict = decide(sum, limit, uncertainty, context.settings.decision.rule, 2);
    const half = (exactDb(sum) / 2n) as ExactDb;
    const mean = printProse(half, placesApart([half, limit], 3));
    const because = `judged by the average of ${inDb(first)} and ${inDb(second)}: ${mean} dB`;
    const margin = marginTo(limit, sum, 2);
    for (const [name, settledKey, attempt] of [
      [key, one, a],
      [otherKey, other, b],
    ] as const) {
      const joined: Attempt = {
        ...attempt,
        result: { ...attempt.result, verdict, margin, because },
        compared: { sum, readings: 2 },
      };
      settled.set(name, {
        ...settledKey,
        attempts: settledKey.attempts.map((each) => (each === attempt ? joined : each)),
        current: joined,
      });
    }
  }
  return settled;
}

function meanable(attempt: Attempt): boolean {
  return (
    attempt.valid &&
    ['pass', 'marginal-pass', 'marginal-fail', 'fail'].includes(attempt.result.verdict) &&
    attempt.result.lossBound === undefined
  );
}
