/** One side of a comparison as the text of it is read: blocks with their files, and names said as they are called now. */
import type { BoundEntry } from '../../../../grammar/src/bound.ts';
import type { Span } from '../../../../grammar/src/tree.ts';
import type { BlockId } from '../../model/types.ts';
import type { BlockView } from '../../project/types.ts';
import type { PlanState, StatePlace } from '../types.ts';
import type { Naming } from './values.ts';

/** A block of one side, with the file that it stands in. */
export interface HeldBlock {
  readonly view: BlockView;
  readonly path: string;
  /** Place among all blocks of the side. */
  readonly order: number;
}

/** Where something is said. */
export interface Spot {
  readonly block: HeldBlock;
  readonly span: Span;
}

/** Who speaks: the text in which spans lie, and how its names are called by now. */
export interface Voice {
  readonly text: string;
  readonly naming: Naming;
  /** Name of the declaration that speaks, as it was called. */
  readonly self?: string;
}

/** An entry where it stands. */
export interface SaidEntry {
  readonly block: HeldBlock;
  readonly entry: BoundEntry;
}

export function allBlocks(state: PlanState): readonly HeldBlock[] {
  const held: HeldBlock[] = [];
  for (const { path, blocks } of state.files) {
    for (const view of blocks) held.push({ view, path, order: held.length });
  }
  return held;
}

export function placeIn(state: PlanState, spot: Spot): StatePlace | undefined {
  return state.locate({ block: spot.block.view.id, span: spot.span });
}

/** Blocks of a state by their identity, counted when first asked for. */
export class BlocksById {
  readonly #state: PlanState;
  #held: ReadonlyMap<BlockId, HeldBlock> | undefined;

  constructor(state: PlanState) {
    this.#state = state;
  }

  get(id: BlockId): HeldBlock | undefined {
    this.#held ??= new Map(allBlocks(this.#state).map((block) => [block.view.id, block]));
    return this.#held.get(id);
  }
}

/** Both sides with what is needed to read them. */
export interface Sides {
  readonly before: PlanState;
  readonly after: PlanState;
  readonly blocksBefore: BlocksById;
  readonly blocksAfter: BlocksById;
  /** A name of the old state as it is called now. */
  readonly naming: Naming;
}

/** Both sides say names as they are now: a name of before that stands for nothing else may be left in the new text. */
export const voiceOf = (block: HeldBlock, { naming }: Pick<Sides, 'naming'>): Voice => ({
  text: block.view.text,
  naming,
});

/** Lines of one side, where they stand. */
export interface Lines {
  readonly block: HeldBlock;
  readonly entries: readonly BoundEntry[];
  readonly voice: Voice;
}

export const linesOf = (
  { block, entry, name }: SaidEntry & { readonly name?: string },
  sides: Sides,
): Lines => ({
  block,
  entries: entry.body?.entries ?? [],
  voice: { ...voiceOf(block, sides), ...(name !== undefined && { self: name }) },
});

/** The line with which a block begins. */
export function headOf({ block, entry }: SaidEntry): Spot {
  const end = entry.body ? entry.body.span.start : entry.span.end;
  return { block, span: { start: entry.span.start, end: Math.max(entry.wordSpan.end, end) } };
}
