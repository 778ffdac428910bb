/**
 * Evidence about one object, from what its blocks say: readings with their
 * time, set-up and sign; what was untestable and why; work, withdrawals and
 * concessions.
 */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import {
  microDb,
  microDbm,
  type Picometres,
  picometres,
} from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration, EvidencePart, ReadingsHead, ReadingsPart } from './declaration.ts';
import type { EvidenceRows, Measured } from './rows.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type {
  Absence,
  BlockId,
  Concession,
  Direction,
  Evidence,
  Narrowing,
  ReadingCell,
  ReadingQuantity,
  When,
  Withdrawal,
  WorkEvent,
} from './types.ts';
import {
  clock,
  directionOf,
  locationOf,
  lossOf,
  MINUTES_PER_DAY,
  nameOf,
  placeIn,
  wavelengthOf,
  whenOf,
  whenOfDate,
  wholesOf,
} from './values.ts';

/** All evidence about an object, under its name and the names it had before. */
export function evidenceOf(object: string, scope: Scope): Evidence {
  const evidence = {
    readings: [] as ReadingCell[],
    absences: [] as Absence[],
    work: [] as WorkEvent[],
    withdrawals: [] as Withdrawal[],
    concessions: [] as Concession[],
    lengths: [],
    events: [],
    inspections: [],
  };
  for (const name of namesHeld(object, scope)) {
    for (const part of scope.evidence(name)) {
      const { content, block } = part;
      if (content.kind === 'readings') readPart(object, part, content, scope, evidence);
      else {
        const lines = content.entries.map((entry) => ({ block, entry }));
        if (content.kind === W.work) evidence.work.push(...workOf(object, lines, content.place));
        if (content.kind === W.withdraw) {
          evidence.withdrawals.push(...withdrawalOf(object, lines, content.place));
        }
        if (content.kind === W.concession) {
          evidence.concessions.push(...concessionOf(object, lines, content.place));
        }
      }
    }
  }
  return evidence;
}

/** Its name, and those it had before that nothing else has now. */
function namesHeld(object: string, scope: Scope): readonly string[] {
  const declaration = scope.find('object', object);
  if (!declaration) return [object];
  const former = declaration.was.filter((name) => !isTakenNow(name, declaration, scope));
  return [object, ...former];
}

function isTakenNow(name: string, declaration: Declaration, scope: Scope): boolean {
  const now = scope.find('object', name);
  return now !== undefined && now !== declaration && now.name === name;
}

type Lines = readonly PlacedEntry[];

const line = (lines: Lines, word: string): PlacedEntry | undefined =>
  lines.find(({ entry }) => entry.word === word);

// ---- readings

interface Gathered {
  readonly readings: ReadingCell[];
  readonly absences: Absence[];
}

/** What a row's readings share with those of its block. */
interface BlockFacts {
  readonly tested: When | undefined;
  /** Day on which `tested` begins. */
  readonly day: string | undefined;
  readonly by: string | undefined;
  /** Set-up for a direction: the one said for it, else the one said for all. */
  readonly setup: (direction: Direction | undefined) => string;
  /** What was written with a minus. */
  readonly negative: ReadonlySet<string>;
}

function readPart(
  object: string,
  part: EvidencePart,
  content: ReadingsPart,
  scope: Scope,
  into: Gathered,
): void {
  const facts = factsOf(content.head, part, scope);
  const columns = columnsOf(content.head, facts);
  for (let row = 0; row < content.rows.count; row++) {
    readRow(object, part, content.rows, row, columns, facts, into);
  }
}

/** Where in a row each thing stands; -1 where it does not. */
interface Columns {
  readonly fibre: number;
  readonly time: number;
  readonly by: number;
  readonly seen: number;
  readonly remark: number;
  readonly readings: readonly {
    readonly column: number;
    readonly wavelength: Picometres;
    readonly direction: Direction | undefined;
    readonly quantity: ReadingQuantity;
    readonly setup: string;
  }[];
}

function columnsOf({ headings }: ReadingsHead, facts: BlockFacts): Columns {
  const at = (word: string) =>
    headings.findIndex((heading) => heading.kind === 'word' && heading.word === word);
  return {
    fibre: at(W.fibre),
    time: at(W.time),
    by: at(W.by),
    seen: at(W.seen),
    remark: at(W.remark),
    readings: headings.flatMap((heading, column) => {
      if (heading.kind !== 'reading') return [];
      const { direction } = heading;
      return [
        {
          column,
          wavelength: picometres(heading.wavelength),
          direction,
          quantity: heading.quantity as ReadingQuantity,
          setup: facts.setup(direction),
        },
      ];
    }),
  };
}

function factsOf(head: ReadingsHead, part: EvidencePart, scope: Scope): BlockFacts {
  const lines = head.entries.map((entry): PlacedEntry => ({ block: part.block, entry }));
  const tested = line(lines, W.tested);
  const date = tested?.entry.slots.date?.[0];
  const setups = head.entries.filter(({ word }) => word === W.setup);
  const setupOf = (direction: Direction | undefined) => {
    const said = (entry: BoundEntry) => directionOf(entry.slots.direction);
    const entry =
      (direction && setups.find((each) => said(each) === direction)) ??
      setups.find((each) => said(each) === undefined);
    const name = nameOf(entry?.slots.setup);
    return name === undefined ? '' : (scope.find(W.setup, name)?.name ?? name);
  };
  return {
    tested: tested && testedOf(tested),
    day: date?.kind === 'date' ? date.value.day : undefined,
    by: nameOf(tested?.entry.slots[K.by]),
    setup: setupOf,
    negative: new Set(
      head.entries.flatMap((entry) =>
        entry.word === W.values && nameOf(entry.slots[K.sign]) === C.negative
          ? (nameOf(entry.slots.quantity) ?? [])
          : [],
      ),
    ),
  };
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

function readRow(
  object: string,
  { block }: EvidencePart,
  rows: EvidenceRows,
  row: number,
  columns: Columns,
  facts: BlockFacts,
  into: Gathered,
): void {
  const fibre = rows.number(row, columns.fibre);
  const at = whenOfRow(rows, row, columns, block, facts);
  if (fibre === undefined || !at) return;
  const by = rows.words(row, columns.by) ?? facts.by;
  const seen = rows.words(row, columns.seen);
  const remark = rows.words(row, columns.remark);
  const rowPlace = placeIn(block, rows.rowSpan(row));
  for (const { column, wavelength, direction, quantity, setup } of columns.readings) {
    const measured = rows.measured(row, column);
    if (!measured || (measured.kind === 'absent' && remark === undefined)) continue;
    const place = placeIn(block, rows.span(row, column));
    if (measured.kind === 'absent') {
      into.absences.push({ object, fibre, wavelength, direction, remark, place });
      continue;
    }
    into.readings.push({
      object,
      fibre,
      quantity,
      wavelength,
      direction,
      ...typedOf(measured, quantity, facts),
      setup,
      at,
      by,
      seen,
      remark,
      place,
      row: rowPlace,
      order: into.readings.length,
    });
  }
}

function typedOf(
  measured: Exclude<Measured, { kind: 'absent' }>,
  quantity: ReadingQuantity,
  facts: BlockFacts,
): Pick<ReadingCell, 'typed' | 'loss' | 'power'> {
  if (measured.kind === 'dark') return { typed: K.dark };
  const { digits, unit, dimension, base } = measured;
  const typed = { digits, unit };
  // Zero has no sign: -0 would be shown as one.
  const signed = facts.negative.has(quantity) && base !== 0 ? -base : base;
  if (quantity === C.loss && dimension === 'loss') return { typed, loss: microDb(signed) };
  if (quantity === C.power && dimension === 'power') return { typed, power: microDbm(signed) };
  return { typed };
}

/** A row's own time is on the day of `tested`; after midnight it carries its date. Without one it lies anywhere within. */
function whenOfRow(
  rows: EvidenceRows,
  row: number,
  columns: Columns,
  block: BlockId,
  facts: BlockFacts,
): When | undefined {
  const time = rows.time(row, columns.time);
  if (!time) return facts.tested;
  const place = placeIn(block, rows.span(row, columns.time));
  if (time.kind === 'date') return whenOfDate(time.value, place);
  return facts.day === undefined
    ? facts.tested
    : whenOfDate({ day: facts.day, minutes: time.minutes }, place);
}

// ---- what was done and decided

function workOf(object: string, lines: Lines, place: WorkEvent['place']): WorkEvent[] {
  const onLine = line(lines, W.on);
  const on = onLine && whenOf(onLine, onLine.entry.slots.date);
  const done = nameOf(line(lines, W.done)?.entry.slots.what);
  if (!on || done === undefined) return [];
  return [
    {
      object,
      done,
      on,
      fibres: wholesOf(line(lines, W.fibres)?.entry.slots.fibres),
      at: locationOf(line(lines, W.at)?.entry.slots.place),
      by: nameOf(line(lines, W.by)?.entry.slots.person),
      place,
    },
  ];
}

function narrowingOf(object: string, lines: Lines): Narrowing {
  const tested = line(lines, W.tested);
  return {
    object,
    fibres: wholesOf(line(lines, W.fibres)?.entry.slots.fibres),
    wavelength: wavelengthOf(line(lines, W.wavelength)?.entry.slots.wavelength),
    direction: directionOf(line(lines, W.direction)?.entry.slots.direction),
    tested: tested && whenOf(tested, tested.entry.slots.date),
  };
}

/** Without a reason or a name nothing is withdrawn: binding has asked for them. */
function withdrawalOf(object: string, lines: Lines, place: Withdrawal['place']): Withdrawal[] {
  const because = nameOf(line(lines, W.because)?.entry.slots.text);
  const by = nameOf(line(lines, W.by)?.entry.slots.person);
  if (because === undefined || by === undefined) return [];
  return [{ ...narrowingOf(object, lines), because, by, place }];
}

function concessionOf(object: string, lines: Lines, place: Concession['place']): Concession[] {
  const accepted = lossOf(line(lines, W.accepted)?.entry.slots.loss);
  const because = nameOf(line(lines, W.because)?.entry.slots.text);
  const byLine = line(lines, W.by);
  const by = nameOf(byLine?.entry.slots.person);
  if (accepted === undefined || because === undefined || !byLine || by === undefined) return [];
  const until = line(lines, W.until);
  return [
    {
      ...narrowingOf(object, lines),
      accepted,
      because,
      by,
      on: whenOf(byLine, byLine.entry.slots[K.on]),
      until: until && whenOf(until, until.entry.slots.date),
      place,
    },
  ];
}
