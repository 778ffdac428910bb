/**
 * A text as a tree of lines: blocks, and in them entries, rows and comments,
 * each with the lines it is written in. What the braces of a declaration leave
 * in doubt is taken line by line, so that any text has such a tree.
 */

import { bindBlock } from '../../../grammar/src/binding.ts';
import { splitBlocks } from '../../../grammar/src/blocks.ts';
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { balance, type LineShape } from '../../../grammar/src/braces.ts';
import { parseBlock } from '../../../grammar/src/parser.ts';
import { Comma } from '../../../grammar/src/pieces.ts';
import { type Tokens, tokenize } from '../../../grammar/src/tokens.ts';
import {
  type Context,
  canonical,
  elementWords,
  findWord,
  W,
} from '../../../grammar/src/vocabulary/index.ts';

/** An entry with the lines it goes on in, a row, a comment, or a line that no rule explains. */
export interface Leaf {
  readonly kind: 'leaf';
  readonly role: 'entry' | 'columns' | 'row' | 'comment' | 'other';
  /** Empty lines before it. */
  readonly gap: number;
  readonly lines: readonly string[];
  /** What it says, whatever its layout. */
  readonly content: string;
  /** Canonical first word of an entry; empty for others. */
  readonly word: string;
  /** Two of one block may not both stand where they have the same; worked out when asked for. */
  readonly key: Key;
  readonly cells: readonly Cell[];
  /** Of the table that a row stands in, or of this `columns`. */
  readonly headings: readonly string[];
  /** Set where cells of several rows were put together. */
  readonly made?: true;
}

export interface Cell {
  readonly text: string;
  /** In the row's line. */
  readonly start: number;
  readonly end: number;
}

export interface Block {
  readonly kind: 'block';
  readonly gap: number;
  readonly head: Leaf;
  readonly body: readonly Node[];
  readonly foot: readonly string[];
  readonly footGap: number;
  readonly content: string;
  readonly word: string;
  readonly key: Key;
}

export type Node = Leaf | Block;

export type Key = string | undefined | (() => string | undefined);

export function keyOf({ key }: { readonly key: Key }): string | undefined {
  return typeof key === 'function' ? key() : key;
}

/** Elements of a path, and reels: their order means something. */
export const orderedWords: ReadonlySet<string> = new Set([...elementWords, W.reel]);

/** Blocks in which they are lines of a path. */
export const orderedIn: ReadonlySet<string> = new Set([
  W.link,
  W.links,
  W.channel,
  W.channels,
  W.ring,
  W.pattern,
  W.out,
  W.repair,
  W.cable,
]);

/** Blocks that were read before, by their text and the empty lines before them: most of three states are the same. */
export type Known = Map<string, { readonly nodes: readonly Node[]; readonly gap: number }>;

/** Nodes of lines without line ends. */
export function nodesOf(lines: readonly string[], known: Known): Node[] {
  const nodes: Node[] = [];
  let gap = 0;
  for (const part of splitBlocks(lines.join('\n'))) {
    const key = `${gap} ${part}`;
    const read = known.get(key) ?? readPart(part.replace(/\n$/u, ''), gap);
    known.set(key, read);
    nodes.push(...read.nodes);
    gap = read.gap;
  }
  return nodes;
}

/** Empty lines at the end of lines. */
export function emptyAtEnd(lines: readonly string[]): number {
  let count = 0;
  while (count < lines.length && lines[lines.length - 1 - count]!.trim() === '') count++;
  return count;
}

interface Open {
  readonly gap: number;
  head: Leaf;
  readonly body: Node[];
  readonly context: Context | undefined;
  headings: readonly string[];
}

function readPart(text: string, gapBefore: number): { nodes: Node[]; gap: number } {
  const tokens = tokenize(text);
  const { shapes, mistakes } = balance(tokens);
  const lines = text.split('\n');
  const isClear =
    mistakes.length === 0 &&
    tokens.skipped.length === 0 &&
    tokens.lines.every(({ kind }, at) => kind !== 'text' || shapes[at] !== undefined) &&
    shapes.every((shape) => shape?.role !== 'left');
  return isClear && tokens.lines.length === lines.length
    ? new PartReader(text, lines, tokens, shapes, gapBefore).read()
    : readDoubtful(lines, gapBefore);
}

/** Line by line, the first as the head of the rest, so that a declaration is found again by it. */
function readDoubtful(lines: readonly string[], gapBefore: number): { nodes: Node[]; gap: number } {
  let gap = gapBefore;
  const leaves: Leaf[] = [];
  for (const line of lines) {
    if (line.trim() === '') {
      gap++;
      continue;
    }
    leaves.push(leaf('other', gap, [line], line.trim().replaceAll(/\s+/gu, ' ')));
    gap = 0;
  }
  const [head, ...body] = leaves;
  if (!head) return { nodes: [], gap };
  const word = canonical(head.content.split(' ')[0] ?? '');
  const key = head.content.replace(/\s*\{.*$/u, '');
  const content = leaves.map((each) => each.content).join('\n');
  const block: Block = {
    kind: 'block',
    gap: head.gap,
    head,
    body,
    foot: [],
    footGap: 0,
    content,
    word,
    key,
  };
  return { nodes: [block], gap };
}

class PartReader {
  readonly #text: string;
  readonly #lines: readonly string[];
  readonly #tokens: Tokens;
  readonly #shapes: readonly (LineShape | undefined)[];
  readonly #top: Node[] = [];
  readonly #stack: Open[] = [];
  #gap: number;
  #bound: ReadonlyMap<number, BoundEntry> | undefined;

  constructor(
    text: string,
    lines: readonly string[],
    tokens: Tokens,
    shapes: readonly (LineShape | undefined)[],
    gap: number,
  ) {
    this.#text = text;
    this.#lines = lines;
    this.#tokens = tokens;
    this.#shapes = shapes;
    this.#gap = gap;
  }

  read(): { nodes: Node[]; gap: number } {
    for (let at = 0; at < this.#lines.length; at = this.#statement(at));
    while (this.#stack.length > 0) this.#close([], 0);
    return { nodes: this.#top, gap: this.#gap };
  }

  /** Reads one statement with the lines it goes on in; gives the next line. */
  #statement(at: number): number {
    const { kind } = this.#tokens.lines[at]!;
    if (kind === 'blank') {
      this.#gap++;
      return at + 1;
    }
    const line = this.#lines[at]!;
    if (kind === 'comment') {
      this.#add(leaf('comment', this.#take(), [line], line.trim()));
      return at + 1;
    }
    const shape = this.#shapes[at]!;
    if (shape.role === 'close') {
      this.#close([line], this.#take());
      return at + 1;
    }
    const last = this.#lastOf(at);
    const node = this.#leaf(at, last, shape);
    if (shape.opens || (last > at && this.#shapes[last]!.opens)) {
      const word = findWord(node.word, this.#context() ?? 'file');
      this.#stack.push({
        gap: node.gap,
        head: node,
        body: [],
        context: word?.block,
        headings: [],
      });
    } else {
      const open = this.#stack.at(-1);
      if (open && node.role === 'columns') open.headings = node.headings;
      this.#add(node);
    }
    return last + 1;
  }

  /** Last line of the statement that begins at a line; comments between go with it. */
  #lastOf(at: number): number {
    let last = at;
    for (let next = at + 1; next < this.#lines.length; next++) {
      const shape = this.#shapes[next];
      if (shape?.role === 'continued') last = next;
      else if (this.#tokens.lines[next]!.kind === 'text') break;
    }
    return last;
  }

  #leaf(at: number, last: number, shape: LineShape): Leaf {
    const { from } = this.#tokens.lines[at]!;
    const { to } = this.#tokens.lines[last]!;
    const lines = this.#lines.slice(at, last + 1);
    const slices = this.#tokens.pieces
      .slice(from, to)
      .map(({ startOffset, endOffset }) => this.#text.slice(startOffset, endOffset));
    const comments = this.#tokens.lines
      .slice(at, last + 1)
      .flatMap(({ comment }) =>
        comment ? [this.#text.slice(comment.start, comment.end).trim()] : [],
      );
    const content = [...slices, ...comments].join('\t');
    const gap = this.#take();
    if (shape.role === 'row') {
      const headings = this.#stack.at(-1)?.headings ?? [];
      const cells = this.#cells(at);
      return leaf('row', gap, lines, content, { headings, cells, key: rowKey(headings, cells) });
    }
    if (shape.role === 'columns') {
      return leaf('columns', gap, lines, content, { headings: this.#headings(from + 1, to) });
    }
    const word = canonical(slices[0] ?? '');
    return leaf('entry', gap, lines, content, {
      word,
      key: this.#key(word, this.#tokens.pieces[from]!.startOffset, slices),
    });
  }

  #cells(at: number): Cell[] {
    const { from, to, start } = this.#tokens.lines[at]!;
    return this.#tokens.pieces.slice(from, to).map(({ startOffset, endOffset }) => ({
      text: this.#text.slice(startOffset, endOffset),
      start: startOffset - start,
      end: endOffset - start,
    }));
  }

  #headings(from: number, to: number): string[] {
    const headings: string[][] = [[]];
    for (const { tokenType, startOffset, endOffset } of this.#tokens.pieces.slice(from, to)) {
      if (tokenType === Comma) headings.push([]);
      else headings.at(-1)!.push(canonical(this.#text.slice(startOffset, endOffset)));
    }
    return headings.map((words) => words.join(' '));
  }

  /** What only one entry of a block may have; undefined where any number may stand. */
  #key(word: string, offset: number, slices: readonly string[]): Key {
    const context = this.#context();
    // Declarations are told apart by what they declare, files by their path.
    if (this.#stack.length === 0) {
      return slices
        .filter((slice) => slice !== '{')
        .slice(0, 2)
        .join('\t');
    }
    const entry = context && findWord(word, context);
    if (!entry || entry.times === '*' || entry.times === '+') return undefined;
    if (entry.times !== 'k') return word;
    return () => {
      const slots = this.#boundAt(offset)?.slots ?? {};
      const values = (entry.key ?? []).map((slot) =>
        (slots[slot] ?? []).map(({ span }) => this.#text.slice(span.start, span.end)).join(','),
      );
      return [word, ...values].join('\t');
    };
  }

  #boundAt(offset: number): BoundEntry | undefined {
    if (!this.#bound) {
      const found = new Map<number, BoundEntry>();
      const walk = (entries: readonly BoundEntry[]): void => {
        for (const entry of entries) {
          found.set(entry.wordSpan.start, entry);
          walk(entry.body?.entries ?? []);
        }
      };
      walk(bindBlock(parseBlock(this.#text), this.#text).entries);
      this.#bound = found;
    }
    return this.#bound.get(offset);
  }

  #context(): Context | undefined {
    return this.#stack.at(-1)?.context;
  }

  #add(node: Node): void {
    (this.#stack.at(-1)?.body ?? this.#top).push(node);
  }

  #close(foot: readonly string[], footGap: number): void {
    const { gap, head, body } = this.#stack.pop()!;
    const content = [head, ...body].map((node) => node.content).join('\n');
    this.#add({
      kind: 'block',
      gap,
      head,
      body,
      foot,
      footGap,
      content,
      word: head.word,
      key: head.key,
    });
  }

  #take(): number {
    const gap = this.#gap;
    this.#gap = 0;
    return gap;
  }
}

function leaf(
  role: Leaf['role'],
  gap: number,
  lines: readonly string[],
  content: string,
  more: Partial<Pick<Leaf, 'word' | 'key' | 'cells' | 'headings'>> = {},
): Leaf {
  return {
    kind: 'leaf',
    role,
    gap,
    lines,
    content,
    word: '',
    key: undefined,
    cells: [],
    headings: [],
    ...more,
  };
}

/** Headings that say of what a row is. */
const naming: ReadonlySet<string> = new Set([W.link, W.channel, W.fibre, W.end, W.at]);

export const namesRow = (heading: string): boolean => naming.has(heading.split(' ')[0]!);

function rowKey(headings: readonly string[], cells: readonly Cell[]): string | undefined {
  const named = headings.flatMap((heading, at) =>
    namesRow(heading) ? [cells[at]?.text ?? ''] : [],
  );
  return named.length === 0 ? undefined : named.join('\t');
}

/** All lines of nodes, empty ones before each included. */
export function written(nodes: readonly Node[]): string[] {
  return nodes.flatMap((node) => [...blank(node.gap), ...linesOfNode(node)]);
}

/** Lines of a node, without the empty ones before it. */
export function linesOfNode(node: Node): string[] {
  if (node.kind === 'leaf') return [...node.lines];
  return [...node.head.lines, ...written(node.body), ...blank(node.footGap), ...node.foot];
}

export const blank = (count: number): string[] => new Array<string>(count).fill('');
