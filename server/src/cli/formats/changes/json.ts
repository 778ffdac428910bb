/** A comparison in the JSON form that the schema names; one object a plan, an array where there are several. */
import {
  type ExactDb,
  microToNumber,
  toMetres,
  toNanometres,
  toNumberDb,
} from '../../../../../grammar/src/quantity/index.ts';
import type {
  Change,
  Comparison,
  DesignStanding,
  Effect,
  EitherPlace,
  ObjectStanding,
  ReadingKey,
  Standing,
  StatePlace,
  Summary,
  SupportStanding,
} from '../../../compare/types.ts';
import { verdictCountsJson } from '../../../report/json.ts';
import { toolName } from '../../version.ts';
import type { Compared, ComparedPlan } from './compared.ts';
import type { ComparisonJson } from './schema.ts';

export function json({ plans, commits }: Compared): string {
  const forms = plans.map((plan) => planJson(plan, commits));
  return `${JSON.stringify(forms.length === 1 ? forms[0] : forms, null, 2)}\n`;
}

type Side = 'before' | 'after';
type Placed = (place: StatePlace | undefined, side: Side) => ComparisonJson['changes'][0]['before'];
type EffectJson = ComparisonJson['effects'][number];

function planJson(plan: ComparedPlan, commits: Compared['commits']): ComparisonJson {
  const { comparison, path } = plan;
  const placed: Placed = (place, side) =>
    place ? { file: plan.pathOf(place, side), range: place.range } : null;
  const either = ({ before, after }: EitherPlace) =>
    after ? placed(after, 'after') : placed(before, 'before');
  const indices = new Map(comparison.effects.map((effect, index) => [effect, index]));
  return {
    version: 1,
    document: 'comparison',
    tool: toolName,
    plan: path,
    before: sideJson(comparison.before, commits.before),
    after: sideJson(comparison.after, commits.after),
    engineering_changes: comparison.engineering,
    changes: comparison.changes.map((change) => changeJson(change, placed, indices)),
    effects: comparison.effects.map((effect) => effectJson(effect, placed)),
    matrix: comparison.matrix.map((cell) => ({ ...cell })),
    retest: comparison.retest.map(({ key, because }) => ({ key: keyJson(key), because })),
    breaches: comparison.breaches.map(({ rule, message, stands, at }) => ({
      rule,
      message,
      stands: either(stands),
      at: either(at),
    })),
  };
}

function sideJson(
  { label, title, summary }: Comparison['before'],
  commit: string | undefined,
): ComparisonJson['before'] {
  return { label, commit: commit ?? null, title: title ?? null, summary: summaryJson(summary) };
}

function summaryJson(summary: Summary): ComparisonJson['before']['summary'] {
  const { objects, expected, present, verdicts, accepted, worst } = summary;
  return {
    objects,
    expected_readings: expected,
    present_readings: present,
    verdicts: verdictCountsJson(verdicts),
    accepted,
    worst: worst
      ? { margin_db: toNumberDb(worst.margin), object: worst.object, key: keyJson(worst.key) }
      : null,
  };
}

function changeJson(
  change: Change,
  placed: Placed,
  indices: ReadonlyMap<Effect, number>,
): ComparisonJson['changes'][number] {
  const { kind, form, subject, was, now, note, before, after, reach, readings, count } = change;
  const { guard, movesVerdict, effects, elsewhere } = change;
  return {
    kind,
    form,
    subject,
    was: was ?? null,
    now: now ?? null,
    note: note ?? null,
    before: placed(before, 'before'),
    after: placed(after, 'after'),
    elsewhere: (elsewhere ?? []).map((place) => ({
      before: placed(place.before, 'before'),
      after: placed(place.after, 'after'),
    })),
    reach: [...reach],
    readings: (readings ?? []).map(keyJson),
    count,
    guard: guard
      ? { finding: guard.finding, message: guard.message, answered: guard.answered ?? null }
      : null,
    moves_verdict: movesVerdict,
    effects: effects.flatMap((effect) => indices.get(effect) ?? []),
  };
}

function effectJson(effect: Effect, placed: Placed): EffectJson {
  const { object, formerly, causes } = effect;
  const moved = { object, formerly: formerly ?? null, causes: [...causes] };
  switch (effect.kind) {
    case 'reading':
      return {
        kind: 'reading',
        ...moved,
        key: keyJson(effect.key),
        end: effect.end ?? null,
        before: standingJson(effect.before, placed, 'before'),
        after: standingJson(effect.after, placed, 'after'),
      };
    case 'design':
      return {
        kind: 'design',
        ...moved,
        wavelength_nm: toNanometres(effect.wavelength),
        direction: effect.direction ?? null,
        reference: effect.reference ?? null,
        way: effect.way ?? null,
        before: designJson(effect.before),
        after: designJson(effect.after),
      };
    case 'application':
      return {
        kind: 'application',
        ...moved,
        application: effect.application,
        way: effect.way ?? null,
        before: supportJson(effect.before),
        after: supportJson(effect.after),
      };
    case 'object':
      return {
        kind: 'object',
        ...moved,
        before: wholeJson(effect.before),
        after: wholeJson(effect.after),
      };
  }
}

function keyJson({ object, fibre, quantity, wavelength, direction }: ReadingKey) {
  return {
    object,
    fibre,
    quantity,
    wavelength_nm: toNanometres(wavelength),
    direction: direction ?? null,
  };
}

function standingJson(standing: Standing | undefined, placed: Placed, side: Side) {
  if (!standing) return null;
  const { verdict, loss, limit, governing, margin, attempt, expected, place } = standing;
  return {
    verdict,
    loss_db: loss === undefined ? null : microToNumber(loss),
    limit_db: exact(limit),
    governing: governing ?? null,
    margin_db: exact(margin),
    attempt,
    expected,
    place: placed(place, side),
  };
}

function designJson(standing: DesignStanding | undefined) {
  if (!standing) return null;
  const { expected, worst, limit, governing, margin } = standing;
  return {
    expected_db: exact(expected),
    worst_db: exact(worst),
    limit_db: exact(limit),
    governing: governing ?? null,
    design_margin_db: exact(margin),
  };
}

function supportJson(standing: SupportStanding | undefined) {
  if (!standing) return null;
  const { support, row, powerMargin, overloadMargin } = standing;
  return {
    support,
    row: row ?? null,
    power_margin_db: exact(powerMargin),
    overload_margin_db: exact(overloadMargin),
  };
}

function wholeJson(standing: ObjectStanding | undefined) {
  if (!standing) return null;
  const { verdict, expected, present, accepted, waitsFor, length } = standing;
  return {
    verdict,
    expected_readings: expected,
    present_readings: present,
    accepted,
    waits_for: [...waitsFor],
    length_m: length === undefined ? null : toMetres(length),
  };
}

function exact(value: ExactDb | undefined): number | null {
  return value === undefined ? null : toNumberDb(value);
}
