/** Reads the declarations of one block of text; keeps what did not change. */
import type {
  BoundBlock,
  BoundEntry,
  BoundRow,
  BoundTable,
  Heading,
  Value,
} from '../../../grammar/src/bound.ts';
import type { NotationFinding } from '../../../grammar/src/tree.ts';
import { findWord, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type {
  BlockDeclarations,
  Declaration,
  DeclaredKind,
  EvidencePart,
  Include,
  Origin,
  PlanDeclaration,
  RowsHead,
  RowsKind,
  StatementPart,
  TableDeclaration,
} from './declaration.ts';
import { misreadLines } from './declaration.ts';
import {
  formerDeclarations,
  formerEntries,
  formerEvidence,
  formerHead,
  formerTable,
} from './former.ts';
import { EvidenceRows } from './rows.ts';
import type { BlockId } from './types.ts';
import { namesUnread } from './uses.ts';
import { nameOf, nameOfValue, namesOf, placeIn } from './values.ts';

export interface DeclareOptions {
  readonly origin?: Origin;
  readonly previous?: BlockDeclarations;
}

const declaredKinds: readonly string[] = [
  W.fibre,
  W.connector,
  W.splice,
  W.splitter,
  W.component,
  W.cable,
  W.colours,
  W.mandrel,
  W.flux,
  W.criterion,
  W.limits,
  W.application,
  W.transceiver,
  W.setup,
  W.link,
  W.channel,
  W.ring,
  W.pattern,
] satisfies readonly DeclaredKind[];

export const isDeclaredKind = (word: string): word is DeclaredKind => declaredKinds.includes(word);

/**
 * Declarations of one block. With the block's former declarations, whatever has
 * equal content is handed on as the same object, its spans moved to where it
 * stands now.
 */
export function declareBlock(
  bound: BoundBlock,
  block: BlockId,
  options: DeclareOptions = {},
): BlockDeclarations {
  const origin = options.origin ?? 'plan';
  const previous = options.previous;
  const declarations: Declaration[] = [];
  const includes: Include[] = [];
  const evidence: EvidencePart[] = [];
  let plan: PlanDeclaration | undefined;

  for (const entry of bound.entries) {
    const { word } = entry;
    if (word === W.include) {
      const path = entry.slots.path?.[0];
      const text = path && nameOfValue(path);
      if (text !== undefined) includes.push({ path: text, place: placeIn(block, path!.span) });
    } else if (word === W.plan) {
      plan ??= declarePlan(entry, block, bound.findings, previous?.plan);
    } else if (word === W.links || word === W.channels) {
      declarations.push(...declareRows(entry, block, origin, bound.findings, previous));
    } else if (isRowsKind(word)) {
      evidence.push(...declareEvidenceRows(entry, word, block, previous));
    } else if (isStatement(word)) {
      evidence.push(...declareStatement(entry, word, block));
    } else if (isDeclaredKind(word)) {
      const declaration = declareNamed(entry, word, block, origin, bound.findings);
      if (declaration) declarations.push(declaration);
    }
  }
  const unread = namesUnread(bound);
  return {
    block,
    origin,
    ...(unread && { unread }),
    declarations: formerDeclarations(declarations, previous?.declarations),
    plan,
    includes,
    evidence: formerEvidence(evidence, previous?.evidence),
  };
}

function declareNamed(
  entry: BoundEntry,
  kind: DeclaredKind,
  block: BlockId,
  origin: Origin,
  mistakes: readonly NotationFinding[],
): Declaration | undefined {
  const named = entry.slots.name?.[0];
  const name = named && nameOfValue(named);
  if (!named || name === undefined) return undefined;
  const entries = entry.body?.entries ?? [];
  return {
    kind,
    name,
    title: nameOf(entry.slots.title),
    origin,
    block,
    place: placeIn(block, entry.span),
    namePlace: placeIn(block, named.span),
    entries,
    was: formerNames(entries),
    misread: misreadAmong(entries, mistakes),
    open: entry.body?.open ?? true,
  };
}

/** Entries on whose own line, before their block, the notation found an error. */
function misreadAmong(
  entries: readonly BoundEntry[],
  mistakes: readonly NotationFinding[],
): readonly BoundEntry[] {
  const errors = mistakes.filter(({ severity }) => severity === 'error');
  if (errors.length === 0) return [];
  return entries.filter(({ span, body }) =>
    errors.some(
      (error) =>
        error.span.start >= span.start && error.span.start < (body?.span.start ?? span.end),
    ),
  );
}

function formerNames(entries: readonly BoundEntry[]): readonly string[] {
  return entries
    .filter((entry) => entry.word === W.was)
    .flatMap((entry) => namesOf(entry.slots.name));
}

function declarePlan(
  entry: BoundEntry,
  block: BlockId,
  mistakes: readonly NotationFinding[],
  former: PlanDeclaration | undefined,
): PlanDeclaration {
  const { body: _body, ...head } = entry;
  const fields = new Map<string, BoundEntry[]>([[W.plan, [head]]]);
  for (const field of entry.body?.entries ?? []) {
    const same = fields.get(field.word);
    if (same) same.push(field);
    else fields.set(field.word, [field]);
  }
  const misread = misreadAmong(entry.body?.entries ?? [], mistakes);
  if (misread.length > 0) fields.set(misreadLines, [...misread]);
  const kept = new Map<string, readonly BoundEntry[]>();
  for (const [word, entries] of fields) {
    kept.set(word, formerEntries(entries, former?.fields.get(word)));
  }
  return {
    title: nameOf(entry.slots.title),
    place: placeIn(block, entry.span),
    namePlace: placeIn(block, entry.wordSpan),
    fields: kept,
  };
}

// ---- links and channels as rows

function declareRows(
  entry: BoundEntry,
  block: BlockId,
  origin: Origin,
  mistakes: readonly NotationFinding[],
  previous: BlockDeclarations | undefined,
): Declaration[] {
  const kind = entry.word === W.links ? 'link' : 'channel';
  const pattern = entry.slots[K.as]?.[0];
  const patternName = pattern && nameOfValue(pattern);
  const headings = entry.body?.table?.headings ?? [];
  const fresh: TableDeclaration = {
    kind,
    title: nameOf(entry.slots.title),
    place: placeIn(block, entry.span),
    pattern:
      pattern && patternName !== undefined
        ? { name: patternName, place: placeIn(block, pattern.span) }
        : undefined,
    entries: entry.body?.entries ?? [],
    holes: holeValues(entry),
    headings,
    misread: misreadAmong(entry.body?.entries ?? [], mistakes),
    open: entry.body?.open ?? true,
  };
  const table = formerTable(fresh, previous?.declarations);
  const context = kind === 'link' ? W.link : W.channel;
  return (entry.body?.table?.rows ?? []).flatMap(
    (row, index) => declareRow(row, index, table, context, block, origin) ?? [],
  );
}

/** Values behind a pattern's name, by the name of their hole. */
export function holeValues(entry: BoundEntry): Map<string, Value> {
  const values = new Map<string, Value>();
  for (const [slot, [value]] of Object.entries(entry.slots)) {
    const hole = /^<(.*)>$/u.exec(slot)?.[1];
    if (hole !== undefined && value) values.set(hole, value);
  }
  return values;
}

function declareRow(
  row: BoundRow,
  index: number,
  table: TableDeclaration,
  context: typeof W.link | typeof W.channel,
  block: BlockId,
  origin: Origin,
): Declaration | undefined {
  let named: Value | undefined;
  let title: string | undefined;
  const entries: BoundEntry[] = [];
  const holes = new Map<string, Value>();
  for (const [column, heading] of table.headings.entries()) {
    const cell = row.cells[column];
    if (!cell || cell.kind === 'spoilt') continue;
    if (heading.kind === 'hole') holes.set(heading.name, cell);
    if (heading.kind !== 'word' || cell.kind === 'absent') continue;
    if (heading.word === context) named = cell;
    else if (heading.word === W.title) title = nameOfValue(cell);
    else if (heading.word !== W.remark) entries.push(...cellEntry(heading.word, cell, context));
  }
  const name = named && nameOfValue(named);
  if (!named || name === undefined) return undefined;
  return {
    kind: table.kind,
    name,
    title,
    origin,
    block,
    place: placeIn(block, row.span),
    namePlace: placeIn(block, named.span),
    entries,
    was: formerNames(entries),
    misread: [],
    open: table.open,
    table,
    ...(index === 0 && { first: true }),
    holes,
  };
}

/** A cell under a word's heading is an entry of that word, the cell its first argument. */
function cellEntry(word: string, cell: Value, context: 'link' | 'channel'): BoundEntry[] {
  const slot = findWord(word, context)?.forms[0].slots.find(({ keyword }) => !keyword);
  return slot
    ? [{ word, span: cell.span, wordSpan: cell.span, slots: { [slot.name]: [cell] } }]
    : [];
}

// ---- evidence

const isRowsKind = (word: string): word is RowsKind =>
  word === W.readings || word === W.events || word === W.inspection;

const isStatement = (word: string): word is StatementPart['kind'] =>
  word === W.work || word === W.withdraw || word === W.concession;

function declareStatement(
  entry: BoundEntry,
  kind: StatementPart['kind'],
  block: BlockId,
): EvidencePart[] {
  const object = entry.slots.object?.[0];
  const name = object && nameOfValue(object);
  if (!object || name === undefined) return [];
  const content: StatementPart = {
    kind,
    place: placeIn(block, entry.span),
    entries: entry.body?.entries ?? [],
  };
  return [{ object: name, block, objectPlace: placeIn(block, object.span), content }];
}

function declareEvidenceRows(
  entry: BoundEntry,
  kind: RowsKind,
  block: BlockId,
  previous: BlockDeclarations | undefined,
): EvidencePart[] {
  const table = entry.body?.table;
  const fresh: RowsHead = {
    kind,
    place: placeIn(block, entry.span),
    entries: entry.body?.entries ?? [],
    headings: table?.headings ?? [],
  };
  const head = formerHead(fresh, previous?.evidence);
  const object = entry.slots.object?.[0];
  const name = object && nameOfValue(object);
  const groups =
    object && name !== undefined
      ? [{ object: name, span: object.span, rows: table?.rows ?? [] }]
      : [...rowsByObject(table).values()];
  return groups.map((group) => ({
    object: group.object,
    block,
    objectPlace: placeIn(block, group.span),
    content: { kind, head, rows: new EvidenceRows(group.rows, head.headings) },
  }));
}

interface ObjectRows {
  readonly object: string;
  readonly span: Value['span'];
  readonly rows: BoundRow[];
}

function rowsByObject(table: BoundTable | undefined): Map<string, ObjectRows> {
  const groups = new Map<string, ObjectRows>();
  const column = table?.headings.findIndex(isObjectHeading) ?? -1;
  for (const row of table?.rows ?? []) {
    const cell = row.cells[column];
    const object = cell && nameOf([cell]);
    if (!cell || object === undefined) continue;
    const group = groups.get(object);
    if (group) group.rows.push(row);
    else groups.set(object, { object, span: cell.span, rows: [row] });
  }
  return groups;
}

const isObjectHeading = (heading: Heading): boolean =>
  heading.kind === 'word' && heading.word === W.link;
