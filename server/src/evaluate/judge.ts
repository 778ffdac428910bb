/**
 * One measurement judged alone: is it a measurement at all, what loss is it,
 * which limit holds for it, and what follows. Whether it stands for its key is
 * decided among all attempts, elsewhere.
 */
import {
  compareDb,
  exactDb,
  lossFromPowers,
  type MicroDb,
  type MicroDbm,
  microDb,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ReadingCell, Setup } from '../model/types.ts';
import { widenUncertainty } from '../optics/index.ts';
import type { Arrangement } from './arrangement.ts';
import type { Context } from './context.ts';
import { decide, marginTo } from './decide.ts';
import { impossiblePower } from './impossible-power.ts';
import { governing, type ReadingLimit } from './limits.ts';
import type { Measurement } from './measurement.ts';
import { agingWork } from './measurement.ts';
import { db, inDb, inDbm, type Notice, nm, type Reason, reason } from './reasons.ts';
import { judgeReceived } from './received.ts';
import type { ReadingResult, Verdict } from './result.ts';
import { wrongPair } from './seen.ts';
import { onShorter } from './shorter.ts';
import { implausibleLoss, looksLikePower, powerAgreement } from './thresholds.ts';
import { judgeTraced } from './traced.ts';
import { isLater } from './until-now.ts';

/** A measurement with its verdict and what evaluation needs to go on. */
export interface Judged {
  readonly measurement: Measurement;
  readonly result: Omit<ReadingResult, 'attempt' | 'current' | 'expectedSet'>;
  /** It may govern: made properly, whether or not work has aged it. */
  readonly valid: boolean;
  readonly reason?: Reason;
  readonly arrangement?: Arrangement;
  /** Lies between the floor and what is plausible: worth a word, not a verdict. */
  readonly noticed?: Notice;
}

export type Draft = { -readonly [Name in keyof Judged['result']]: Judged['result'][Name] };

export function judge(measurement: Measurement, whole: Context): Judged {
  const { cell } = measurement;
  const context = onShorter(whole.along(cell.fibre, cell.at.from), cell.fibre, whole);
  const setup = context.input.setup(cell.setup);
  const method = setup?.reference;
  const { expanded, repeatable } = context.uncertainty(
    cell.wavelength,
    method ?? (setup?.otdr && 'otdr'),
  );
  const draft: Draft = {
    fibre: cell.fibre,
    wavelength: cell.wavelength,
    direction: cell.direction,
    reading: cell,
    setup: cell.setup,
    method,
    power: cell.power ?? measurement.power?.power,
    loss: cell.loss,
    uncertainty: expanded,
    verdict: 'invalid',
    because: '',
  };
  if (isLater(cell.at, context.input.asOf)) {
    const because = 'dated later than the time of judgement';
    return voided(
      measurement,
      draft,
      reason('reading-in-future', because, { tested: cell.at.text }),
    );
  }
  if (!setup) {
    const because = cell.setup === '' ? 'no set-up is named' : `there is no set-up ${cell.setup}`;
    return voided(measurement, draft, reason('setup-unknown', because, { setup: cell.setup }));
  }
  const elsewhere = wrongPair(cell, context);
  if (elsewhere) return voided(measurement, draft, elsewhere);
  if (!method && setup.otdr && cell.quantity === 'loss') {
    return judgeTraced(measurement, draft, setup, context);
  }
  const unlikely = impossiblePower(draft.power);
  if (unlikely) return voided(measurement, draft, unlikely);
  if (!method) return judgeReceived(measurement, draft, setup, context);

  const standing = context.standing(setup, cell.wavelength, cell.at);
  draft.reference = standing.reference;
  if (standing.reference !== undefined) {
    draft.loss ??= lossOf(draft.power, standing.reference);
  }
  const impossible = implausible(draft.loss, cell);
  if (!standing.good) return voided(measurement, draft, standing.reason);
  const doubtful = impossiblePower(standing.reference);
  if (doubtful) return voided(measurement, draft, doubtful);
  const contradiction = disagreement(measurement, standing.reference);
  if (contradiction) return voided(measurement, draft, contradiction);
  if (cell.loss !== undefined && draft.power !== undefined) {
    // They agree within resolution; the greater of the two is taken, so that stating both never helps.
    draft.loss = microDb(Math.max(cell.loss, lossFromPowers(standing.reference, draft.power)));
  }
  if (impossible) return voided(measurement, draft, impossible);

  const cords = context.cords(setup, cell.at.from);
  const later = context.cords(setup, cell.at.to);
  const fault =
    context.fault(setup, cords, cell.direction, cell.wavelength) ??
    context.fault(setup, later, cell.direction, cell.wavelength);
  if (fault) return voided(measurement, draft, fault);

  const arrangement = context.arrangement(setup, method, cords, cell.direction);
  if (context.settings.drift.widening && standing.drift > 0) {
    draft.uncertainty = widenUncertainty(expanded, standing.drift);
  }
  const limits = context.limits(arrangement, cell.wavelength, cell.direction ?? 'A>B');
  const limit = governing(limits, cell.fibre);
  draft.limit = limit;
  if (cell.typed === 'dark') return judgeDark(measurement, draft, setup, arrangement, context);
  if (draft.loss === undefined) {
    return voided(measurement, draft, reason('value-missing', 'no value could be read'));
  }
  const below = belowFloor(draft.loss, arrangement, repeatable, setup, cell, context);
  if (below.void) return voided(measurement, draft, below.void, arrangement);
  const judged = byLimits(draft, draft.loss, limits, limit, context);
  return aged({ ...judged, measurement, arrangement, noticed: below.noticed }, context);
}

export function lossOf(power: MicroDbm | undefined, reference: MicroDbm): MicroDb | undefined {
  return power === undefined ? undefined : lossFromPowers(reference, power);
}

/** Work after a reading ages it; what it found stays visible. */
export function aged(judged: Judged, context: Context): Judged {
  const work = agingWork(context.work, judged.measurement.cell, context.sharing);
  if (!work) return judged;
  const { cell } = judged.measurement;
  const because = `${work.done} on ${work.on.text}, after it was measured`;
  return {
    ...judged,
    result: { ...judged.result, verdict: 'stale', because, reason: 'work' },
    reason: reason(
      'stale-reading',
      because,
      {
        done: work.done,
        on: work.on.text,
        tested: cell.at.text,
        timed: work.on.from === work.on.to ? 1 : 0,
      },
      [{ place: work.place, message: `${work.done} on ${work.on.text}` }],
    ),
  };
}

export function voided(
  measurement: Measurement,
  draft: Draft,
  why: Reason,
  arrangement?: Arrangement,
): Judged {
  return {
    measurement,
    result: { ...draft, verdict: 'invalid', because: why.because, reason: why.name },
    valid: false,
    reason: why,
    arrangement,
  };
}

/** A typed loss and the powers it came from are two statements of one fact. */
function disagreement(measurement: Measurement, reference: MicroDbm): Reason | undefined {
  const { cell, power } = measurement;
  if (cell.loss === undefined || power?.power === undefined) return undefined;
  const computed = lossFromPowers(reference, power.power);
  const difference = Math.abs(cell.loss - computed);
  if (difference <= powerAgreement) return undefined;
  return reason(
    'arithmetic-mismatch',
    `the loss is given as ${inDb(cell.loss, computed)}, and its powers make ${inDb(computed, cell.loss)}`,
    {
      loss: db(cell.loss),
      computed: db(computed),
      reference: db(reference),
      power: db(power.power),
      difference: db(difference),
      agreement: db(powerAgreement),
    },
    [{ place: power.place, message: inDbm(power.power) }],
  );
}

/** A loss that is far more likely a power, or a value in another unit. */
function implausible(loss: MicroDb | undefined, cell: ReadingCell): Reason | undefined {
  if (loss === undefined || cell.loss === undefined) return undefined;
  const power = loss >= looksLikePower.from && loss <= looksLikePower.to;
  if (!power && loss <= implausibleLoss) return undefined;
  const because = power
    ? `${inDb(loss)} looks like a received power in dBm`
    : `${inDb(loss)} is more than a loss test can show`;
  return reason('unit-suspect', because, { loss: db(loss), highest: db(implausibleLoss) });
}

/**
 * The floor of a legitimate reading. With nothing taken into the reference a
 * negative loss cannot be; with pairs in it a reading may lie below zero by
 * what they lose at most, less the repeatability of the set-up. Near zero on
 * fibre that must lose something is too good to be true, and stands.
 */
function belowFloor(
  loss: MicroDb,
  arrangement: Arrangement,
  repeatable: MicroDb,
  setup: Setup,
  cell: ReadingCell,
  context: Context,
): { readonly void?: Reason; readonly noticed?: Notice } {
  const floor = context.floor(arrangement, cell.wavelength);
  const exact = exactDb(loss);
  const { expanded } = context.uncertainty(cell.wavelength, arrangement.method);
  const facts = () => ({
    loss: db(loss),
    method: arrangement.method,
    setup: setup.name,
    floor: Number(floor.lowest) / 1e15,
    repeatable: db(repeatable),
  });
  if (arrangement.referencePairs === 0) {
    if (loss < 0) {
      const because = `${inDb(loss)}: more light arrived than the reference has, so the reference is not true`;
      return { void: reason('loss-negative', because, facts()) };
    }
    const byOwn = subtractDb(floor.own, exactDb(expanded));
    const least = compareDb(byOwn, exactDb(repeatable)) > 0 ? byOwn : exactDb(repeatable);
    if (exact >= least) return {};
    const details = { ...facts(), least: Number(least) / 1e15 };
    return { noticed: { name: 'loss-too-good', details, related: [] } };
  }
  const lowest = subtractDb(floor.lowest, exactDb(repeatable));
  if (exact < lowest) {
    const because = `${inDb(loss)} is below the lowest that ${arrangement.method} can read here`;
    return {
      void: reason('loss-negative', because, { ...facts(), lowest: Number(lowest) / 1e15 }),
    };
  }
  if (loss >= 0) return {};
  const details = {
    ...facts(),
    lowest: Number(lowest) / 1e15,
    grade: arrangement.grade ?? 'not said',
  };
  return { noticed: { name: 'loss-slightly-negative', details, related: [] } };
}

/** No light: the loss is greater than what reference and meter floor span. */
function judgeDark(
  measurement: Measurement,
  draft: Draft,
  setup: Setup,
  arrangement: Arrangement,
  context: Context,
): Judged {
  const floor = setup.meter?.floor;
  draft.loss = undefined;
  const base = { measurement, valid: true, arrangement };
  if (floor === undefined || draft.reference === undefined) {
    const because = `no light, and the meter of set-up ${setup.name} has no floor: how much is lost is not known`;
    return aged(
      {
        ...base,
        result: { ...draft, verdict: 'not-judged', because, reason: 'meter-floor-missing' },
      },
      context,
    );
  }
  const bound = lossFromPowers(draft.reference, floor);
  draft.lossBound = bound;
  const { limit } = draft;
  if (limit?.value === undefined) return aged({ ...base, result: notJudged(draft) }, context);
  if (exactDb(bound) > limit.value) {
    const because = `no light: the loss is more than ${inDb(bound)}`;
    return aged(
      { ...base, result: { ...draft, verdict: 'fail', because, reason: 'dark' } },
      context,
    );
  }
  const because = `no light, but the set-up sees no more than ${inDb(bound)}`;
  return aged(
    { ...base, result: { ...draft, verdict: 'not-judged', because, reason: 'dark-within-limit' } },
    context,
  );
}

export function byLimits(
  draft: Draft,
  loss: MicroDb,
  limits: readonly ReadingLimit[],
  limit: ReadingLimit | undefined,
  context: Context,
): Pick<Judged, 'result' | 'valid'> {
  const { rule } = context.settings.decision;
  const enough = limits.find((candidate) => candidate.sufficient && candidate.value !== undefined);
  let verdict: Verdict | undefined;
  if (limit?.value !== undefined) {
    draft.margin = marginTo(limit.value, loss);
    verdict = decide(loss, limit.value, draft.uncertainty, rule);
  }
  if (enough?.value !== undefined && exactDb(loss) <= enough.value) {
    const stated = decide(loss, enough.value, draft.uncertainty, rule);
    if (verdict === undefined || rank(stated) > rank(verdict)) {
      draft.limit = enough;
      draft.margin = marginTo(enough.value, loss);
      verdict = stated;
    }
  }
  if (verdict === undefined) return { result: notJudged(draft), valid: true };
  return { result: { ...draft, verdict }, valid: true };
}

const order: readonly Verdict[] = ['fail', 'marginal-fail', 'marginal-pass', 'pass'];

function rank(verdict: Verdict): number {
  return order.indexOf(verdict);
}

function notJudged(draft: Draft): Draft {
  const because = `there is no limit at ${nm(draft.wavelength)} nm for it`;
  return { ...draft, verdict: 'not-judged', because, reason: 'no-limit' };
}
