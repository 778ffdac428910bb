/** Cells of readings where `-` stands: what was laid out and not typed yet. */
import { bindBlock } from '../../../../grammar/src/binding.ts';
import type { BoundEntry, BoundRow, Heading } from '../../../../grammar/src/bound.ts';
import { parseBlock } from '../../../../grammar/src/parser.ts';
import { picometres } from '../../../../grammar/src/quantity/index.ts';
import type { Span } from '../../../../grammar/src/tree.ts';
import { C, K, W } from '../../../../grammar/src/vocabulary/index.ts';
import type { LinkResult } from '../../evaluate/result.ts';
import { nameOf, nameOfValue } from '../../model/values.ts';
import type { BlockView, DocumentView, Plan, Project } from '../../project/types.ts';
import type { ColumnOf } from './typed.ts';
import type { WantedKey } from './wanted.ts';

export interface Blank {
  /** What the cells of its column hold. */
  readonly column: ColumnOf;
  readonly document: DocumentView;
  readonly block: BlockView;
  readonly cell: Span;
  readonly row: Span;
  /** The `-` of the row's `time`, if it has one. */
  readonly time?: Span;
}

/**
 * Where the reading of a key is to be typed: of several places the last in the text. With
 * `instead`, the cell in which that stands, if it does.
 */
export function blankFor(
  project: Project,
  plan: Plan,
  { link }: LinkResult,
  key: WantedKey,
  instead?: string,
): Blank | undefined {
  for (const { document, block, entry } of readingsOf(project, plan, link.name).toReversed()) {
    const { headings, rows } = entry.body!.table!;
    const column = headings.findIndex((heading) => isOf(heading, key));
    if (column < 0) continue;
    const row = rows.findLast((each) => {
      const cell = each.cells[column];
      const fits =
        instead === undefined
          ? cell?.kind === 'absent'
          : cell && block.text.slice(cell.span.start, cell.span.end) === instead;
      return fits && isAbout(each, headings, entry, link, key.fibre);
    });
    if (!row) continue;
    const time = row.cells[headings.findIndex((each) => isWord(each, W.time))];
    return {
      column: columnOf(entry, headings[column]!),
      document,
      block,
      cell: row.cells[column]!.span,
      row: row.span,
      ...(time?.kind === 'absent' && { time: time.span }),
    };
  }
  return undefined;
}

/** Where a key's cell stands in the text of a block, on the line of a row or in the row of its fibre. */
export function cellIn(
  text: string,
  { link }: LinkResult,
  key: WantedKey,
  line?: number,
): Span | undefined {
  for (const { word, body, ...entry } of bindBlock(parseBlock(text), text).entries) {
    if (word !== W.readings || !body?.table) continue;
    const { headings, rows } = body.table;
    const row = rows.findLast((each) =>
      line === undefined
        ? isAbout(each, headings, { word, body, ...entry }, link, key.fibre)
        : text.slice(0, each.span.start).split('\n').length - 1 === line,
    );
    const cell = row?.cells[headings.findIndex((heading) => isOf(heading, key))];
    if (cell) return cell.span;
  }
  return undefined;
}

/** Every cell of a block that is still to be typed, of one object. */
export function blanksIn(
  { entry }: Tabled,
  link: LinkResult['link'],
): readonly { readonly key: WantedKey; readonly cell: Span }[] {
  const { headings, rows } = entry.body!.table!;
  return rows.flatMap((row) => {
    const fibre = link.fibres.find((each) => isAbout(row, headings, entry, link, each));
    if (fibre === undefined) return [];
    return headings.flatMap((heading, column) => {
      const cell = row.cells[column];
      if (cell?.kind !== 'absent' || heading.kind !== 'reading' || !heading.direction) return [];
      if (heading.quantity === C.reflectance) return [];
      const { direction } = heading;
      return [
        { key: { fibre, wavelength: picometres(heading.wavelength), direction }, cell: cell.span },
      ];
    });
  });
}

export interface Tabled {
  readonly document: DocumentView;
  readonly block: BlockView;
  readonly entry: BoundEntry;
}

/** Blocks that hold readings of an object, in order of the text. */
export function readingsOf(project: Project, plan: Plan, object: string): readonly Tabled[] {
  return plan.files.flatMap((uri) => {
    const document = project.document(uri);
    if (!document) return [];
    return document.blocks().flatMap((block) => {
      if (!plan.objectsIn(block.id).includes(object)) return [];
      const entries = block
        .bound()
        .entries.filter(({ word, body }) => word === W.readings && body?.table);
      return entries.map((entry) => ({ document, block, entry }));
    });
  });
}

/** What the cells under a heading of readings hold. */
export function columnOf({ body }: BoundEntry, heading: Heading): ColumnOf {
  const { quantity, unit } = heading as Extract<Heading, { kind: 'reading' }>;
  const values = body!.entries.find(
    ({ word, slots }) => word === W.values && nameOf(slots.quantity) === quantity,
  );
  return { quantity, unit, negative: nameOf(values?.slots[K.sign]) === C.negative };
}

function isOf(heading: Heading, { wavelength, direction }: WantedKey): boolean {
  if (heading.kind !== 'reading' || heading.quantity === C.reflectance) return false;
  return heading.wavelength === wavelength && heading.direction === direction;
}

function isWord(heading: Heading, word: string): boolean {
  return heading.kind === 'word' && heading.word === word;
}

function isAbout(
  row: BoundRow,
  headings: readonly Heading[],
  entry: BoundEntry,
  link: LinkResult['link'],
  fibre: number,
): boolean {
  const cell = (word: string) => row.cells[headings.findIndex((each) => isWord(each, word))];
  const named = cell(W.link);
  const object = named ? nameOfValue(named) : nameOf(entry.slots.object);
  if (object !== link.name) return false;
  const end = cell(W.end);
  if (end) return link.ways.some((way) => way.fibre === fibre && way.name === nameOfValue(end));
  const number = cell(W.fibre);
  return number?.kind === 'whole' && number.value === fibre;
}
