/**
 * Takes the former object of a block for each new one of equal content, and
 * moves it to where the new one stands.
 */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import type { Declaration, EvidencePart, RowsHead, TableDeclaration } from './declaration.ts';
import {
  moveEntries,
  moveHoles,
  moveItems,
  moveSpan,
  sameEntries,
  sameHeadings,
  sameHoles,
} from './moved.ts';

export function formerDeclarations(
  now: readonly Declaration[],
  former: readonly Declaration[] | undefined,
): readonly Declaration[] {
  return takeFormer(
    now,
    former,
    (each) => `${each.kind} ${each.name}`,
    sameDeclaration,
    moveDeclaration,
  );
}

export function formerEvidence(
  now: readonly EvidencePart[],
  former: readonly EvidencePart[] | undefined,
): readonly EvidencePart[] {
  return takeFormer(
    now,
    former,
    (each) => `${each.content.kind} ${each.object}`,
    samePart,
    movePart,
  );
}

/** The head of rows, if one of the former ones is equal. */
export function formerHead(now: RowsHead, former: readonly EvidencePart[] = []): RowsHead {
  const heads = new Set<RowsHead>();
  for (const { content } of former) if ('rows' in content) heads.add(content.head);
  for (const head of heads) {
    if (head.kind !== now.kind || !sameHeadings(head.headings, now.headings)) continue;
    if (!sameEntries(head.entries, now.entries)) continue;
    moveSpan(head.place.span, now.place.span);
    moveEntries(head.entries, now.entries);
    moveItems(head.headings, now.headings);
    return head;
  }
  return now;
}

/** What rows have in common, if one of the former ones is equal. */
export function formerTable(
  now: TableDeclaration,
  former: readonly Declaration[] = [],
): TableDeclaration {
  const tables = new Set<TableDeclaration>();
  for (const { table } of former) if (table) tables.add(table);
  for (const table of tables) {
    if (!sameTable(table, now)) continue;
    moveSpan(table.place.span, now.place.span);
    if (table.pattern && now.pattern) moveSpan(table.pattern.place.span, now.pattern.place.span);
    moveEntries(table.entries, now.entries);
    moveHoles(table.holes, now.holes);
    moveItems(table.headings, now.headings);
    return table;
  }
  return now;
}

/** Entries of a plan field, if the former ones are equal. */
export function formerEntries(
  now: readonly BoundEntry[],
  former: readonly BoundEntry[] | undefined,
): readonly BoundEntry[] {
  if (!former || !sameEntries(former, now)) return now;
  moveEntries(former, now);
  return former;
}

/** Matched by key, those of one key in order. */
function takeFormer<Item>(
  now: readonly Item[],
  former: readonly Item[] | undefined,
  keyOf: (item: Item) => string,
  same: (former: Item, now: Item) => boolean,
  move: (former: Item, now: Item) => void,
): readonly Item[] {
  if (!former || former.length === 0) return now;
  const byKey = new Map<string, Item[]>();
  for (const item of former) {
    const key = keyOf(item);
    const others = byKey.get(key);
    if (others) others.push(item);
    else byKey.set(key, [item]);
  }
  return now.map((item) => {
    const candidates = byKey.get(keyOf(item)) ?? [];
    const index = candidates.findIndex((candidate) => same(candidate, item));
    if (index < 0) return item;
    const [kept] = candidates.splice(index, 1);
    move(kept!, item);
    return kept!;
  });
}

function sameTable(a: TableDeclaration, b: TableDeclaration): boolean {
  return (
    a.kind === b.kind &&
    a.title === b.title &&
    a.open === b.open &&
    a.pattern?.name === b.pattern?.name &&
    a.misread.length === b.misread.length &&
    sameHeadings(a.headings, b.headings) &&
    sameHoles(a.holes, b.holes) &&
    sameEntries(a.entries, b.entries)
  );
}

function sameDeclaration(a: Declaration, b: Declaration): boolean {
  return (
    a.kind === b.kind &&
    a.name === b.name &&
    a.title === b.title &&
    a.origin === b.origin &&
    a.block === b.block &&
    a.open === b.open &&
    a.table === b.table &&
    a.first === b.first &&
    a.misread.length === b.misread.length &&
    sameHoles(a.holes, b.holes) &&
    sameEntries(a.entries, b.entries)
  );
}

function moveDeclaration(kept: Declaration, now: Declaration): void {
  moveSpan(kept.place.span, now.place.span);
  moveSpan(kept.namePlace.span, now.namePlace.span);
  moveEntries(kept.entries, now.entries);
  moveHoles(kept.holes, now.holes);
}

function samePart(a: EvidencePart, b: EvidencePart): boolean {
  if (a.object !== b.object || a.block !== b.block) return false;
  const [before, now] = [a.content, b.content];
  if ('rows' in before || 'rows' in now) {
    return (
      'rows' in before && 'rows' in now && before.head === now.head && before.rows.equals(now.rows)
    );
  }
  return before.kind === now.kind && sameEntries(before.entries, now.entries);
}

function movePart(kept: EvidencePart, now: EvidencePart): void {
  moveSpan(kept.objectPlace.span, now.objectPlace.span);
  const [before, after] = [kept.content, now.content];
  if ('rows' in before && 'rows' in after) {
    before.rows.moveTo(after.rows);
  } else if ('entries' in before && 'entries' in after) {
    moveSpan(before.place.span, after.place.span);
    moveEntries(before.entries, after.entries);
  }
}
