/** What a comparison has to say, whatever form it is said in. */
import type {
  Change,
  Comparison,
  EitherPlace,
  PlanState,
  RuleBreach,
  StatePlace,
} from '../../../compare/types.ts';
import { numbersInWords } from '../../../model/numbers.ts';
import { changesOf, namedElsewhere } from '../../../report/changes/index.ts';
import type { ChangesView } from '../../../report/changes/view.ts';
import { counted, plainDisplay } from '../../../report/figures.ts';
import type { Told } from '../told.ts';

export interface ComparedPlan {
  readonly comparison: Comparison;
  /** The plan as it was, where there was one. */
  readonly before?: PlanState;
  /** A place of either state as written from the working folder. */
  pathOf(place: StatePlace, side: 'before' | 'after'): string;
  /** The plan's own file, where it is, or was. */
  readonly path: string;
}

export interface Compared {
  readonly plans: readonly ComparedPlan[];
  /** Commits, where a side is a revision. */
  readonly commits: { readonly before?: string; readonly after?: string };
}

/** Where something stands: in the new state, or in the old where it is gone. */
export function placeOf(
  plan: ComparedPlan,
  after: StatePlace | undefined,
  before?: StatePlace,
): Pick<Told, 'path' | 'range'> {
  if (after) return { path: plan.pathOf(after, 'after'), range: after.range };
  if (before) return { path: plan.pathOf(before, 'before'), range: before.range };
  const top = { line: 0, character: 0 };
  return { path: plan.path, range: { start: top, end: top } };
}

/** Plans of which people want to read: those that changed; one alone in any case. */
export function toldPlans({ plans }: Compared): readonly ComparedPlan[] {
  return plans.length === 1
    ? plans
    : plans.filter(
        ({ comparison: { changes, breaches } }) => changes.length > 0 || breaches.length > 0,
      );
}

/** How many others there are: `11 plans are as they were.` */
export function untoldPlans(compared: Compared): string | undefined {
  const others = compared.plans.length - toldPlans(compared).length;
  if (others === 0) return undefined;
  return `${counted(others, 'plan is as it was', 'plans are as they were')}.`;
}

/** What is said to people of one plan, beside what the page says too. */
export interface Said {
  readonly view: ChangesView;
  /** Of each change in its order, where it stands: now first. */
  readonly places: readonly (readonly string[])[];
  /** What asks for an answer: broken rules, evidence altered. */
  readonly asks: readonly Ask[];
  readonly retest: readonly Repeat[];
}

interface Ask {
  readonly name: string;
  readonly where: string;
  readonly message: string;
}

/** Readings to make again for one reason. */
interface Repeat {
  readonly because: string;
  readonly readings: number;
  /** `KQ-G1 fibres 1..4`. */
  readonly of: readonly string[];
}

export function saidOf(plan: ComparedPlan): Said {
  const comparison = withPaths(plan);
  return {
    view: changesOf({ comparison, display: plainDisplay }),
    places: comparison.changes.map((change) => placesOf(change)),
    asks: asksOf(comparison),
    retest: repeatsOf(comparison),
  };
}

/** What breaks a rule, or where the rule stands where nothing does. */
export function broken({ at, stands }: Pick<RuleBreach, 'at' | 'stands'>): EitherPlace {
  return at.after || at.before ? at : stands;
}

/** As terminals make a link of it; what is gone is said of the state before. */
function placesOf(change: Pick<Change, 'before' | 'after' | 'elsewhere'>): readonly string[] {
  const at = ({ path, range }: StatePlace) => `${path}:${range.start.line + 1}`;
  const both = ({ before, after }: Sides) => [
    ...(after ? [at(after)] : []),
    ...(before ? [`${at(before)} before`] : []),
  ];
  return [...both(change), ...namedElsewhere(change).flatMap((one) => both(one)[0] ?? [])];
}

function asksOf({ changes, breaches }: Comparison): readonly Ask[] {
  const rules = breaches.map(({ rule, message, ...places }): Ask => {
    return { name: rule, message, where: placesOf(broken(places))[0] ?? '' };
  });
  const altered = changes.flatMap((change): Ask[] => {
    const { guard, subject } = change;
    if (!guard || guard.answered !== undefined) return [];
    const message = `${subject}: ${guard.message}`;
    return [{ name: guard.finding, message, where: placesOf(change)[0] ?? '' }];
  });
  return [...rules, ...altered];
}

function repeatsOf({ retest }: Comparison): readonly Repeat[] {
  const reasons = new Map<string, Map<string, Set<number>>>();
  const counts = new Map<string, number>();
  for (const { key, because } of retest) {
    const objects = reasons.get(because) ?? new Map<string, Set<number>>();
    reasons.set(because, objects);
    objects.set(key.object, (objects.get(key.object) ?? new Set()).add(key.fibre));
    counts.set(because, (counts.get(because) ?? 0) + 1);
  }
  return [...reasons].map(([because, objects]) => ({
    because,
    readings: counts.get(because) ?? 0,
    of: [...objects].map(
      ([object, fibres]) => `${object} ${numbersInWords([...fibres].sort((a, b) => a - b))}`,
    ),
  }));
}

interface Sides {
  readonly before?: StatePlace | undefined;
  readonly after?: StatePlace | undefined;
}

/** With files as they are written from the working folder. */
export function withPaths({ comparison, pathOf }: ComparedPlan): Comparison {
  const placed = (place: StatePlace | undefined, side: 'before' | 'after') =>
    place && { ...place, path: pathOf(place, side) };
  const either = ({ before, after }: Sides): EitherPlace => ({
    ...(before && { before: placed(before, 'before')! }),
    ...(after && { after: placed(after, 'after')! }),
  });
  return {
    ...comparison,
    changes: comparison.changes.map(({ before, after, elsewhere, ...change }) => ({
      ...change,
      ...either({ before, after }),
      ...(elsewhere && {
        elsewhere: elsewhere.map(({ blocks, ...sides }) => ({ blocks, ...either(sides) })),
      }),
    })),
    breaches: comparison.breaches.map(({ stands, at, ...breach }) => ({
      ...breach,
      stands: either(stands),
      at: either(at),
    })),
  };
}
