/**
 * Which blocks of two states are the same text, wherever they stand: what is
 * left of both sides is all that has to be read. Costs a look at each block,
 * and nothing more for those that stayed.
 */
import type { HeldBlock } from './side.ts';

export interface Unlike {
  readonly before: readonly HeldBlock[];
  readonly after: readonly HeldBlock[];
  /** Blocks whose text stands in another file now. */
  readonly moved: readonly { readonly before: HeldBlock; readonly after: HeldBlock }[];
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
  const byText = new Map<string, HeldBlock[]>();
  for (const block of now) {
    const { text } = block.view;
    const same = byText.get(text);
    if (same) same.push(block);
    else byText.set(text, [block]);
  }
  const pairs: { before: HeldBlock; after: HeldBlock }[] = [];
  const paired = new Set<HeldBlock>();
  for (const here of [true, false]) {
    for (const block of old) {
      if (paired.has(block)) continue;
      const same = byText.get(block.view.text);
      const index = same?.findIndex(({ path }) => !here || path === block.path) ?? -1;
      if (!same || index < 0) continue;
      const [mate] = same.splice(index, 1);
      paired.add(block).add(mate!);
      pairs.push({ before: block, after: mate! });
    }
  }
  const stayed = pairs.filter((pair) => pair.before.path === pair.after.path);
  return {
    before: old.filter((block) => !paired.has(block)),
    after: now.filter((block) => !paired.has(block)),
    moved: pairs.filter((pair) => pair.before.path !== pair.after.path),
    reordered: outOfOrder(stayed),
  };
}

const alike = (a: HeldBlock, b: HeldBlock): boolean =>
  a.path === b.path && a.view.text === b.view.text;

/** Those that no longer stand behind all that they stood behind, by a run of the others. */
function outOfOrder(
  pairs: readonly { readonly before: HeldBlock; readonly after: HeldBlock }[],
): readonly HeldBlock[] {
  const ordered = [...pairs].sort((a, b) => a.before.order - b.before.order);
  const found: HeldBlock[] = [];
  let last = -1;
  for (const { after } of ordered) {
    if (after.order < last) found.push(after);
    else last = after.order;
  }
  return found;
}
