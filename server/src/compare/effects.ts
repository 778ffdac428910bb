/** Movements as effects: with what is shown of both sides, where it stands, and the changes it comes from. */
import {
  designStanding,
  type Movement,
  objectStanding,
  type StandingReading,
  standing,
  supportStanding,
} from './movements.ts';
import type { Effect, PlanState, Standing } from './types.ts';

export function effectOf(
  movement: Movement,
  causes: readonly number[],
  before: PlanState,
  after: PlanState,
): Effect {
  const { name, formerly } = movement.pair;
  const common = { object: name, ...(formerly !== undefined && { formerly }), causes };
  switch (movement.kind) {
    case 'object':
      return { kind: 'object', ...common, ...shown(movement, objectStanding) };
    case 'reading': {
      const { key } = movement;
      const end = (movement.after ?? movement.before)?.end;
      return {
        kind: 'reading',
        ...common,
        key,
        ...(end !== undefined && { end }),
        ...(movement.before && { before: placed(movement.before, before) }),
        ...(movement.after && { after: placed(movement.after, after) }),
      };
    }
    case 'design': {
      const { direction, way } = movement;
      const { wavelength, reference } = (movement.after ?? movement.before)!;
      return {
        kind: 'design',
        ...common,
        wavelength,
        ...(direction && { direction }),
        ...(reference && { reference }),
        ...(way !== undefined && { way }),
        ...shown(movement, designStanding),
      };
    }
    case 'application': {
      const { application, way } = movement;
      return {
        kind: 'application',
        ...common,
        application,
        ...(way !== undefined && { way }),
        ...shown(movement, supportStanding),
      };
    }
  }
}

function shown<Side, Shown>(
  { before, after }: { readonly before?: Side; readonly after?: Side },
  show: (side: Side) => Shown,
): { readonly before?: Shown; readonly after?: Shown } {
  return {
    ...(before !== undefined && { before: show(before) }),
    ...(after !== undefined && { after: show(after) }),
  };
}

function placed(reading: StandingReading, state: PlanState): Standing {
  const at = reading.result.reading?.place;
  const place = at && state.locate(at);
  return { ...standing(reading), ...(place && { place }) };
}

/**
 * Whether a verdict is another by it. A key that is on one side only was, or is,
 * as if nobody had read it: a reading to make that comes or goes moves none.
 */
export function movesVerdict(movement: Movement): boolean {
  if (movement.kind === 'object') {
    const { before, after } = movement;
    return before !== undefined && after !== undefined && before.verdict !== after.verdict;
  }
  if (movement.kind !== 'reading') return false;
  const verdict = (reading: StandingReading | undefined) => reading?.result.verdict ?? 'untested';
  return verdict(movement.before) !== verdict(movement.after);
}

/** How far its margin moves, in femto-decibels without a sign; 0 where there is none on a side. */
export function marginMove(effect: Effect): bigint {
  if (effect.kind === 'object') return 0n;
  const margin = (side: 'before' | 'after') =>
    effect.kind === 'application' ? effect[side]?.powerMargin : effect[side]?.margin;
  const [was, is] = [margin('before'), margin('after')];
  if (was === undefined || is === undefined) return 0n;
  return is > was ? is - was : was - is;
}
