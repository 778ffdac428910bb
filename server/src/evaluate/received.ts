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
  const windows = context.link.terms.require.filter((required) => required.kind === 'power');
  const results = [
    ...windows.flatMap((window) => byWindow(draft, window, context)),
    ...byLaunch(measurement, draft, setup, context),
  ];
  const worst = results.reduce<Draft | undefined>((a, b) => (a && !worse(b, a) ? a : b), undefined);
  const because =
    'received power is judged by a power window, or by the launch it came from, and neither is given';
  const result = worst ?? { ...draft, verdict: 'not-judged' as const, because, reason: 'no-limit' };
  return aged({ measurement, valid: true, result }, context);
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
      ? { ...side, because: `${inDbm(power)} is not ${side.limit?.name ?? ''}` }
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
  if (!setup.events.some((event) => event.kind === 'taken') || draft.power === undefined) return [];
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
