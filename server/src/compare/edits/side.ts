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
