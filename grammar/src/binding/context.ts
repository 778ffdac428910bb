/** Where an offset stands in a block: the question behind completion and signatures. */
import type { Heading } from '../bound.ts';
import type { BlockTree, Body, Entry, Span } from '../tree.ts';
import {
  type Context,
  canonical,
  type Form,
  findWord,
  type Slot,
  tableOf,
  type WordEntry,
} from '../vocabulary/index.ts';
import { matchEntry, tokensOf } from './match.ts';
import { bindTable } from './table.ts';

export interface TextContext {
  /** The block that encloses the offset; undefined inside a block that has no meaning. */
  readonly context: Context | undefined;
  /** Words of the entries that enclose it, outermost first. */
  readonly enclosing: readonly string[];
  /** The word of the line, if the offset is behind it. Undefined: a word is wanted here. */
  readonly word?: WordEntry;
  /** The form of the word that what is written so far fits best. */
  readonly form?: Form;
  /** How many arguments stand before the offset: the place of a cell or an argument. */
  readonly slotIndex: number;
  /** Slots that may be written here; one alone where a keyword or a comma asks for it. */
  readonly expected: readonly Slot[];
  /** The offset lies in a row, or on the line of headings. */
  readonly inTable?: 'headings' | 'row';
  /** The column of a cell. */
  readonly heading?: Heading;
  /** What is typed already of the word or argument that the offset touches. */
  readonly touched?: Span;
}

/**
 * The context of an offset in a block's text. Works while a line is half typed:
 * what stands before the offset decides, what stands behind it does not.
 */
export function contextAt(tree: BlockTree, text: string, offset: number): TextContext {
  let context: Context | undefined = 'file';
  const enclosing: string[] = [];
  let entries: readonly Entry[] = tree.entries;
  for (;;) {
    const entry = entries.find((e) => e.body && isInside(e.body, offset));
    if (!entry?.body) break;
    enclosing.push(canonical(entry.word.text));
    const word: WordEntry | undefined = context && findWord(entry.word.text, context);
    context = word?.block;
    entries = entry.body.entries;
    const { table } = entry.body;
    if (table && offset > table.word.end)
      return tableContext(entry, text, offset, context, enclosing);
  }
  const line = entries.find((entry) => isOnLine(entry, text, offset));
  if (!line) return { context, enclosing, slotIndex: 0, expected: [] };
  if (offset <= line.word.span.end) {
    return { context, enclosing, slotIndex: 0, expected: [], touched: line.word.span };
  }
  return lineContext(line, text, offset, context, enclosing);
}

function isInside(body: Body, offset: number): boolean {
  const end = body.close ? body.close.start : Number.POSITIVE_INFINITY;
  return offset > body.open.start && offset <= end;
}

/** The entry's own line reaches to the end of the line, or to its brace. */
function isOnLine(entry: Entry, text: string, offset: number): boolean {
  const { start } = entry.word.span;
  if (offset < start) return false;
  const last = entry.body?.open.start ?? entry.lists.at(-1)?.span.end ?? entry.word.span.end;
  return offset <= last || !/[\r\n]/u.test(text.slice(last, offset));
}

function lineContext(
  entry: Entry,
  text: string,
  offset: number,
  context: Context | undefined,
  enclosing: readonly string[],
): TextContext {
  const word = context && findWord(entry.word.text, context);
  const before = cutBefore(entry, offset);
  const slotIndex = tokensOf(before).length;
  const touched = tokensOf(entry).find(
    ({ argument }) => argument.span.start < offset && offset <= argument.span.end,
  )?.argument.span;
  const place = { context, enclosing, slotIndex, ...(touched ? { touched } : {}) };
  if (!word) return { ...place, expected: [] };
  const match = matchEntry(before, word, { text, holes: true });
  return { ...place, word, form: match.form, expected: expectedAfter(match, before, text, offset) };
}

function expectedAfter(
  match: ReturnType<typeof matchEntry>,
  before: Entry,
  text: string,
  offset: number,
): readonly Slot[] {
  if (match.awaiting) return [match.awaiting];
  const last = tokensOf(before).at(-1)?.argument;
  const gap = last ? text.slice(last.span.end, offset) : '';
  if (last && gap.trimStart().startsWith(',')) {
    const list = match.form.slots.find((slot) =>
      match.slots[slot.name]?.some((value) => value.span.end >= last.span.start),
    );
    return list?.many ? [list] : [];
  }
  const pending = match.pending();
  const firstRequired = pending.find((slot) => slot.required && !slot.keyword);
  return firstRequired ? pending.slice(0, pending.indexOf(firstRequired) + 1) : pending;
}

/** The entry as far as it is written before the offset; an argument that touches it does not count. */
function cutBefore(entry: Entry, offset: number): Entry {
  const lists = entry.lists
    .map((list) => ({
      ...list,
      arguments: list.arguments.filter((argument) => argument.span.end < offset),
    }))
    .filter((list) => list.arguments.length > 0);
  return { span: entry.span, word: entry.word, lists };
}

function tableContext(
  owner: Entry,
  text: string,
  offset: number,
  context: Context | undefined,
  enclosing: readonly string[],
): TextContext {
  const table = owner.body?.table;
  const spec = context && tableOf(context);
  const none = { context, enclosing, slotIndex: 0, expected: [] };
  if (!table) return none;
  const headingEnd = table.headings.at(-1)?.span.end ?? table.word.end;
  const inHeadings = offset <= headingEnd || !/[\r\n]/u.test(text.slice(headingEnd, offset));
  if (inHeadings) {
    const touched = table.headings.find(
      ({ span }) => span.start < offset && offset <= span.end,
    )?.span;
    const slotIndex = table.headings.filter(({ span }) => span.end < offset).length;
    return { ...none, slotIndex, inTable: 'headings', ...(touched ? { touched } : {}) };
  }
  const row = table.rows.find(
    ({ span }) => offset >= span.start && !/[\r\n]/u.test(text.slice(span.start, offset)),
  );
  const cells = row?.cells ?? [];
  const slotIndex = cells.filter((cell) => cell.span.end < offset).length;
  const touched = cells.find((cell) => cell.span.start < offset && offset <= cell.span.end)?.span;
  if (!spec) return { ...none, slotIndex, inTable: 'row' };
  const bound = bindTable({ ...table, rows: [] }, spec, [], true, { text, holes: false });
  const heading = bound.table.headings[slotIndex];
  const column =
    heading?.kind === 'word' ? spec.columns.find((c) => c.word === heading.word) : undefined;
  const expected: Slot[] = column
    ? [{ name: column.word, kinds: column.kinds, label: column.word }]
    : [];
  return {
    context,
    enclosing,
    slotIndex,
    expected,
    inTable: 'row',
    ...(heading ? { heading } : {}),
    ...(touched ? { touched } : {}),
  };
}
