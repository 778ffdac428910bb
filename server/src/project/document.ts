/**
 * One document, held by block: its text, its version, and what each block
 * declares. A key re-reads the block it is typed in, and that block keeps its
 * identity, so that whatever points into it goes on doing so.
 */
import { markersIn, type Side, sideAfter } from '../../../grammar/src/conflict.ts';
import { Source, type SourceBlock } from '../../../grammar/src/source.ts';
import type { Span } from '../../../grammar/src/tree.ts';
import type { Finding } from '../checks/finding.ts';
import type { BlockDeclarations, Origin } from '../model/api.ts';
import type { BlockId, Place } from '../model/types.ts';
import { LiveBlock } from './block.ts';
import type { FileProblem } from './decode.ts';
import type { GraphFile } from './graph.ts';
import { endOfLine, positionIn, startOfLine } from './lines.ts';
import type { BlockView, DocumentView, Position, Range } from './types.ts';

/** A change as an editor tells it; without a range the text is another. */
export interface TextChange {
  readonly range?: Range;
  readonly text: string;
}

/** What one block declared before, and declares now. Undefined: there was none, or there is none any more. */
export interface BlockChange {
  readonly id: BlockId;
  readonly before: BlockDeclarations | undefined;
  readonly now: BlockDeclarations | undefined;
}

let lastId = 0;

export class LiveDocument implements DocumentView {
  readonly uri: string;
  version: number | null;
  problem: FileProblem | undefined;
  readonly origin: Origin;
  #source: Source;
  readonly #blocks = new Map<BlockId, LiveBlock>();
  readonly #ofSource = new Map<SourceBlock, LiveBlock>();
  /** Blocks in which markers of a merge conflict stand. */
  readonly #marked = new Set<LiveBlock>();
  #graphFile: GraphFile | undefined;
  #ordered: readonly LiveBlock[] | undefined;
  /** Some block may lie in a merge conflict. */
  #parted = false;
  #edition = 0;
  #misread: { readonly edition: number; readonly found: boolean } | undefined;
  /** Counts edits that moved blocks, so that a line found before one is not believed after it. */
  #layout = 0;

  constructor(
    uri: string,
    text: string,
    version: number | null,
    origin: Origin,
    problem?: FileProblem,
  ) {
    this.uri = uri;
    this.version = version;
    this.problem = problem;
    this.origin = origin;
    this.#source = Source.of(text);
    for (const { block } of this.#source.blocks()) this.#mark(this.#adopt(block));
    this.#part();
    // Of the library, a plan uses little: a block of it is read when one of its names is asked for.
    if (origin === 'plan') for (const block of this.#blocks.values()) block.declare();
  }

  // Reading

  get lineCount(): number {
    return this.#source.lineCount;
  }

  get edition(): number {
    return this.#edition;
  }

  /** In UTF-16 units. */
  get length(): number {
    return this.#source.length;
  }

  text(): string {
    return this.#source.text();
  }

  line(number: number): string {
    return this.#source.line(number);
  }

  blocks(from = 0, to = Number.POSITIVE_INFINITY): readonly LiveBlock[] {
    if (from <= 0 && to >= this.lineCount) return this.#inOrder();
    const source = this.#source;
    const found: LiveBlock[] = [];
    let { index, firstLine } = source.blockAtLine(from);
    for (; index < source.blockCount && firstLine <= to; index++) {
      const block = source.block(index);
      found.push(this.#ofSource.get(block)!);
      firstLine += block.lines;
    }
    return found;
  }

  /** All blocks with their first lines, counted once between two edits that move any. */
  #inOrder(): readonly LiveBlock[] {
    if (this.#ordered) return this.#ordered;
    const ordered: LiveBlock[] = [];
    for (const { block, firstLine } of this.#source.blocks()) {
      const live = this.#ofSource.get(block)!;
      live.layout = this.#layout;
      live.firstLine = firstLine;
      ordered.push(live);
    }
    this.#ordered = ordered;
    return ordered;
  }

  block(id: BlockId): LiveBlock | undefined {
    return this.#blocks.get(id);
  }

  blockAt(position: Position): LiveBlock | undefined {
    return this.#ofSource.get(this.#source.blockAtLine(position.line).block);
  }

  /** Where a block stands among the others. */
  indexOf(id: BlockId): number {
    const block = this.#blocks.get(id);
    return block ? this.#source.indexOf(block.source) : -1;
  }

  offsetIn(block: BlockView, position: Position): number {
    const lines = position.line - block.line;
    if (lines < 0) return 0;
    const start = startOfLine(block.text, lines);
    return Math.min(start + position.character, endOfLine(block.text, start));
  }

  rangeOf(block: BlockView, span: Span): Range {
    const { text, line } = block;
    const start = positionIn(text, span.start, line, 0, 0);
    const lineStart = span.start - start.character;
    return { start, end: positionIn(text, span.end, start.line, start.line - line, lineStart) };
  }

  /** A place in the document as one in a block. */
  placeAt(offset: number, length: number): Place {
    const position = this.#source.positionAt(offset);
    const block = this.blockAt(position)!;
    const start = this.offsetIn(block, position);
    return {
      block: block.id,
      span: { start, end: Math.min(start + length, block.text.length) },
    };
  }

  declared(): readonly BlockDeclarations[] {
    return this.blocks().map((block) => block.declared);
  }

  declaredIn(id: BlockId): BlockDeclarations | undefined {
    return this.#blocks.get(id)?.declared;
  }

  /** What the notation alone says of a block. */
  notation(id: BlockId): readonly Finding[] {
    return this.#blocks.get(id)?.notation ?? [];
  }

  /** Some line could not be read as a word of the notation: what a plan lacks by it is not known. */
  get misread(): boolean {
    if (this.#misread?.edition !== this.#edition) {
      const found = this.blocks().some(({ notation }) =>
        notation.some(({ severity }) => severity === 'error'),
      );
      this.#misread = { edition: this.#edition, found };
    }
    return this.#misread.found;
  }

  graphFile(): GraphFile {
    this.#graphFile ??= {
      uri: this.uri,
      hasPlan: this.declared().some(({ plan }) => plan !== undefined),
      includes: this.declared().flatMap(({ includes }) => includes),
    };
    return this.#graphFile;
  }

  // Changing

  /** Applies an editor's changes in their order. */
  change(changes: readonly TextChange[]): readonly BlockChange[] {
    const edit = new Map<LiveBlock, BlockDeclarations | undefined>();
    for (const { range, text } of changes) {
      if (range) this.#edit(range, text, edit);
      else this.#replaceText(text, edit);
    }
    return this.#declare(edit);
  }

  /** Another text, of which the same beginning and end stay as they are. */
  replaceText(text: string): readonly BlockChange[] {
    const edit = new Map<LiveBlock, BlockDeclarations | undefined>();
    this.#replaceText(text, edit);
    return this.#declare(edit);
  }

  #replaceText(text: string, edit: Map<LiveBlock, BlockDeclarations | undefined>): void {
    const before = this.text();
    if (before === text) return;
    const shorter = Math.min(before.length, text.length);
    let head = 0;
    while (head < shorter && before.charCodeAt(head) === text.charCodeAt(head)) head += 1;
    // A line end of two characters is never cut in two: a position between them is none.
    if (head > 0 && before.charCodeAt(head - 1) === 13) head -= 1;
    let tail = 0;
    const most = shorter - head;
    while (
      tail < most &&
      before.charCodeAt(before.length - 1 - tail) === text.charCodeAt(text.length - 1 - tail)
    ) {
      tail += 1;
    }
    if (tail > 0 && before.charCodeAt(before.length - tail) === 10) tail -= 1;
    const range = {
      start: this.#source.positionAt(head),
      end: this.#source.positionAt(before.length - tail),
    };
    this.#edit(range, text.slice(head, text.length - tail), edit);
  }

  /** `edit` collects the touched blocks with what they declared before the first change. */
  #edit(range: Range, text: string, edit: Map<LiveBlock, BlockDeclarations | undefined>): void {
    const { removed, added } = this.#source.edit(range, text);
    this.#edition += 1;
    if (!sameLines(removed, added)) {
      this.#layout += 1;
      this.#ordered = undefined;
    }
    for (const [index, source] of removed.entries()) {
      const block = this.#ofSource.get(source)!;
      if (!edit.has(block)) edit.set(block, block.isDeclared ? block.declared : undefined);
      this.#ofSource.delete(source);
      const heir = added[index];
      if (heir) {
        block.source = heir;
        block.edition = this.#edition;
        this.#ofSource.set(heir, block);
      } else {
        this.#blocks.delete(block.id);
      }
    }
    for (const source of added.slice(removed.length)) {
      edit.set(this.#adopt(source), undefined);
    }
  }

  #declare(edit: Map<LiveBlock, BlockDeclarations | undefined>): readonly BlockChange[] {
    if (edit.size > 0) this.#graphFile = undefined;
    for (const block of edit.keys()) this.#mark(block);
    for (const block of this.#part()) {
      block.edition = this.#edition;
      if (!edit.has(block)) edit.set(block, block.isDeclared ? block.declared : undefined);
    }
    const gone: BlockChange[] = [];
    const others: BlockChange[] = [];
    for (const [block, before] of edit) {
      const { id } = block;
      if (this.#blocks.has(id)) {
        others.push({ id, before, now: block.declare() });
      } else if (before) {
        gone.push({ id, before, now: undefined });
      }
    }
    return [...gone, ...others];
  }

  #mark(block: LiveBlock): void {
    if (this.#blocks.has(block.id) && markersIn(block.text).length > 0) this.#marked.add(block);
    else this.#marked.delete(block);
  }

  /** Says of each block on which side of a merge conflict it begins; those that it was said otherwise of. */
  #part(): readonly LiveBlock[] {
    const others: LiveBlock[] = [];
    if (this.#marked.size === 0 && !this.#parted) return others;
    const inOrder = this.#inOrder();
    // A side that nothing closes ends with its block: what follows may be anything.
    const closed = inOrder.findLastIndex(
      (block) => this.#marked.has(block) && markersIn(block.text).includes('>'),
    );
    let side: Side = 'none';
    for (const [index, block] of inOrder.entries()) {
      if (side === 'other' && index > closed) side = 'none';
      if (block.side !== side) others.push(block);
      block.side = side;
      if (this.#marked.has(block)) side = sideAfter(markersIn(block.text).at(-1)!);
    }
    this.#parted = this.#marked.size > 0;
    return others;
  }

  #adopt(source: SourceBlock): LiveBlock {
    lastId += 1;
    const block = new LiveBlock(lastId, source, this);
    block.edition = this.#edition;
    this.#blocks.set(block.id, block);
    this.#ofSource.set(source, block);
    return block;
  }

  /** First line of a block of this document. */
  lineOf(block: LiveBlock): number {
    if (block.layout !== this.#layout) {
      block.firstLine = this.#source.firstLine(this.#source.indexOf(block.source));
      block.layout = this.#layout;
    }
    return block.firstLine;
  }
}

/** Blocks that gave way to as many others of as many lines: no block stands elsewhere now. */
function sameLines(removed: readonly SourceBlock[], added: readonly SourceBlock[]): boolean {
  return (
    removed.length === added.length &&
    removed.every(({ lines }, index) => lines === added[index]!.lines)
  );
}
