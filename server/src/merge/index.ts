/**
 * Three states of one file to one: what both changed since `base`, put together
 * by declarations, lines and rows. Nothing that either side typed is lost: it
 * stands in the result or in a conflict.
 */

import { splitBlocks } from '../../../grammar/src/blocks.ts';
import { countLineEnds } from '../../../grammar/src/characters.ts';
import { formatLine, formatText } from '../../../grammar/src/format.ts';
import { type Composed, compose } from './compose.ts';
import { itemsOf } from './items.ts';
import { blank, emptyAtEnd, type Known, linesOfNode, type Node, nodesOf } from './nodes.ts';
import type { Conflict, Merged } from './sequence.ts';
import { either, joined, linesOf } from './text.ts';

export interface MergeResult {
  readonly text: string;
  /** Places where a person has to choose; each stands between markers. */
  readonly conflicts: number;
  /** Blocks of evidence that stand beside another because two people measured the same. */
  readonly beside: number;
}

export function merge(base: string, ours: string, theirs: string): MergeResult {
  if (ours === theirs || theirs === base) return { text: ours, conflicts: 0, beside: 0 };
  if (ours === base) return { text: theirs, conflicts: 0, beside: 0 };
  const [b, o, t] = [linesOf(base), linesOf(ours), linesOf(theirs)];
  const shape = {
    mark: either(b.mark, o.mark, t.mark),
    lineEnd: base === '' ? o.lineEnd : either(b.lineEnd, o.lineEnd, t.lineEnd),
    ended: o.ended || t.ended,
  };
  const known: Known = new Map();
  const composed = compose(
    itemsOf(nodesOf(b.lines, known)),
    itemsOf(nodesOf(o.lines, known)),
    itemsOf(nodesOf(t.lines, known)),
  );
  const written = new Writer(composed);
  const end = either(emptyAtEnd(b.lines), emptyAtEnd(o.lines), emptyAtEnd(t.lines));
  const isCanonical = () => [ours, theirs].every((text) => formatText(text).text === text);
  const laid =
    written.made.length > 0 && isCanonical() ? laidOut(written.lines, written.made) : written.lines;
  const lines = [...laid, ...blank(end)];
  if (keepsAll(b.lines, o.lines, t.lines, lines)) {
    const text = joined({ ...shape, lines });
    return { text, conflicts: written.conflicts, beside: composed.beside };
  }
  const whole = [...markers.ours, ...o.lines, ...markers.between, ...t.lines, ...markers.theirs];
  return { text: joined({ ...shape, ended: true, lines: whole }), conflicts: 1, beside: 0 };
}

const markers = {
  ours: ['<<<<<<< ours'],
  between: ['======='],
  theirs: ['>>>>>>> theirs'],
} as const;

/** Lines of what was merged; conflicts that meet are one. */
class Writer {
  readonly lines: string[] = [];
  /** Lines of rows that were put together. */
  readonly made: number[] = [];
  conflicts = 0;
  #open: { ours: string[]; theirs: string[] } | undefined;

  constructor({ items }: Composed) {
    for (const { gap, merged } of items) {
      const [first, ...rest] = merged;
      if (!first) continue;
      this.#write({ ...first, gap } as Merged);
      for (const node of rest) this.#write(node);
      this.#end();
    }
  }

  #write(node: Merged): void {
    if (node.kind === 'conflict') {
      this.#conflict(node);
      return;
    }
    this.#end();
    this.lines.push(...blank(this.lines.length === 0 ? 0 : node.gap));
    if (node.kind !== 'merged') {
      this.#note(node, this.lines.length);
      this.lines.push(...linesOfNode(node));
      return;
    }
    this.lines.push(...node.head.lines);
    for (const each of node.body) this.#write(each);
    this.#end();
    this.lines.push(...blank(node.footGap), ...node.foot);
  }

  #note(node: Node, at: number): void {
    if (node.kind === 'leaf') {
      if (node.made) this.made.push(at);
      return;
    }
    let line = at + node.head.lines.length;
    for (const each of node.body) {
      line += each.gap;
      this.#note(each, line);
      line += linesOfNode(each).length;
    }
  }

  #conflict({ gap, ours, theirs }: Conflict): void {
    if (!this.#open || gap > 0) {
      this.#end();
      this.lines.push(...blank(this.lines.length === 0 ? 0 : gap));
      this.#open = { ours: [], theirs: [] };
    }
    this.#open.ours.push(...side(ours));
    this.#open.theirs.push(...side(theirs));
  }

  #end(): void {
    const open = this.#open;
    if (!open) return;
    this.#open = undefined;
    this.conflicts += 1;
    this.lines.push(...markers.ours, ...open.ours, ...markers.between);
    this.lines.push(...open.theirs, ...markers.theirs);
  }
}

/** Empty lines before the first stand before the marker. */
function side(nodes: readonly Node[]): string[] {
  return nodes.flatMap((node, at) => [...blank(at === 0 ? 0 : node.gap), ...linesOfNode(node)]);
}

/** Whether each word that a side typed more often than the base stands in the result as often more. */
function keepsAll(
  base: readonly string[],
  ours: readonly string[],
  theirs: readonly string[],
  result: readonly string[],
): boolean {
  const [b, o, t, r] = [base, ours, theirs, result].map(countWords) as [Count, Count, Count, Count];
  const kept = (side: Count) =>
    [...side].every(([word, count]) => (r.get(word) ?? 0) >= count - (b.get(word) ?? 0));
  return kept(o) && kept(t);
}

type Count = ReadonlyMap<string, number>;

function countWords(lines: readonly string[]): Count {
  const count = new Map<string, number>();
  for (const line of lines) {
    for (const word of line.split(/\s+/u)) {
      if (word !== '' && word !== '-') count.set(word, (count.get(word) ?? 0) + 1);
    }
  }
  return count;
}

/** Rows that were put together, laid out as the others are. */
function laidOut(lines: readonly string[], made: readonly number[]): string[] {
  const formatted = [...lines];
  let first = 0;
  for (const part of splitBlocks(lines.join('\n'))) {
    const count = countLineEnds(part);
    for (const at of made) {
      if (at < first || at > first + count) continue;
      formatted[at] = formatLine(part, at - first) ?? formatted[at]!;
    }
    first += count;
  }
  return formatted;
}
