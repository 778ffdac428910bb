/**
 * The text of one document, held by block, so that a key costs what it changes
 * and not the length of the file. Blocks follow from margins alone (see
 * `blocks.ts`), so an edit is a new look at the lines it touches.
 *
 * Blocks stand in chunks with running sums of lines and characters: places are
 * found by bisection of the sums and a walk inside one short chunk.
 */
import { margins, splitBlocks } from './blocks.ts';
import { copied, countLineEnds, nextLine } from './characters.ts';

/** One stretch of text from a margin to the next. Its identity outlives edits elsewhere. */
export interface SourceBlock {
  /** Unique among all blocks of all documents, and increasing. */
  readonly id: number;
  readonly text: string;
  /** Number of line ends in the text: the next block starts so many lines further down. */
  readonly lines: number;
}

/** Zero-based; `character` counts UTF-16 code units. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** What an edit did: at `index`, `removed` gave way to `added`. */
export interface SourceChange {
  readonly index: number;
  readonly removed: readonly SourceBlock[];
  readonly added: readonly SourceBlock[];
}

/** A block with its place. */
export interface PlacedBlock {
  readonly index: number;
  readonly block: SourceBlock;
  readonly firstLine: number;
}

interface Chunk {
  blocks: SourceBlock[];
  characters: number;
  lines: number;
}

/** Blocks in one chunk; a fuller one is parted in two halves. */
const chunkSize = 128;

let lastId = 0;

export class Source {
  #chunks: Chunk[] = [];
  /** Sums over all chunks before each: blocks, lines, characters. One more entry than chunks. */
  #blocksBefore: number[] = [0];
  #linesBefore: number[] = [0];
  #charactersBefore: number[] = [0];
  readonly #home = new Map<SourceBlock, Chunk>();

  private constructor() {}

  static of(text: string): Source {
    const source = new Source();
    const blocks = splitBlocks(text).map((part) => newBlock(part));
    source.#chunks = source.#toChunks(blocks);
    source.#sumFrom(0);
    return source;
  }

  /** Length in UTF-16 code units. */
  get length(): number {
    return this.#charactersBefore.at(-1)!;
  }

  /** Number of lines; an empty text has one. */
  get lineCount(): number {
    return this.#linesBefore.at(-1)! + 1;
  }

  get blockCount(): number {
    return this.#blocksBefore.at(-1)!;
  }

  /** The whole text. Costs its length. */
  text(): string {
    return this.#chunks.map(({ blocks }) => blocks.map(({ text }) => text).join('')).join('');
  }

  /** One line without its line end; empty beyond the last. */
  line(line: number): string {
    if (line < 0 || line >= this.lineCount) return '';
    const { block, firstLine } = this.#atLine(line);
    const start = lineStart(block.text, line - firstLine);
    return block.text.slice(start, lineEnd(block.text, start));
  }

  /** The block of an index from 0 to `blockCount` - 1. */
  block(index: number): SourceBlock {
    const chunk = bisect(this.#blocksBefore, index);
    const block = this.#chunks[chunk]?.blocks[index - this.#blocksBefore[chunk]!];
    if (!block) throw new RangeError(`no block ${index}`);
    return block;
  }

  /** Line of the document on which a block begins. */
  firstLine(index: number): number {
    const chunk = bisect(this.#blocksBefore, index);
    const within = index - this.#blocksBefore[chunk]!;
    return this.#linesBefore[chunk]! + sumLines(this.#chunks[chunk]!.blocks, within);
  }

  /** The block that holds a line; a line beyond the end is in the last block. */
  blockAtLine(line: number): PlacedBlock {
    return this.#atLine(Math.min(Math.max(line, 0), this.lineCount - 1));
  }

  /** Index of a block of this text, or -1 if it is gone. */
  indexOf(block: SourceBlock): number {
    const home = this.#home.get(block);
    if (!home) return -1;
    // Chunks are few, and their order is known by their sums only from outside.
    const chunk = this.#chunks.indexOf(home);
    return this.#blocksBefore[chunk]! + home.blocks.indexOf(block);
  }

  /** All blocks in order, with their places. */
  *blocks(): Generator<PlacedBlock> {
    let index = 0;
    let firstLine = 0;
    for (const chunk of this.#chunks) {
      for (const block of chunk.blocks) {
        yield { index, block, firstLine };
        index++;
        firstLine += block.lines;
      }
    }
  }

  /** Offset in the document of a position, clamped to the text as editors do. */
  offsetAt(position: Position): number {
    const { index, offset } = this.#locate(position);
    const chunk = bisect(this.#blocksBefore, index);
    const blocks = this.#chunks[chunk]!.blocks;
    let before = this.#charactersBefore[chunk]!;
    for (let at = 0; at < index - this.#blocksBefore[chunk]!; at++)
      before += blocks[at]!.text.length;
    return before + offset;
  }

  /** Position of an offset in the document, clamped to the text. */
  positionAt(offset: number): Position {
    const clamped = Math.min(Math.max(offset, 0), this.length);
    const chunk = bisect(this.#charactersBefore, clamped);
    let line = this.#linesBefore[chunk]!;
    let rest = clamped - this.#charactersBefore[chunk]!;
    for (const block of this.#chunks[chunk]!.blocks) {
      if (rest < block.text.length) return positionIn(block.text, rest, line);
      rest -= block.text.length;
      line += block.lines;
    }
    return this.#lastPosition();
  }

  /**
   * Replaces a range, clamped to the text. Blocks that come out as they were
   * keep their identity; the others are given as removed and added.
   */
  edit(range: Range, newText: string): SourceChange {
    const from = this.#locate(range.start);
    const to = this.#locate(range.end);
    const [start, end] = isBefore(to, from) ? [to, from] : [from, to];
    let first = start.index;
    let last = end.index;
    let text =
      this.block(first).text.slice(0, start.offset) +
      newText +
      this.block(last).text.slice(end.offset);
    let parts = splitBlocks(text);
    // What no longer begins with a margin goes on where the block before left off.
    if (first > 0 && text !== '' && margins(text)[0] !== 0) {
      first--;
      text = this.block(first).text + text;
      parts = splitBlocks(text);
    }
    // A last line that is not ended goes on in the block behind.
    if (last + 1 < this.blockCount && !endsLine(text)) {
      last++;
      text += this.block(last).text;
      parts = splitBlocks(text);
    }
    if (text === '' && this.blockCount > last - first + 1) parts = [];
    return this.#replace(first, last, parts);
  }

  #replace(from: number, to: number, parts: readonly string[]): SourceChange {
    const old: SourceBlock[] = [];
    for (let index = from; index <= to; index++) old.push(this.block(index));
    let head = 0;
    while (head < old.length && head < parts.length && old[head]!.text === parts[head]) head++;
    let tail = 0;
    while (
      tail < old.length - head &&
      tail < parts.length - head &&
      old[old.length - 1 - tail]!.text === parts[parts.length - 1 - tail]
    ) {
      tail++;
    }
    const removed = old.slice(head, old.length - tail);
    const added = parts.slice(head, parts.length - tail).map((part) => newBlock(part));
    this.#splice(from + head, removed, added);
    return { index: from + head, removed, added };
  }

  #splice(index: number, removed: readonly SourceBlock[], added: readonly SourceBlock[]): void {
    if (removed.length === 0 && added.length === 0) return;
    const first = Math.min(bisect(this.#blocksBefore, index), Math.max(0, this.#chunks.length - 1));
    let last = first;
    const end = index + removed.length;
    while (this.#blocksBefore[last + 1]! < end) last++;
    const blocks = this.#chunks.slice(first, last + 1).flatMap((chunk) => chunk.blocks);
    for (const block of removed) this.#home.delete(block);
    blocks.splice(index - this.#blocksBefore[first]!, removed.length, ...added);
    this.#chunks.splice(first, last + 1 - first, ...this.#toChunks(blocks));
    this.#sumFrom(first);
  }

  #toChunks(blocks: readonly SourceBlock[]): Chunk[] {
    const chunks: Chunk[] = [];
    const size = blocks.length <= chunkSize ? chunkSize : chunkSize / 2;
    for (let at = 0; at < blocks.length; at += size) {
      const part = blocks.slice(at, at + size);
      const chunk: Chunk = { blocks: part, characters: 0, lines: 0 };
      for (const block of part) {
        chunk.characters += block.text.length;
        chunk.lines += block.lines;
        this.#home.set(block, chunk);
      }
      chunks.push(chunk);
    }
    return chunks;
  }

  #sumFrom(chunk: number): void {
    const count = this.#chunks.length;
    for (const sums of [this.#blocksBefore, this.#linesBefore, this.#charactersBefore]) {
      sums.length = count + 1;
    }
    for (let at = chunk; at < count; at++) {
      const { blocks, lines, characters } = this.#chunks[at]!;
      this.#blocksBefore[at + 1] = this.#blocksBefore[at]! + blocks.length;
      this.#linesBefore[at + 1] = this.#linesBefore[at]! + lines;
      this.#charactersBefore[at + 1] = this.#charactersBefore[at]! + characters;
    }
  }

  #atLine(line: number): PlacedBlock {
    const chunk = bisect(this.#linesBefore, line);
    const blocks = this.#chunks[chunk]!.blocks;
    let firstLine = this.#linesBefore[chunk]!;
    for (const [within, block] of blocks.entries()) {
      if (line < firstLine + block.lines) {
        return { index: this.#blocksBefore[chunk]! + within, block, firstLine };
      }
      firstLine += block.lines;
    }
    // Only the last line of the text is beyond all line ends.
    const block = blocks.at(-1)!;
    return { index: this.blockCount - 1, block, firstLine: firstLine - block.lines };
  }

  #locate(position: Position): { index: number; offset: number } {
    if (position.line >= this.lineCount) {
      const index = this.blockCount - 1;
      return { index, offset: this.block(index).text.length };
    }
    const { index, block, firstLine } = this.blockAtLine(position.line);
    const start = lineStart(block.text, Math.max(position.line, 0) - firstLine);
    const character = position.line < 0 ? 0 : Math.max(position.character, 0);
    return { index, offset: Math.min(start + character, lineEnd(block.text, start)) };
  }

  #lastPosition(): Position {
    const line = this.lineCount - 1;
    return { line, character: this.line(line).length };
  }
}

function newBlock(text: string): SourceBlock {
  lastId++;
  return { id: lastId, text: copied(text), lines: countLineEnds(text) };
}

/** Greatest place whose sum is at most `value`, among all but the last sum. */
function bisect(sums: readonly number[], value: number): number {
  let low = 0;
  let high = Math.max(0, sums.length - 2);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (sums[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

function sumLines(blocks: readonly SourceBlock[], count: number): number {
  let sum = 0;
  for (let at = 0; at < count; at++) sum += blocks[at]!.lines;
  return sum;
}

/** Offset at which line `line` of a text starts. */
function lineStart(text: string, line: number): number {
  let start = 0;
  for (let count = 0; count < line; count++) start = nextLine(text, start);
  return start;
}

/** Offset of the line end at or behind `start`, or of the end of the text. */
function lineEnd(text: string, start: number): number {
  for (let at = start; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13) return at;
  }
  return text.length;
}

function positionIn(text: string, offset: number, firstLine: number): Position {
  let line = firstLine;
  let start = 0;
  for (let next = nextLine(text, 0); next >= 0 && next <= offset; next = nextLine(text, next)) {
    line++;
    start = next;
  }
  return { line, character: offset - start };
}

function isBefore(
  a: { readonly index: number; readonly offset: number },
  b: { readonly index: number; readonly offset: number },
): boolean {
  return a.index < b.index || (a.index === b.index && a.offset < b.offset);
}

function endsLine(text: string): boolean {
  const code = text.charCodeAt(text.length - 1);
  return code === 10 || code === 13;
}
