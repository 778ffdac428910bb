/**
 * The comparison of two states of a plan: what the text says otherwise, what
 * that does to results, and which does which; in the order in which a reviewer
 * wants to hear it.
 */
import { Causes } from './causes.ts';
import { editsOf } from './edits/index.ts';
import { effectOf, marginMove, movesVerdict } from './effects.ts';
import { type Movement, movementsOf } from './movements.ts';
import { objectPairs } from './objects.ts';
import { retestsOf } from './retest.ts';
import { ruleBreaches } from './rules.ts';
import { emptyState, onlyEdit, withOneText } from './sides.ts';
import { matrixOf, summaryOf } from './summary.ts';
import {
  type Change,
  type Comparison,
  changeKinds,
  type Edit,
  type Effect,
  type PlanState,
  type Summary,
} from './types.ts';
import { editsOfUnread } from './unread.ts';

/** Both sides are judged by the same instant; what is equal by reference on both is not looked into. */
export function compare(before: PlanState, after: PlanState): Comparison {
  return compared(before, after, withOneText(editsOf(before, after), before, after));
}

/** A plan that is on one side alone: everything in it is new, or gone, as one change. */
export function compareOneSided(
  before: PlanState | undefined,
  after: PlanState | undefined,
): Comparison {
  const there = after ?? before;
  if (!there) throw new TypeError('a comparison wants a plan on one side at least');
  const none = emptyState(there);
  return compared(before ?? none, after ?? none, [onlyEdit(before, after)]);
}

function compared(before: PlanState, after: PlanState, told: readonly Edit[]): Comparison {
  const byObject = objectPairs(before, after, told).flatMap((pair) => {
    const movements = movementsOf(pair);
    return movements.length > 0 ? [{ pair, movements }] : [];
  });
  const movedPairs = byObject.map(({ pair }) => pair);
  const edits = [...editsOfUnread(movedPairs, told, before, after), ...told];
  const causes = new Causes(edits, before, after);
  const moved = byObject.flatMap(({ movements }): Moved[] => {
    const of = causes.of(movements);
    return movements.map((movement, index) => ({ movement, causes: of[index]! }));
  });
  const movers = new Set<number>();
  for (const each of moved) {
    if (each.causes[0] !== undefined && movesVerdict(each.movement)) movers.add(each.causes[0]);
  }
  const order = inOrder(edits, movers, before, after);
  const places = new Map(order.map((index, place) => [index, place]));
  const effects = moved.map((each) =>
    effectOf(
      each.movement,
      each.causes.map((index) => places.get(index)!),
      before,
      after,
    ),
  );
  const [was, is] = [summaryOf(before), summaryOf(after)];
  const changes = changesOf(order, edits, movers, moved, effects);
  const retest = retestsOf(moved, edits);
  return {
    before: headOf(before, was),
    after: headOf(after, is),
    changes,
    effects,
    matrix: matrixOf(was, effects),
    retest,
    breaches: ruleBreaches({ changes, effects, retest }, before, after),
    engineering: edits.filter(({ kind }) => kind !== 'text' && kind !== 'words').length,
  };
}

function headOf({ label, result: { title } }: PlanState, summary: Summary): Comparison['before'] {
  return { label, ...(title !== undefined && { title }), summary };
}

/** Those that move a verdict first, each group by kind, then by the text. */
function inOrder(
  edits: readonly Edit[],
  movers: ReadonlySet<number>,
  before: PlanState,
  after: PlanState,
): readonly number[] {
  const files = new Map<string, number>();
  for (const { path } of [...after.files, ...before.files]) {
    if (!files.has(path)) files.set(path, files.size);
  }
  const keys = edits.map((edit, index) => {
    const at = edit.after ?? edit.before;
    return [
      edit.kind === 'text' ? 2 : movers.has(index) ? 0 : 1,
      changeKinds.indexOf(edit.kind),
      at ? (files.get(at.path) ?? files.size) : files.size,
      at?.range.start.line ?? 0,
      at?.range.start.character ?? 0,
      index,
    ];
  });
  return [...edits.keys()].sort((a, b) => byNumbers(keys[a]!, keys[b]!));
}

function byNumbers(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((value, index) => value !== b[index]);
  return at < 0 ? 0 : a[at]! - b[at]!;
}

function changesOf(
  order: readonly number[],
  edits: readonly Edit[],
  movers: ReadonlySet<number>,
  moved: readonly Moved[],
  effects: readonly Effect[],
): readonly Change[] {
  const own = new Map<number, { readonly effect: Effect; readonly verdict: boolean }[]>();
  for (const [index, { movement, causes }] of moved.entries()) {
    const [first] = causes;
    if (first === undefined) continue;
    const one = { effect: effects[index]!, verdict: movesVerdict(movement) };
    const others = own.get(first);
    if (others) others.push(one);
    else own.set(first, [one]);
  }
  return order.map((index) => ({
    ...edits[index]!,
    effects: (own.get(index) ?? [])
      .map((one) => ({ ...one, move: marginMove(one.effect) }))
      .sort(
        (a, b) =>
          Number(b.verdict) - Number(a.verdict) || (a.move < b.move ? 1 : a.move > b.move ? -1 : 0),
      )
      .map(({ effect }) => effect),
    movesVerdict: movers.has(index),
  }));
}

interface Moved {
  readonly movement: Movement;
  readonly causes: readonly number[];
}
