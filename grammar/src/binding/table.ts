/** Binds the table a block ends in: headings once, then every row against them. */
import type { BoundEntry, BoundRow, BoundTable, Heading, Value } from '../bound.ts';
import { findUnit, type Unit } from '../quantity/index.ts';
import type { Argument, ArgumentList, Row, Span, Table } from '../tree.ts';
import {
  C,
  type Column,
  canonical,
  K,
  type SlotKind,
  saysDark,
  soughtAs,
  type TableSpec,
  W,
} from '../vocabulary/index.ts';
import { nearest } from './nearest.ts';
import { oneOf, replace } from './sentences.ts';
import { type Mistake, quoted, type Reading, readInUnit, readValue, type Where } from './values.ts';
import { dimensionNames, meantUnit } from './wording.ts';

export interface TableMistake extends Mistake {
  /** Set for mistakes in rows: the same on neighbouring rows is said once. */
  readonly row?: number;
}

/** A heading, and how a cell under it is read. */
interface ColumnReader {
  readonly heading: Heading;
  readonly column?: Column | undefined;
  readonly read: (cell: Argument) => Reading;
}

/** Binds a table; `values` are the entries of its block that say what its numbers are. */
export function bindTable(
  table: Table,
  spec: TableSpec,
  values: readonly BoundEntry[],
  named: boolean,
  where: Where,
): { readonly table: BoundTable; readonly mistakes: readonly TableMistake[] } {
  const mistakes: TableMistake[] = [];
  const say = (mistake: TableMistake) => mistakes.push(mistake);
  const quantities = quantitiesOf(values);
  const columns = table.headings.map((heading) =>
    readHeading(heading, spec, quantities, where, say),
  );
  askHeadings(table, spec, columns, named, where, say);
  // Behind a heading that could not be read, which cell belongs to which column is not known.
  const sound = columns.findIndex(({ heading }) => heading.kind === 'spoilt');
  const known = sound < 0 ? columns.length : sound;
  const rows = table.rows.map((row, index) => bindRow(row, index, columns, known, where, say));
  return {
    table: { span: table.span, headings: columns.map((column) => column.heading), rows },
    mistakes,
  };
}

/** What the numbers of a block are, in order, with their units. */
function quantitiesOf(values: readonly BoundEntry[]): Map<string, Unit> {
  const quantities = new Map<string, Unit>();
  for (const entry of values) {
    const what = entry.slots.quantity?.[0];
    const unit = entry.slots[K.in]?.[0];
    if (what?.kind !== 'choice' || unit?.kind !== 'choice') continue;
    const found = findUnit(unit.text);
    if (found) quantities.set(what.text, found);
  }
  return quantities;
}

type Say = (mistake: TableMistake) => void;

function readHeading(
  list: ArgumentList,
  spec: TableSpec,
  quantities: ReadonlyMap<string, Unit>,
  where: Where,
  say: Say,
): ColumnReader {
  const [first, second, third, ...more] = list.arguments;
  const { span } = list;
  if (!first || list.arguments.some((argument) => argument.kind === 'spoilt')) {
    return spoiltColumn(span);
  }
  if (spec.readings && (first.kind === 'quantity' || first.kind === 'number')) {
    return readingColumn(list, quantities, where, say);
  }
  if ((first.kind !== 'name' && first.kind !== 'text') || more.length > 0) {
    return unknownHeading(list, spec, where, say);
  }
  let unit: Unit | undefined;
  if (second) {
    const isIn = second.kind === 'name' && second.text === K.in;
    if (!isIn || third?.kind !== 'name') return unknownHeading(list, spec, where, say);
    unit = findUnit(third.text);
    if (!unit) {
      say(unknownUnitOf(third, first.text, spec));
      return spoiltColumn(span);
    }
  }
  const word = canonical(first.text);
  const column = spec.columns.find((c) => c.word === word);
  if (column) return wordColumn(column, span, unit, where, say);
  if (!spec.holes) return unknownHeading(list, spec, where, say);
  return {
    heading: { kind: 'hole', span, name: first.text, ...(unit ? { unit } : {}) },
    read: (cell) => readCell(cell, [{ kind: 'any' }], unit, where),
  };
}

function unknownUnitOf(
  unit: Extract<Argument, { kind: 'name' }>,
  word: string,
  spec: TableSpec,
): Mistake {
  const dimension = spec.columns.find((c) => c.word === canonical(word))?.dimension ?? 'length';
  const kind = { kind: 'quantity', dimension, unit: 'm' } as const;
  const meant = meantUnit(unit.text, kind);
  return {
    name: 'unknown-unit',
    span: unit.span,
    details: {
      unit: unit.text,
      dimension: dimensionNames[dimension],
      units: 'see the reference',
      ...(meant ? { nearest: meant } : {}),
    },
    fix: meant ? replace(`Write \`${meant}\``, unit.span, meant) : undefined,
  };
}

function wordColumn(
  column: Column,
  span: Span,
  unit: Unit | undefined,
  where: Where,
  say: Say,
): ColumnReader {
  if (unit && unit.dimension !== column.dimension) {
    say({
      name: 'wrong-dimension',
      span,
      details: {
        want: column.dimension ? `a ${dimensionNames[column.dimension]}` : 'no unit',
        units: column.dimension ?? 'none',
        found: where.text.slice(span.start, span.end),
        is: `a ${dimensionNames[unit.dimension]}`,
      },
    });
  }
  const { word, kinds } = column;
  const evidenceFibre = column.first && kinds.length === 1 && kinds[0]?.kind === 'whole';
  return {
    heading: { kind: 'word', span, word, ...(unit ? { unit } : {}) },
    column,
    read: (cell) => {
      if (cell.kind === 'absent' && column.first) {
        return { mistake: { name: 'missing-cell', span: cell.span, details: { heading: word } } };
      }
      if (evidenceFibre && (cell.kind === 'range' || cell.kind === 'name-range')) {
        const found = where.text.slice(cell.span.start, cell.span.end);
        return { mistake: { name: 'range-in-row', span: cell.span, details: { found } } };
      }
      return readCell(cell, kinds, unit, where);
    },
  };
}

/** `1550 nm A>B reflectance` */
function readingColumn(
  list: ArgumentList,
  quantities: ReadonlyMap<string, Unit>,
  where: Where,
  say: Say,
): ColumnReader {
  const { span } = list;
  const [first, ...rest] = list.arguments as [Argument, ...Argument[]];
  const wavelength = readValue(first, wavelengthKind, where);
  if ('mistake' in wavelength) {
    say(wavelength.mistake);
    return spoiltColumn(span);
  }
  if (wavelength.value.kind !== 'quantity') return spoiltColumn(span);
  let direction: 'A>B' | 'B>A' | undefined;
  let quantity = quantities.keys().next().value ?? C.loss;
  for (const argument of rest) {
    if (argument.kind === 'direction' && direction === undefined) {
      direction = argument.value;
    } else {
      const reading = readValue(argument, quantityKind, where);
      if ('mistake' in reading) {
        say(reading.mistake);
        return spoiltColumn(span);
      }
      if (reading.value.kind === 'choice') quantity = reading.value.text;
    }
  }
  const unit = quantities.get(quantity) ?? findUnit(quantity === C.power ? 'dBm' : 'dB');
  if (!unit) return spoiltColumn(span);
  return {
    heading: {
      kind: 'reading',
      span,
      wavelength: wavelength.value.base,
      ...(direction ? { direction } : {}),
      quantity,
      unit,
    },
    // Where the block does not say what its numbers are, a unit in a cell contradicts nothing.
    read: (cell) =>
      quantities.size === 0 && cell.kind === 'quantity'
        ? { value: { kind: 'spoilt', span: cell.span } }
        : readReading(cell, unit, where),
  };
}

const wavelengthKind: readonly SlotKind[] = [
  { kind: 'quantity', dimension: 'wavelength', unit: 'nm' },
];
const quantityKind: readonly SlotKind[] = [
  { kind: 'choice', choices: [C.loss, C.power, C.reflectance] },
];

function readReading(cell: Argument, unit: Unit, where: Where): Reading {
  const { span } = cell;
  if (cell.kind === 'number') return readInUnit(cell, unit, where);
  if (cell.kind === 'absent') return { value: { kind: 'absent', span } };
  if (cell.kind === 'name' && cell.text === K.dark) return { value: { kind: 'dark', span } };
  const reading = readValue(
    cell,
    [{ kind: 'quantity', dimension: unit.dimension, unit: unit.name }],
    where,
  );
  if ('mistake' in reading && cell.kind === 'name') {
    const meant = nearest(cell.text, [K.dark]) !== undefined || saysDark(cell.text);
    const fix = meant ? replace(`Write \`${K.dark}\``, span, K.dark) : undefined;
    const details = {
      found: cell.text,
      choices: `a number, \`-\` and \`${K.dark}\``,
      ...(meant ? { nearest: K.dark } : {}),
    };
    return { mistake: { name: 'unknown-choice', span, details, fix } };
  }
  return reading;
}

function readCell(
  cell: Argument,
  kinds: readonly SlotKind[],
  unit: Unit | undefined,
  where: Where,
): Reading {
  if (cell.kind === 'absent') return { value: { kind: 'absent', span: cell.span } };
  if (cell.kind === 'number' && unit) return readInUnit(cell, unit, where);
  if (cell.kind === 'quantity' && unit && cell.unit.dimension !== unit.dimension) {
    return readValue(
      cell,
      [{ kind: 'quantity', dimension: unit.dimension, unit: unit.name }],
      where,
    );
  }
  return readValue(cell, kinds, where);
}

function unknownHeading(list: ArgumentList, spec: TableSpec, where: Where, say: Say): ColumnReader {
  const { span } = list;
  const found = where.text.slice(span.start, span.end);
  const words = spec.columns.map((column) => column.word);
  // only the word itself may be misspelt, not the unit behind it
  const first = list.arguments[0];
  const typed = first && where.text.slice(first.span.start, first.span.end);
  const meant =
    typed && (nearest(typed, words) ?? soughtAs(typed).find((word) => words.includes(word)));
  say({
    name: 'unknown-heading',
    span,
    details: {
      found,
      choices: `${oneOf(words)}${spec.readings ? ', or a reading such as `850 nm A>B`' : ''}${spec.holes ? ', or a hole of the pattern' : ''}`,
      ...(meant ? { nearest: meant } : {}),
    },
    fix: meant ? replace(`Write \`${meant}\``, first.span, meant) : undefined,
  });
  return spoiltColumn(span);
}

const spoiltColumn = (span: Span): ColumnReader => ({
  heading: { kind: 'spoilt', span },
  read: (cell) => ({ value: { kind: 'spoilt', span: cell.span } }),
});

/** Every heading once, and one that says what a row is about. */
function askHeadings(
  table: Table,
  spec: TableSpec,
  columns: readonly ColumnReader[],
  named: boolean,
  where: Where,
  say: Say,
): void {
  const seen = new Map<string, Span>();
  for (const { heading } of columns) {
    if (heading.kind === 'spoilt') continue;
    const key =
      heading.kind === 'reading'
        ? `${heading.wavelength} ${heading.direction ?? ''} ${heading.quantity}`
        : heading.kind === 'word'
          ? heading.word
          : `<${heading.name}>`;
    const before = seen.get(key);
    if (before) {
      const found = where.text.slice(heading.span.start, heading.span.end);
      const related = [{ span: before, message: 'The first one.' }];
      say({ name: 'repeated-heading', span: heading.span, details: { found }, related });
    }
    seen.set(key, heading.span);
  }
  if (columns.some(({ heading }) => heading.kind === 'spoilt')) return;
  const firsts = spec.columns.filter((column) => column.first).map((column) => column.word);
  const isObject = (word: string) => word === W.link || word === W.channel;
  const missing = spec.readings
    ? [named ? [] : firsts.filter(isObject), firsts.filter((word) => !isObject(word))]
    : [spec.holes ? firsts : firsts.filter((word) => !isObject(word))];
  for (const group of missing) {
    if (group.length === 0 || group.some((word) => seen.has(word))) continue;
    say({ name: 'missing-heading', span: table.word, details: { choices: oneOf(group) } });
    return;
  }
}

/** Cells against headings; at most one mistake a row. */
function bindRow(
  row: Row,
  index: number,
  columns: readonly ColumnReader[],
  known: number,
  where: Where,
  say: Say,
): BoundRow {
  const { cells } = row;
  const last = columns.at(-1);
  const remarkLast = last?.heading.kind === 'word' && last.heading.word === W.remark;
  let mistake: Mistake | undefined;
  const values: Value[] = [];
  columns.forEach((column, place) => {
    const cell = cells[place];
    if (!cell) {
      values.push({ kind: 'absent', span: { start: row.span.end, end: row.span.end } });
      return;
    }
    const reading = column.read(cell);
    if ('value' in reading) {
      values.push(reading.value);
    } else {
      if (place < known) mistake ??= reading.mistake;
      values.push({ kind: 'spoilt', span: cell.span });
    }
  });
  const wanted = columns.length;
  if (known < wanted) {
    if (mistake) say({ ...mistake, row: index });
    return { span: row.span, cells: values };
  }
  const remark = remarkLast ? cells[wanted - 1] : undefined;
  if (remark && (cells.length > wanted || remark.kind === 'name')) {
    mistake = unquotedRemark(remark, cells, mistake, where);
  } else if (cells.length > wanted) {
    mistake = {
      name: 'long-row',
      span: { start: cells[wanted]?.span.start ?? row.span.start, end: row.span.end },
      details: { cells: cells.length, headings: wanted },
    };
  } else if (cells.length < wanted - (remarkLast ? 1 : 0)) {
    const missing = wanted - (remarkLast ? 1 : 0) - cells.length;
    const end = cells.at(-1)?.span.end ?? row.span.end;
    // What the missing cells would hold is not known; nobody left it out on purpose.
    for (let more = 0; more < missing; more++) {
      values.push({ kind: 'spoilt', span: { start: end, end } });
    }
    mistake = {
      name: 'short-row',
      span: row.span,
      details: { cells: cells.length, headings: wanted },
      fix: replace('Write `-` for what is missing', { start: end, end }, ' -'.repeat(missing)),
    };
  }
  if (mistake) say({ ...mistake, row: index });
  return { span: row.span, cells: values };
}

function unquotedRemark(
  remark: Argument,
  cells: readonly Argument[],
  earlier: Mistake | undefined,
  where: Where,
): Mistake {
  if (earlier && earlier.span.start < remark.span.start) return earlier;
  const span = { start: remark.span.start, end: cells.at(-1)?.span.end ?? remark.span.end };
  const text = where.text.slice(span.start, span.end);
  const fix = replace('Put the remark in quotes', span, quoted(text.replace(/"/gu, '')));
  return { name: 'unquoted-remark', span, details: {}, fix };
}
