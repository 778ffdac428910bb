/**
 * Concessions: a person accepts a value that fails, for a key, with a reason
 * and a date. It stands while the reading that governs is valid, fails and is
 * at most the value accepted; the first pass measured after it spends it. It
 * never hides the fail, and never covers absence, darkness, invalidity, age or
 * another wavelength.
 */
import type { Concession } from '../model/types.ts';
import { covers } from './measurement.ts';
import { db, inDb, type Reason, reason } from './reasons.ts';
import type { Attempt, Settled } from './settle.ts';

export interface Conceded {
  readonly settled: Settled;
  /** A concession that would cover the reading, had a pass not spent it. */
  readonly spent?: Reason;
  /** One for this reading that its value is beyond, or that has ended: what the finding of its excess adds. */
  readonly short?: Short;
}

export interface Short {
  /** dB. */
  readonly accepted: number;
  readonly by: string;
  /** The last day of one that would have been enough. */
  readonly ended?: string;
}

export function concede(
  settled: Settled,
  concessions: readonly Concession[],
  asOf: number,
): Conceded {
  const { current } = settled;
  if (!current || !fails(current)) return { settled };
  const { cell } = current.measurement;
  const { loss } = current.result;
  if (loss === undefined) return { settled };
  const compared = current.compared ?? { sum: loss, readings: 1 };
  let spent: Reason | undefined;
  let short: Short | undefined;
  for (const concession of concessions) {
    if (!covers(concession, cell)) continue;
    const { until, accepted, by } = concession;
    const ended = until !== undefined && until.to < asOf;
    const beyond = compared.sum > accepted * compared.readings;
    if (ended || beyond) {
      // One that holds and is too small says more than one that has ended, and was too small as well.
      if (!ended) short = { accepted: db(accepted), by };
      else if (!beyond) short ??= { accepted: db(accepted), by, ended: until.text };
      continue;
    }
    const pass = spentBy(settled, concession);
    if (pass) {
      spent ??= reason(
        'concession-spent',
        `the concession of up to ${inDb(concession.accepted)} was spent by the pass of ${pass.measurement.cell.at.text}`,
        {
          loss: db(loss),
          accepted: db(concession.accepted),
          passed: pass.measurement.cell.at.text,
          by: concession.by,
        },
        [
          { place: concession.place, message: 'the concession' },
          { place: pass.measurement.cell.place, message: 'the pass that spent it' },
        ],
      );
      continue;
    }
    const over = overBy(current);
    // A guarded decision refuses what lies inside the limit by less than the uncertainty.
    const was =
      over > 0
        ? `${current.result.verdict} by ${inDb(over)}`
        : `${current.result.verdict}, inside the limit by less than the uncertainty of ${inDb(current.result.uncertainty)}`;
    const because = `${was}; up to ${inDb(concession.accepted)} accepted by ${concession.by}: ${concession.because}`;
    const conceded: Attempt = {
      ...current,
      result: { ...current.result, verdict: 'conceded', because, reason: current.result.verdict },
    };
    return {
      settled: {
        ...settled,
        attempts: settled.attempts.map((each) => (each === current ? conceded : each)),
        current: conceded,
      },
    };
  }
  return { settled, spent, short };
}

function fails(attempt: Attempt): boolean {
  const { verdict, lossBound } = attempt.result;
  return lossBound === undefined && (verdict === 'fail' || verdict === 'marginal-fail');
}

/** The first pass after the concession, or on its day and after a reading that needed it. */
function spentBy(settled: Settled, concession: Concession): Attempt | undefined {
  let needed = false;
  for (const attempt of settled.attempts) {
    if (!attempt.valid || attempt.withdrawn) continue;
    const { at } = attempt.measurement.cell;
    if (passed(attempt)) {
      const after = concession.on !== undefined && at.from > concession.on.to;
      const maybe = concession.on === undefined || at.to >= concession.on.from;
      if (after || (maybe && needed)) return attempt;
    } else if (isOver(attempt)) needed = true;
  }
  return undefined;
}

/** By its numbers: work afterwards ages a reading, and it was a pass all the same. */
function passed(attempt: Attempt): boolean {
  const { margin, verdict } = attempt.result;
  if (verdict === 'pass' || verdict === 'marginal-pass') return true;
  return verdict === 'stale' && margin !== undefined && margin >= 0n;
}

function isOver(attempt: Attempt): boolean {
  const { margin } = attempt.result;
  return margin !== undefined && margin < 0n;
}

function overBy(attempt: Attempt): number {
  const { margin } = attempt.result;
  return margin === undefined ? 0 : Math.round(Number(-margin) / 1e9);
}
