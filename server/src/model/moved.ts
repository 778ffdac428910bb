/**
 * Equality of bound content without regard to where it stands, and moving the
 * spans of content that only moved. Spans are shared by the places made from
 * them, so that these move along.
 */
import type { BoundBody, BoundEntry, Heading, Value } from '../../../grammar/src/bound.ts';
import type { Span } from '../../../grammar/src/tree.ts';

// ---- equal content

export function sameValue(a: Value, b: Value): boolean {
  if (a === b) return true;
  switch (a.kind) {
    case 'quantity':
      return (
        b.kind === 'quantity' && a.base === b.base && a.digits === b.digits && a.unit === b.unit
      );
    case 'name':
    case 'text':
    case 'choice':
      return b.kind === a.kind && a.text === b.text;
    case 'names':
      return (
        b.kind === 'names' &&
        a.prefix === b.prefix &&
        a.first === b.first &&
        a.last === b.last &&
        a.step === b.step &&
        a.width === b.width
      );
    case 'whole':
      return b.kind === 'whole' && a.value === b.value;
    case 'wholes':
      return b.kind === 'wholes' && a.first === b.first && a.last === b.last && a.step === b.step;
    case 'decimal':
      return b.kind === 'decimal' && a.digits === b.digits;
    case 'date':
      return (
        b.kind === 'date' && a.value.day === b.value.day && a.value.minutes === b.value.minutes
      );
    case 'time':
      return b.kind === 'time' && a.minutes === b.minutes;
    case 'direction':
      return b.kind === 'direction' && a.value === b.value;
    case 'ratio':
      return b.kind === 'ratio' && a.first === b.first && a.second === b.second;
    case 'map':
      return (
        b.kind === 'map' && a.named === b.named && String(a.places ?? '') === String(b.places ?? '')
      );
    case 'hole':
      return b.kind === 'hole' && a.name === b.name;
    default:
      return a.kind === b.kind;
  }
}

function sameValues(a: readonly Value[], b: readonly Value[]): boolean {
  return sameList(a, b, sameValue);
}

function sameEntry(a: BoundEntry, b: BoundEntry): boolean {
  if (a === b) return true;
  if (a.word !== b.word) return false;
  const before = Object.keys(a.slots);
  if (before.length !== Object.keys(b.slots).length) return false;
  for (const slot of before) {
    const values = b.slots[slot];
    if (!values || !sameValues(a.slots[slot]!, values)) return false;
  }
  return a.body && b.body ? sameBody(a.body, b.body) : a.body === b.body;
}

export function sameEntries(a: readonly BoundEntry[], b: readonly BoundEntry[]): boolean {
  return sameList(a, b, sameEntry);
}

function sameBody(a: BoundBody, b: BoundBody): boolean {
  if (a.open !== b.open || !sameEntries(a.entries, b.entries)) return false;
  if (!a.table || !b.table) return a.table === b.table;
  return (
    sameHeadings(a.table.headings, b.table.headings) &&
    sameList(a.table.rows, b.table.rows, (row, other) => sameValues(row.cells, other.cells))
  );
}

export function sameHeadings(a: readonly Heading[], b: readonly Heading[]): boolean {
  return sameList(a, b, sameHeading);
}

function sameHeading(a: Heading, b: Heading): boolean {
  switch (a.kind) {
    case 'word':
      return b.kind === 'word' && a.word === b.word && a.unit === b.unit;
    case 'hole':
      return b.kind === 'hole' && a.name === b.name && a.unit === b.unit;
    case 'reading':
      return (
        b.kind === 'reading' &&
        a.wavelength === b.wavelength &&
        a.direction === b.direction &&
        a.quantity === b.quantity &&
        a.unit === b.unit
      );
    default:
      return a.kind === b.kind;
  }
}

function sameList<Item>(
  a: readonly Item[],
  b: readonly Item[],
  same: (a: Item, b: Item) => boolean,
): boolean {
  if (a.length !== b.length) return false;
  for (let index = 0; index < a.length; index++) {
    if (!same(a[index]!, b[index]!)) return false;
  }
  return true;
}

export function sameHoles(
  a: ReadonlyMap<string, Value> | undefined,
  b: ReadonlyMap<string, Value> | undefined,
): boolean {
  if (!a || !b) return a === b;
  if (a.size !== b.size) return false;
  for (const [name, value] of a) {
    const other = b.get(name);
    if (!other || !sameValue(value, other)) return false;
  }
  return true;
}

// ---- moving: `kept` and `now` have the same content

/** A span made here or by binding: the model moves it with the text. */
type Moving = { -readonly [Key in keyof Span]: Span[Key] };

export function moveSpan(kept: Span, now: Span): void {
  (kept as Moving).start = now.start;
  (kept as Moving).end = now.end;
}

export function moveItems<Item extends { readonly span: Span }>(
  kept: readonly Item[],
  now: readonly Item[],
): void {
  for (const [index, item] of kept.entries()) moveSpan(item.span, now[index]!.span);
}

export function moveEntries(kept: readonly BoundEntry[], now: readonly BoundEntry[]): void {
  for (const [index, entry] of kept.entries()) {
    const other = now[index]!;
    moveSpan(entry.span, other.span);
    moveSpan(entry.wordSpan, other.wordSpan);
    for (const [slot, values] of Object.entries(entry.slots)) moveItems(values, other.slots[slot]!);
    if (entry.body && other.body) moveBody(entry.body, other.body);
  }
}

function moveBody(kept: BoundBody, now: BoundBody): void {
  moveSpan(kept.span, now.span);
  moveEntries(kept.entries, now.entries);
  if (!kept.table || !now.table) return;
  moveSpan(kept.table.span, now.table.span);
  moveItems(kept.table.headings, now.table.headings);
  moveItems(kept.table.rows, now.table.rows);
  for (const [index, row] of kept.table.rows.entries()) {
    moveItems(row.cells, now.table.rows[index]!.cells);
  }
}

export function moveHoles(
  kept: ReadonlyMap<string, Value> | undefined,
  now: ReadonlyMap<string, Value> | undefined,
): void {
  for (const [name, value] of kept ?? []) moveSpan(value.span, now!.get(name)!.span);
}
