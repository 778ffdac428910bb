/**
 * All that an object says, wherever it is written: a row with what its table
 * and pattern say for it, a path with its patterns put in place. By it a link
 * that became a row, or a row of another table, is held against what it was.
 */
import type { BoundEntry, Value } from '../../../../grammar/src/bound.ts';
import { K, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import type { PlanState } from '../types.ts';
import type { BlocksById } from './side.ts';
import { holeOf } from './values.ts';

/** Patterns deeper in each other than this are compared by their names. */
const deepest = 8;

export interface Library {
  readonly state: PlanState;
  readonly blocks: BlocksById;
}

/** Entries with every `as` replaced by what its pattern says, holes filled. */
export function effective(
  entries: readonly BoundEntry[],
  library: Library,
  depth = 0,
): readonly BoundEntry[] {
  if (depth > deepest) return entries;
  return entries.flatMap((entry) => {
    if (entry.word !== W.as) return [entry];
    const pattern = patternNamed(nameOf(entry.slots.pattern), library);
    if (!pattern) return [entry];
    const filled = pattern.map((line) => fill(line, entry.slots));
    const placed = entry.slots[K.turned] ? [...filled].reverse() : filled;
    return effective(placed, library, depth + 1);
  });
}

/** The use of a pattern that a row amounts to: its holes by the cells of the row and the head of the table. */
export function useOfPattern(
  pattern: Value | undefined,
  holes: ReadonlyMap<string, Value>,
  span: BoundEntry['span'],
): readonly BoundEntry[] {
  if (!pattern) return [];
  const slots: Record<string, readonly Value[]> = { pattern: [pattern] };
  for (const [slot, value] of holes) slots[slot] = [value];
  return [{ word: W.as, span, wordSpan: span, slots }];
}

/** Entries of a declared pattern; undefined where none has that name. */
export function patternNamed(
  name: string | undefined,
  { state, blocks }: Library,
): readonly BoundEntry[] | undefined {
  const thing = name === undefined ? undefined : state.find(W.pattern, name);
  const block = thing && blocks.get(thing.place.block);
  const entry = block?.view
    .bound()
    .entries.find((each) => each.word === W.pattern && nameOf(each.slots.name) === name);
  return entry?.body?.entries;
}

function fill(entry: BoundEntry, by: BoundEntry['slots']): BoundEntry {
  const slots = Object.fromEntries(
    Object.entries(entry.slots).map(([slot, values]) => [
      slot,
      values.map((value) =>
        value.kind === 'hole' ? (by[`<${value.name}>`]?.[0] ?? value) : value,
      ),
    ]),
  );
  const { body } = entry;
  return {
    ...entry,
    slots,
    ...(body && { body: { ...body, entries: body.entries.map((each) => fill(each, by)) } }),
  };
}

/** Values of holes that stand behind a pattern's name. */
export function holesOf(slots: BoundEntry['slots']): ReadonlyMap<string, Value> {
  const holes = new Map<string, Value>();
  for (const [slot, [value]] of Object.entries(slots)) {
    if (holeOf(slot) !== undefined && value) holes.set(slot, value);
  }
  return holes;
}
