/**
 * Decision rules. Flagged: up to the limit less U passes, up to the limit is a
 * marginal pass, up to the limit plus U a marginal fail, above fails. Equality
 * goes to the milder side. U is expanded (k = 2) and never moves the limit.
 * Source: ILAC-G8:09/2019 and JCGM 106 (simple acceptance, guard bands and the
 * four-way statement with a guard band).
 */

import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import {
  type ExactDb,
  exactDb,
  floorDb,
  type MicroDb,
  timesDb,
} from '../../../grammar/src/quantity/index.ts';
import type { DecisionRule, FibreType, Mode, PlanSettings } from '../model/types.ts';
import type { Verdict } from './result.ts';
import { usualRepeatability } from './thresholds.ts';

export type Decided = Extract<Verdict, 'pass' | 'marginal-pass' | 'marginal-fail' | 'fail'>;

/**
 * The verdict of a value against an upper limit. `readings` values were summed
 * into `sum` (two for an average), and the limit and U count as often, so that
 * no mean is ever rounded.
 */
export function decide(
  sum: MicroDb,
  limit: ExactDb,
  uncertainty: MicroDb,
  rule: DecisionRule,
  readings = 1,
): Decided {
  const line = floorDb(timesDb(limit, readings));
  const guard = uncertainty * readings;
  return byRule(sum <= line - guard, sum <= line, sum <= line + guard, rule);
}

/** The verdict of a value against a lower limit: the mirror of {@link decide}. */
export function decideLower(
  value: number,
  limit: number,
  uncertainty: MicroDb,
  rule: DecisionRule,
): Decided {
  return byRule(value >= limit + uncertainty, value >= limit, value >= limit - uncertainty, rule);
}

function byRule(clear: boolean, within: boolean, near: boolean, rule: DecisionRule): Decided {
  switch (rule) {
    case 'simple':
      return within ? 'pass' : 'fail';
    case 'guarded-acceptance':
      return clear ? 'pass' : 'fail';
    case 'guarded-rejection':
      return near ? 'pass' : 'fail';
    case 'flagged':
      if (clear) return 'pass';
      if (within) return 'marginal-pass';
      return near ? 'marginal-fail' : 'fail';
  }
}

/** Whether a verdict counts as accepted under the plan's word on marginal results. */
export function isAccepted(
  verdict: Verdict,
  { decision: { accepting } }: Pick<PlanSettings, 'decision'>,
): boolean {
  switch (verdict) {
    case 'pass':
    case 'conceded':
      return true;
    case 'marginal-pass':
      return accepting !== 'none';
    case 'marginal-fail':
      return accepting === 'marginal-fail';
    default:
      return false;
  }
}

export interface Uncertainty {
  /** Expanded, k = 2. Zero where the plan says none. */
  readonly expanded: MicroDb;
  readonly repeatable: MicroDb;
  readonly stated: boolean;
}

/** The plan's uncertainty that fits best: wavelength before method before what it is for. */
export function uncertaintyFor(
  settings: Pick<PlanSettings, 'uncertainty'>,
  wavelength: Picometres,
  method: string | undefined,
  mode: Mode | undefined,
  fibres: readonly (Pick<FibreType, 'name'> | undefined)[],
): Uncertainty {
  const names = new Set(fibres.flatMap((fibre) => (fibre ? [fibre.name] : [])));
  let best:
    | { readonly weight: number; readonly entry: PlanSettings['uncertainty'][number] }
    | undefined;
  for (const entry of settings.uncertainty) {
    if (entry.wavelength !== undefined && entry.wavelength !== wavelength) continue;
    if (entry.method !== undefined && entry.method !== method) continue;
    const named = entry.for !== undefined && names.has(entry.for);
    if (entry.for !== undefined && entry.for !== mode && !named) continue;
    const weight =
      (entry.wavelength !== undefined ? 8 : 0) +
      (entry.method !== undefined ? 4 : 0) +
      (named ? 2 : entry.for !== undefined ? 1 : 0);
    if (!best || weight > best.weight) best = { weight, entry };
  }
  return {
    expanded: best?.entry.loss ?? (0 as MicroDb),
    repeatable: best?.entry.repeatable ?? usualRepeatability,
    stated: best !== undefined,
  };
}

/** Margin to an upper limit, of one value or of the mean of several. */
export function marginTo(limit: ExactDb, sum: MicroDb, readings = 1): ExactDb {
  return (limit - exactDb(sum) / BigInt(readings)) as ExactDb;
}
