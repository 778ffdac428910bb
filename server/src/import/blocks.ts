/** Readings laid out as blocks of the notation: canonical, of at most a thousand rows, each saying what it was made from. */
import { bindBlock } from '../../../grammar/src/binding.ts';
import { formatBlock } from '../../../grammar/src/format.ts';
import { parseBlock } from '../../../grammar/src/parser.ts';
import { quoted, spelt } from '../../../grammar/src/spelt.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Mapping, Quantity } from './mapping.ts';
import { quantities } from './objects.ts';
import { type FoundReading, type FoundRow, unitOf } from './rows.ts';

/** Most rows of a block: what an editor lays out and judges at once without being felt. */
export const mostRows = 1000;

/** The file that readings were taken from. */
export interface Original {
  /** Its name, without folders. */
  readonly name: string;
  /** SHA-256 of its bytes, in hexadecimal. */
  readonly fingerprint: string;
}

interface Line {
  readonly first: FoundRow;
  /** By heading. */
  readonly cells: Map<string, string>;
}

/** Rows that stand under one head. */
interface Group {
  readonly of: FoundRow;
  readonly lines: Line[];
  readonly byRow: Map<string, Line>;
  /** Rows of the table that are in it, the first and the last. */
  rows: { readonly from: number; readonly to: number };
}

/** Rows of one set-up, day and person come together, in the order of the table. */
export class Blocks {
  readonly #groups = new Map<string, Group[]>();

  add(row: FoundRow): void {
    const { setup, day, by, kind, time, link, place, remark, length, seen } = row;
    // Of light from B alone the port is one at A, in a block that holds no other light.
    const head = JSON.stringify([setup, day, by, kind, time === undefined, seen?.side === 'A']);
    const groups = this.#groups.get(head) ?? [];
    this.#groups.set(head, groups);
    let group = groups.at(-1);
    const key = JSON.stringify([link.name, place, time, remark, length, seen?.port]);
    let line = group?.byRow.get(key);
    if (!line) {
      if (!group || group.lines.length >= mostRows) {
        const rows = { from: row.number, to: row.number };
        group = { of: row, lines: [], byRow: new Map(), rows };
        groups.push(group);
      }
      line = { first: row, cells: new Map() };
      group.lines.push(line);
      group.byRow.set(key, line);
    }
    group!.rows = { from: group!.rows.from, to: Math.max(group!.rows.to, row.number) };
    for (const reading of row.readings) line.cells.set(headingOf(reading), reading.text);
  }

  /** How many there are. */
  get count(): number {
    return this.#all().length;
  }

  /** One after the other, each canonical. Throws where one could not be read back, which would be a defect. */
  *texts(mapping: Mapping, original: Original): Iterable<string> {
    for (const group of this.#all()) yield blockText(group, mapping, original);
  }

  #all(): readonly Group[] {
    return [...this.#groups.values()].flat();
  }
}

function blockText({ of, lines, rows: from }: Group, mapping: Mapping, original: Original): string {
  const links = new Set(lines.map(({ first }) => first.link.name));
  const times = [...new Set(lines.flatMap(({ first }) => first.time ?? []))].sort();
  const remarks = lines.some(({ first }) => first.remark !== '');
  const measured = lines.some(({ first }) => first.length !== undefined);
  const seen = lines.some(({ first }) => first.seen !== undefined);
  const headings = [...new Set(lines.flatMap(({ cells }) => [...cells.keys()]))]
    .map(readHeading)
    .sort(byPlace);
  const kinds = quantities.filter((each) => headings.some(({ what }) => what === each));
  const heads = [
    ...(links.size > 1 ? [W.link] : []),
    of.kind === 'end' ? W.end : W.fibre,
    ...(measured ? [`${W.length} ${K.in} ${mapping.lengths}`] : []),
    ...(seen ? [W.seen] : []),
    ...headings.map(({ what, at }) => (what === kinds[0] ? at : `${at} ${what}`)),
    ...(times.length > 1 ? [W.time] : []),
    ...(remarks ? [W.remark] : []),
  ];
  const rows = lines.map(({ first, cells }) =>
    [
      ...(links.size > 1 ? [spelt(first.link.name)] : []),
      of.kind === 'end' ? spelt(first.place) : first.place,
      ...(measured ? [first.length ?? '-'] : []),
      ...(seen ? [first.seen ? spelt(first.seen.port) : '-'] : []),
      ...headings.map(({ key }) => cells.get(key) ?? '-'),
      ...(times.length > 1 ? [first.time!] : []),
      ...(first.remark === '' ? (remarks ? ['-'] : []) : [quoted(first.remark)]),
    ].join('  '),
  );
  const span = [times[0], times.length > 1 ? `${K.to} ${times.at(-1)}` : undefined];
  const tested = [of.day, ...span, ...(of.by === '' ? [] : [K.by, quoted(of.by)])].filter(Boolean);
  const text = formatBlock(
    [
      `${W.readings}${links.size > 1 ? '' : ` ${spelt(of.link.name)}`} {`,
      `${W.setup} ${spelt(of.setup)}`,
      `${W.tested} ${tested.join(' ')}`,
      ...kinds.map((what) => valuesLine(what, mapping)),
      `${W.note} ${quoted(noteOf(from, original))}`,
      `${W.columns} ${heads.join(', ')}`,
      ...rows,
      '}\n',
    ].join('\n'),
  ).trimEnd();
  const problem = bindBlock(parseBlock(text), text).findings.find(
    ({ severity }) => severity === 'error',
  );
  if (problem) throw new Error(`a block that was laid out cannot be read: ${problem.message}`);
  return text;
}

function valuesLine(what: Quantity, mapping: Mapping): string {
  const negative = what === C.loss && mapping.values.sign === C.negative;
  return `${W.values} ${what} ${K.in} ${unitOf(what, mapping)}${negative ? ` ${K.sign} ${C.negative}` : ''}`;
}

function noteOf({ from, to }: Group['rows'], { name, fingerprint }: Original): string {
  const rows = from === to ? `row ${from}` : `rows ${from} to ${to}`;
  return `Imported from ${name}, ${rows}, SHA-256 ${fingerprint}`;
}

/** `loss 850 A>B`: what a column is known by. */
function headingOf({ what, wavelength, direction }: FoundReading): string {
  return `${what} ${wavelength} ${direction}`;
}

function readHeading(key: string) {
  const [what, wavelength, direction] = key.split(' ') as [Quantity, string, string];
  return { key, what, wavelength: Number(wavelength), at: `${wavelength} nm ${direction}` };
}

type ColumnHeading = ReturnType<typeof readHeading>;

function byPlace(a: ColumnHeading, b: ColumnHeading): number {
  const kinds = quantities.indexOf(a.what) - quantities.indexOf(b.what);
  return kinds || a.wavelength - b.wavelength || (a.at < b.at ? -1 : 1);
}
