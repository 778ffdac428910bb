/**
 * What an answer about a whole file is made of, kept from one question to the
 * next. An editor asks for all of it after each key, and of a thousand blocks
 * one has changed: the others give the very objects they gave before, so that
 * they need not be made, nor written, again.
 */
import type { BlockView, DocumentView } from '../project/types.ts';

interface OfBlock<Item> {
  readonly line: number;
  readonly items: readonly Item[];
}

/**
 * Items that follow from a block's text and its first line alone. `make` gives
 * them in the block's own lines, `move` puts them further down.
 */
export function keptByBlock<Item>(
  make: (document: DocumentView, block: BlockView) => readonly Item[],
  move: (item: Item, lines: number) => Item,
): (document: DocumentView, block: BlockView) => readonly Item[] {
  const made = new WeakMap<object, readonly Item[]>();
  const moved = new WeakMap<object, OfBlock<Item>>();
  return (document, block) => {
    const { tree } = block.bound();
    const { line } = block;
    const there = moved.get(tree);
    if (there?.line === line) return there.items;
    const own = made.get(tree) ?? make(document, block);
    made.set(tree, own);
    const items = own.map((item) => move(item, line));
    moved.set(tree, { line, items });
    return items;
  };
}

/** An answer that follows from a document's text alone: the same one as long as that does not change. */
export function keptByEdition<Answer>(
  make: (document: DocumentView) => Answer,
): (document: DocumentView) => Answer {
  const kept = new WeakMap<DocumentView, { readonly edition: number; readonly answer: Answer }>();
  return (document) => {
    const there = kept.get(document);
    if (there?.edition === document.edition) return there.answer;
    const answer = make(document);
    kept.set(document, { edition: document.edition, answer });
    return answer;
  };
}
