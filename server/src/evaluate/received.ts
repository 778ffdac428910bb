/**
 * Light of equipment that is still connected: a set-up without a reference
 * method meters received power. A window of power is judged by it; a loss only
 * where the launch it came from was measured (`taken`), and then as a channel
 * with its own cords.
 */
import {
  compareDb,
  type ExactDb,
  exactDb,
  lossFromPowers,
  type MicroDb,
  microDbm,
} from '../../../grammar/src/quantity/index.ts';
import type { Requirement, Setup } from '../model/types.ts';
import { plannedArrangement } from './arrangement.ts';
import type { Context } from './context.ts';
import { decide, decideLower, marginTo } from './decide.ts';
import { aged, type Judged, type voided } from './judge.ts';
import { governing } from './limits.ts';
import type { Measurement } from './measurement.ts';
import { inDbm, reason } from './reasons.ts';
import type { Limit, Verdict } from './result.ts';

type Draft = Parameters<typeof voided>[1];
type Window = Extract<Requirement, { kind: 'power' }>;

const notAsked =
  'received power is judged by a power window, or by the launch it came from, and neither is given';

export function judgeReceived(
  measurement: Measurement,
  draft: Draft,
  setup: Setup,
  context: Context,
): Judged {
  const { cell } = measurement;
  if (cell.quantity === 'loss') {
    const because = `set-up ${setup.name} does not say how many cords were referenced`;
    return {
      measurement,
      valid: false,
      result: { ...draft, verdict: 'not-judged', because, reason: 'method-undeclared' },
      reason: reason('method-undeclared', because, { setup: setup.name }, [
        { place: setup.place, message: `set-up ${setup.name}` },
      ]),
    };
  }
  if (cell.typed === 'dark') {
    return aged(judgeDarkness(measurement, draft, setup, context), context);
  }
  const results = sidesOf(measurement, draft, setup, context, windowsOf(context));
  const worst = results.reduce<Draft | undefined>((a, b) => (a && !worse(b, a) ? a : b), undefined);
  const unasked = { verdict: 'not-judged' as const, because: notAsked, reason: 'no-limit' };
  const result = worst ?? { ...draft, ...unasked };
  return aged({ measurement, valid: true, result }, context);
}

/**
 * No light: less arrives than the meter sees. What the most of that would not
 * keep is failed; whether less keeps the rest cannot be known.
 */
function judgeDarkness(
  measurement: Measurement,
  draft: Draft,
  setup: Setup,
  context: Context,
): Judged {
  const notJudged = (because: string, reason: string, limit?: Limit): Judged => ({
    measurement,
    valid: true,
    result: { ...draft, limit, verdict: 'not-judged', because, reason },
  });
  const floor = setup.meter?.floor;
  if (floor === undefined) {
    const because = `no light, and the meter of set-up ${setup.name} has no floor: how little arrives is not known`;
    return notJudged(because, 'meter-floor-missing');
  }
  const power = microDbm(floor - 1);
  const least = windowsOf(context).map(({ max, ...window }) => window);
  const [first, ...rest] = sidesOf(measurement, { ...draft, power }, setup, context, least);
  if (!first) return notJudged(notAsked, 'no-limit');
  const failed = [first, ...rest].find(({ margin }) => margin !== undefined && margin < 0n);
  if (!failed) {
    const because = `no light, but the set-up sees no less than ${inDbm(floor)}`;
    return notJudged(because, 'dark-within-limit', first.limit);
  }
  const because = `no light: less than ${inDbm(floor)} arrives`;
  return {
    measurement,
    valid: true,
    result: { ...draft, limit: failed.limit, verdict: 'fail', because, reason: 'dark' },
  };
}

function windowsOf(context: Context): readonly Window[] {
  return context.link.terms.require.filter((required) => required.kind === 'power');
}

/** By each window, and by the launch where it was measured. */
function sidesOf(
  measurement: Measurement,
  draft: Draft,
  setup: Setup,
  context: Context,
  windows: readonly Window[],
): readonly Draft[] {
  return [
    ...windows.flatMap((window) => byWindow(draft, window, context)),
    ...byLaunch(measurement, draft, setup, context),
  ];
}

/** By its verdict, and of two alike by what is left. */
function worse(a: Draft, b: Draft): boolean {
  const apart = severity(a.verdict) - severity(b.verdict);
  if (apart !== 0) return apart < 0;
  return a.margin !== undefined && b.margin !== undefined && compareDb(a.margin, b.margin) < 0;
}

/** Both sides of the window, the worse counts; a lower limit mirrors the signs of an upper one. */
function byWindow(draft: Draft, window: Window, context: Context): readonly Draft[] {
  const { power, uncertainty } = draft;
  const { rule } = context.settings.decision;
  if (power === undefined) return [];
  const sides: Draft[] = [];
  if (window.min !== undefined) {
    sides.push({
      ...draft,
      limit: windowLimit('at least', window.min, window),
      margin: exactDb((power - window.min) as MicroDb),
      verdict: decideLower(power, window.min, uncertainty, rule),
    });
  }
  if (window.max !== undefined) {
    sides.push({
      ...draft,
      limit: windowLimit('at most', window.max, window),
      margin: exactDb((window.max - power) as MicroDb),
      verdict: decide(
        power as number as MicroDb,
        exactDb(window.max as number as MicroDb),
        uncertainty,
        rule,
      ),
    });
  }
  return sides.map((side) =>
    side.verdict === 'fail' || side.verdict === 'marginal-fail'
      ? { ...side, because: `${inDbm(power, side.limit?.floor)} is not ${side.limit?.name ?? ''}` }
      : side,
  );
}

function windowLimit(side: string, power: number, window: Window): Limit {
  const value = exactDb(power as MicroDb) as ExactDb;
  return {
    kind: 'contract',
    name: `power ${side} ${inDbm(power)}`,
    value,
    floor: power as MicroDb,
    terms: [
      {
        what: `received power ${side}`,
        role: 'part',
        count: 1,
        each: power,
        total: value,
        source: 'required by the contract',
        place: window.place,
      },
    ],
    beside: false,
    recalled: false,
  };
}

/** Loss against the launch as measured: only what the contract or an application asks of light is compared. */
function byLaunch(
  measurement: Measurement,
  draft: Draft,
  setup: Setup,
  context: Context,
): readonly Draft[] {
  const { cell } = measurement;
  if (draft.power === undefined) return [];
  const standing = context.standing(setup, cell.wavelength, cell.at);
  if (!standing.good) return [];
  const loss = lossFromPowers(standing.reference, draft.power);
  const arrangement = plannedArrangement('equipment-cord');
  const limits = context
    .limits(arrangement, cell.wavelength, cell.direction ?? 'A>B')
    .filter((limit) => limit.kind !== 'components');
  const limit = governing(limits, cell.fibre);
  if (limit?.value === undefined) return [];
  const verdict = decide(loss, limit.value, draft.uncertainty, context.settings.decision.rule);
  return [
    {
      ...draft,
      reference: standing.reference,
      loss,
      limit,
      margin: marginTo(limit.value, loss),
      verdict,
    },
  ];
}

const worstFirst: readonly Verdict[] = ['fail', 'marginal-fail', 'marginal-pass', 'pass'];

function severity(verdict: Verdict): number {
  return worstFirst.indexOf(verdict);
}
