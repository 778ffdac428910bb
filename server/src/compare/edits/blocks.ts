/**
 * Which blocks of two states are the same text, wherever they stand: what is
 * left of both sides is all that has to be read. Costs a look at each block,
 * and nothing more for those that stayed.
 */
import type { HeldBlock } from './side.ts';

export interface BlockPair {
  readonly before: HeldBlock;
  readonly after: HeldBlock;
}

export interface Unlike {
  readonly before: readonly HeldBlock[];
  readonly after: readonly HeldBlock[];
  /** Blocks whose text stands in another file now. */
  readonly moved: readonly BlockPair[];
  /** Blocks that differ in their line ends alone, and in blanks before them: they need not be read. */
  readonly relaid: readonly BlockPair[];
  /** Blocks that stand in another order within their file. */
  readonly reordered: readonly HeldBlock[];
}

export function unlikeBlocks(before: readonly HeldBlock[], after: readonly HeldBlock[]): Unlike {
  let start = 0;
  while (start < before.length && start < after.length && alike(before[start]!, after[start]!)) {
    start++;
  }
  let end = 0;
  while (
    end < before.length - start &&
    end < after.length - start &&
    alike(before.at(-1 - end)!, after.at(-1 - end)!)
  ) {
    end++;
  }
  const old = before.slice(start, before.length - end);
  const now = after.slice(start, after.length - end);

  // Of equal texts those of the same file belong together, then those of any other.
  const pairs: BlockPair[] = [];
  const paired = new Set<HeldBlock>();
  const pair = (texts: ReadonlyMap<string, HeldBlock[]>, of: typeof exact, here: boolean) => {
    const found: BlockPair[] = [];
    for (const block of old) {
      if (paired.has(block)) continue;
      const same = texts.get(of(block));
      const index = same?.findIndex(({ path }) => !here || path === block.path) ?? -1;
      if (!same || index < 0) continue;
      const [mate] = same.splice(index, 1);
      paired.add(block).add(mate!);
      found.push({ before: block, after: mate! });
    }
    return found;
  };
  const byText = textsOf(now, exact);
  for (const here of [true, false]) pairs.push(...pair(byText, exact, here));
  const left = now.filter((block) => !paired.has(block));
  const relaid = pair(textsOf(left, withoutEnds), withoutEnds, true);
  const stayed = [...pairs, ...relaid].filter((each) => each.before.path === each.after.path);
  return {
    before: old.filter((block) => !paired.has(block)),
    after: now.filter((block) => !paired.has(block)),
    moved: pairs.filter((each) => each.before.path !== each.after.path),
    relaid,
    reordered: outOfOrder(stayed),
  };
}

const exact = ({ view }: HeldBlock): string => view.text;
const withoutEnds = ({ view }: HeldBlock): string =>
  view.text.replace(/[ \t]*\r?\n/gu, '\n').trimEnd();

function textsOf(blocks: readonly HeldBlock[], of: typeof exact): ReadonlyMap<string, HeldBlock[]> {
  const texts = new Map<string, HeldBlock[]>();
  for (const block of blocks) {
    const same = texts.get(of(block));
    if (same) same.push(block);
    else texts.set(of(block), [block]);
  }
  return texts;
}

const alike = (a: HeldBlock, b: HeldBlock): boolean =>
  a.path === b.path && a.view.text === b.view.text;

/** Those that no longer stand behind all that they stood behind, by a run of the others. */
function outOfOrder(pairs: readonly BlockPair[]): readonly HeldBlock[] {
  const ordered = [...pairs].sort((a, b) => a.before.order - b.before.order);
  const found: HeldBlock[] = [];
  let last = -1;
  for (const { after } of ordered) {
    if (after.order < last) found.push(after);
    else last = after.order;
  }
  return found;
}
