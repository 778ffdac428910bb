/**
 * What the rows of a block of evidence share, and what every row says: whose
 * fibre it is about, when it was measured and by whom.
 */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { type Picometres, picometres } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { EvidencePart, RowsHead, RowsPart } from './declaration.ts';
import { buildLink } from './link.ts';
import type { EvidenceRows } from './rows.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { BlockId, Direction, LinkModel, Place, ReadingQuantity, When } from './types.ts';
import {
  clock,
  directionOf,
  MINUTES_PER_DAY,
  nameOf,
  placeIn,
  whenOf,
  whenOfDate,
} from './values.ts';

/** Rows about one object with what their block says of all of them. */
export interface RowsBlock {
  readonly object: string;
  readonly block: BlockId;
  readonly head: RowsHead;
  readonly rows: EvidenceRows;
  /** Where in a row a word's column stands; -1 where it does not. */
  column(word: string): number;
  readonly readings: readonly ReadingColumn[];
  /** Set-up for a direction: the one said for it, else the one said for all. */
  setup(direction: Direction | undefined): string;
}

export interface ReadingColumn {
  readonly column: number;
  readonly wavelength: Picometres;
  readonly direction: Direction | undefined;
  readonly quantity: ReadingQuantity;
  readonly setup: string;
  /** Written with a minus where others write none. */
  readonly negative: boolean;
}

/** One row, of which the fibre and the time are known. */
export interface EvidenceRow {
  /** Place among the rows of its block. */
  readonly number: number;
  readonly fibre: number;
  readonly end?: string;
  readonly at: When;
  readonly by?: string;
  readonly remark?: string;
  readonly place: Place;
}

export function rowsBlock(
  object: string,
  { block }: EvidencePart,
  { head, rows }: RowsPart,
  scope: Scope,
): RowsBlock {
  const setup = setupsOf(head, scope);
  const negative = new Set(
    head.entries.flatMap((entry) =>
      entry.word === W.values && nameOf(entry.slots[K.sign]) === C.negative
        ? (nameOf(entry.slots.quantity) ?? [])
        : [],
    ),
  );
  return {
    object,
    block,
    head,
    rows,
    column: (word) =>
      head.headings.findIndex((heading) => heading.kind === 'word' && heading.word === word),
    setup,
    readings: head.headings.flatMap((heading, column) => {
      if (heading.kind !== 'reading') return [];
      const { direction, quantity } = heading;
      return [
        {
          column,
          wavelength: picometres(heading.wavelength),
          direction,
          quantity: quantity as ReadingQuantity,
          setup: setup(direction),
          negative: negative.has(quantity),
        },
      ];
    }),
  };
}

/** Rows in order; one whose fibre, end or time could not be read says nothing. */
export function* rowsOf(of: RowsBlock, scope: Scope): Iterable<EvidenceRow> {
  const { block, rows, head } = of;
  const testedLine = lineOf(head, block, W.tested);
  const tested = testedLine && testedOf(testedLine);
  const date = testedLine?.entry.slots.date?.[0];
  const day = date?.kind === 'date' ? date.value.day : undefined;
  const byAll = nameOf(testedLine?.entry.slots[K.by]);
  const [fibreAt, endAt, timeAt, byAt, remarkAt] = [
    of.column(W.fibre),
    of.column(W.end),
    of.column(W.time),
    of.column(W.by),
    of.column(W.remark),
  ];
  const ends = endAt < 0 ? undefined : endsOf(objectModel(of.object, scope));
  for (let number = 0; number < rows.count; number++) {
    const end = rows.words(number, endAt);
    const fibre = rows.number(number, fibreAt) ?? (end === undefined ? undefined : ends?.get(end));
    const at = whenOfRow(of, number, timeAt, tested, day);
    if (fibre === undefined || !at) continue;
    yield {
      number,
      fibre,
      end,
      at,
      by: rows.words(number, byAt) ?? byAll,
      remark: rows.words(number, remarkAt),
      place: placeIn(block, rows.rowSpan(number)),
    };
  }
}

/** The model of the link or channel that evidence is about. */
export function objectModel(object: string, scope: Scope): LinkModel | undefined {
  const declaration = scope.find('object', object);
  return declaration?.kind === W.link || declaration?.kind === W.channel
    ? buildLink(declaration, scope).model
    : undefined;
}

/** Numbers under which evidence about the ends of a tree is kept, by the ports that name them. */
export function endsOf(model: LinkModel | undefined): ReadonlyMap<string, number> {
  return new Map(
    (model?.ways ?? []).flatMap(({ name, fibre }) => (fibre === undefined ? [] : [[name, fibre]])),
  );
}

/** `tested DATE [to DATE|TIME]`: from its first minute to its last. */
export function testedOf(tested: PlacedEntry): When | undefined {
  const from = whenOf(tested, tested.entry.slots.date);
  const end = tested.entry.slots[K.to]?.[0];
  if (!from || !end) return from;
  if (end.kind === 'time') {
    const start = from.from - (from.from % MINUTES_PER_DAY);
    return { ...from, to: start + end.minutes, text: `${from.text} to ${clock(end.minutes)}` };
  }
  const to = whenOf(tested, [end]);
  return to ? { ...from, to: to.to, text: `${from.text} to ${to.text}` } : from;
}

function lineOf(head: RowsHead, block: BlockId, word: string): PlacedEntry | undefined {
  const entry = head.entries.find((each) => each.word === word);
  return entry && { block, entry };
}

function setupsOf(head: RowsHead, scope: Scope): RowsBlock['setup'] {
  const setups = head.entries.filter(({ word }) => word === W.setup);
  const said = (entry: BoundEntry) => directionOf(entry.slots.direction);
  return (direction) => {
    const entry =
      (direction && setups.find((each) => said(each) === direction)) ??
      setups.find((each) => said(each) === undefined) ??
      (direction === undefined ? setups[0] : undefined);
    const name = nameOf(entry?.slots.setup);
    return name === undefined ? '' : (scope.find(W.setup, name)?.name ?? name);
  };
}

/** The row's own time, on the day of `tested`; else all of `tested`. */
function whenOfRow(
  { rows, block }: RowsBlock,
  row: number,
  column: number,
  tested: When | undefined,
  day: string | undefined,
): When | undefined {
  const time = rows.time(row, column);
  if (!time) return tested;
  const place = placeIn(block, rows.span(row, column));
  if (time.kind === 'date') return whenOfDate(time.value, place);
  return day === undefined ? tested : whenOfDate({ day, minutes: time.minutes }, place);
}
