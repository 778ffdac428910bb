/**
 * What blocks of evidence say, cell by cell: each reading, length, port, event
 * and end face with its key (object, fibre or end, what, wavelength, direction),
 * its time and its set-up. How rows and columns are ordered, and over which
 * blocks they lie, says nothing.
 */
import type { BoundEntry, BoundRow, Heading, Value } from '../../../../grammar/src/bound.ts';
import {
  type Picometres,
  picometres,
  toNanometres,
} from '../../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../../grammar/src/vocabulary/index.ts';
import { clock, nameOf } from '../../model/values.ts';
import type { ReadingKey } from '../types.ts';
import type { HeldBlock, SaidEntry, Spot } from './side.ts';
import { contents, type Naming, plain, printValue } from './values.ts';

export interface EvidenceCell {
  readonly block: HeldBlock;
  readonly span: Spot['span'];
  readonly table: string;
  /** As it is called now, and as it is written. */
  readonly object: string;
  readonly written: string;
  readonly fibre?: number | undefined;
  readonly end?: string | undefined;
  /** `loss`, `power`, `reflectance`, `length`, `port`, `end face A`, `event loss`, `absent`. */
  readonly what: string;
  readonly wavelength?: Picometres | undefined;
  readonly direction?: 'A>B' | 'B>A' | undefined;
  readonly time: string;
  /** Until when it may have been, where only that is said. */
  readonly until: string;
  readonly setup: string;
  readonly content: string;
  readonly printed: string;
  /** Of an event: how far along it lies and what it is, as compared and as written. */
  readonly where: string;
  readonly event: string;
  readonly by: string;
  readonly remark: string;
}

/** Which one it is, whenever it was measured. */
export function keyOf(cell: EvidenceCell): string {
  return [
    cell.object,
    cell.fibre ?? '',
    cell.end ?? '',
    cell.what,
    cell.wavelength ?? '',
    cell.direction ?? '',
  ].join('\n');
}

/** `KQ-OPS-B3 fibre 9, 850 nm A>B`. */
export function calledOf(cell: EvidenceCell): string {
  const { object, fibre, end, what, wavelength, direction } = cell;
  const place = end !== undefined ? ` end ${end}` : fibre === undefined ? '' : ` fibre ${fibre}`;
  const at = [wavelength && `${toNanometres(wavelength)} nm`, direction].filter(Boolean).join(' ');
  const quantity = what === C.loss ? '' : [what, cell.event].filter(Boolean).join(' of ');
  return `${object}${place}${[quantity, at].map((text) => text && `, ${text}`).join('')}`;
}

/** The key of a reading; undefined of lengths, ports, events and end faces. */
export function readingKeyOf(
  cell: EvidenceCell,
  endNumber: (cell: EvidenceCell) => number | undefined,
): ReadingKey | undefined {
  const { object, what, wavelength, direction } = cell;
  if (what !== C.loss && what !== C.power && what !== C.reflectance) return undefined;
  const fibre = cell.end === undefined ? cell.fibre : endNumber(cell);
  if (fibre === undefined || wavelength === undefined) return undefined;
  return { object, fibre, quantity: what, wavelength, ...(direction && { direction }) };
}

export function cellsOf(blocks: readonly SaidEntry[], naming: Naming): readonly EvidenceCell[] {
  return blocks.flatMap((said) => [...cellsIn(said, naming)]);
}

interface Head {
  readonly object: string | undefined;
  readonly day: string;
  readonly from: string;
  readonly to: string;
  readonly by: string;
  /** Quantities whose sign is written the other way. */
  readonly turned: ReadonlySet<string>;
  setup(direction: string | undefined): string;
}

function headOf({ entry }: SaidEntry, naming: Naming): Head {
  const entries = entry.body?.entries ?? [];
  const tested = entries.find(({ word }) => word === W.tested);
  const date = tested?.slots.date?.[0];
  const to = tested?.slots[K.to]?.[0];
  const setups = entries.filter(({ word }) => word === W.setup);
  const object = nameOf(entry.slots.object);
  return {
    object: object === undefined ? undefined : object,
    day: date?.kind === 'date' ? date.value.day : '',
    from: date ? printValue(date, '') : '',
    to: to ? printValue(to, '') : '',
    by: nameOf(tested?.slots[K.by]) ?? '',
    turned: new Set(
      entries
        .filter(({ word, slots }) => word === W.values && slots[K.sign])
        .flatMap(({ slots }) => nameOf(slots.quantity) ?? []),
    ),
    setup(direction) {
      const own = setups.find(({ slots }) => directionIn(slots.direction) === direction);
      const name = nameOf((own ?? setups.find(({ slots }) => !slots.direction))?.slots.setup);
      return name === undefined ? '' : naming(name, [W.setup]);
    },
  };
}

const directionIn = (values: BoundEntry['slots'][string] | undefined): string | undefined => {
  const [value] = values ?? [];
  return value?.kind === 'direction' ? value.value : undefined;
};

function* cellsIn(said: SaidEntry, naming: Naming): Iterable<EvidenceCell> {
  const table = said.entry.body?.table;
  if (!table) return;
  const head = headOf(said, naming);
  const columns = new Map<string, number>();
  for (const [index, heading] of table.headings.entries()) {
    if (heading.kind === 'word') columns.set(heading.word, index);
  }
  const cell = (row: BoundRow, word: string): Value | undefined => {
    const found = row.cells[columns.get(word) ?? -1];
    return found?.kind === 'absent' || found?.kind === 'spoilt' ? undefined : found;
  };
  for (const row of table.rows) {
    const written = head.object ?? nameOf(listed(cell(row, W.link)));
    if (written === undefined) continue;
    const fibre = cell(row, W.fibre);
    const time = cell(row, W.time);
    const about = {
      block: said.block,
      table: said.entry.word,
      object: naming(written, ['object']),
      written,
      fibre: fibre?.kind === 'whole' ? fibre.value : undefined,
      end: nameOf(listed(cell(row, W.end))),
      time: time ? timeOf(time, head) : head.from,
      until: time ? '' : head.to,
      by: nameOf(listed(cell(row, W.by))) ?? head.by,
      remark: nameOf(listed(cell(row, W.remark))) ?? '',
    };
    let held = false;
    for (const [index, heading] of table.headings.entries()) {
      const value = row.cells[index];
      if (!value || value.kind === 'spoilt') continue;
      const found = cellOf(heading, value, said, head, (word) => cell(row, word));
      if (!found) continue;
      held = true;
      yield {
        where: '',
        event: '',
        ...about,
        ...found,
        setup: head.setup(found.direction),
        span: value.span,
      };
    }
    // An event without a value, such as the end of the fibre, says where it lies.
    if (!held && said.entry.word === W.events) {
      const found = eventIn((word) => cell(row, word), said.block.view.text);
      yield { ...about, ...found, what: eventOf, setup: head.setup(undefined), span: row.span };
    }
  }
}

/** Where an event lies and what it is, in the place of a value that it has not. */
function eventIn(
  cell: (word: string) => Value | undefined,
  text: string,
): Pick<EvidenceCell, 'where' | 'event' | 'content' | 'printed'> {
  const at = cell(W.at);
  const kind = nameOf(listed(cell(W.kind))) ?? '';
  const place = at ? contents([at], undefined, { text, naming: plain }).join() : '';
  const event = [kind, at && `at ${printValue(at, text)}`].filter(Boolean).join(' ');
  return { where: `${place} ${kind}`, event, content: '', printed: event };
}

const listed = (value: Value | undefined): Value[] => (value ? [value] : []);

const timeOf = (time: Value, head: Head): string =>
  time.kind === 'time' ? `${head.day} ${clock(time.minutes)}` : printValue(time, '');

type Said = Pick<EvidenceCell, 'what' | 'content' | 'printed'> &
  Partial<Pick<EvidenceCell, 'wavelength' | 'direction' | 'where' | 'event'>>;

function cellOf(
  heading: Heading,
  value: Value,
  said: SaidEntry,
  head: Head,
  cell: (word: string) => Value | undefined,
): Said | undefined {
  const { text } = said.block.view;
  const voice = { text, naming: plain };
  const printed = printValue(value, text);
  if (heading.kind === 'reading') {
    const key = {
      wavelength: picometres(heading.wavelength),
      ...(heading.direction && { direction: heading.direction }),
    };
    if (value.kind === 'absent') {
      const remark = nameOf(listed(cell(W.remark)));
      // Why something could not be measured is said behind it.
      return remark === undefined || said.entry.word !== W.readings
        ? undefined
        : { what: absent, content: remark, printed: `"${remark}"`, ...key };
    }
    const turned = head.turned.has(heading.quantity) && value.kind === 'quantity';
    const content = turned
      ? `${value.dimension}:${-value.base}`
      : contents([value], undefined, voice).join();
    if (said.entry.word !== W.events) return { what: heading.quantity, content, printed, ...key };
    const what = `${eventOf} ${heading.quantity}`;
    return { ...eventIn(cell, text), what, content, printed, ...key };
  }
  if (value.kind === 'absent' || heading.kind !== 'word') return undefined;
  const content = contents([value], undefined, voice).join();
  if (said.entry.word === W.readings) {
    if (heading.word === W.length) return { what: heading.word, content, printed };
    if (heading.word === W.seen) return { what: port, content, printed };
  }
  if (said.entry.word === W.inspection && (heading.word === W.endA || heading.word === W.endB)) {
    return { what: `end face ${heading.word}`, content, printed };
  }
  return undefined;
}

/** Of a cell that says why nothing stands in it. */
export const absent = 'not measured';
const eventOf = 'event';
const port = 'port seen';
