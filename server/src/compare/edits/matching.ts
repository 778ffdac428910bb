/** Which cell of evidence is which cell of the other state, and what of it differs. */
import { type EvidenceCell, keyOf } from './cells.ts';
import type { HeldBlock } from './side.ts';

export interface Altered {
  readonly before: EvidenceCell;
  readonly after: EvidenceCell;
}

export interface Matched {
  readonly altered: readonly (Altered & { readonly by: Attribute })[];
  /** Who measured it, or what is remarked, is said otherwise. */
  readonly aside: readonly Altered[];
  readonly gone: readonly EvidenceCell[];
  readonly fresh: readonly EvidenceCell[];
  /** Blocks of the old text with the blocks that most of their cells are in now. */
  readonly partners: Partners;
}

export type Partners = ReadonlyMap<HeldBlock, HeldBlock>;

export const turned = (partners: Partners): Partners =>
  new Map([...partners].map(([before, after]) => [after, before]));

export type Attribute = 'value' | 'event' | 'time' | 'set-up' | 'heading' | 'object';

const same = (cell: EvidenceCell): string =>
  [
    keyOf(cell),
    cell.where,
    cell.time,
    cell.until,
    cell.setup,
    cell.content,
    cell.by,
    cell.remark,
  ].join('\n');

/** What is held equal while one thing may differ, the likeliest first. */
const rounds: readonly (readonly [Attribute | 'aside', (cell: EvidenceCell) => string])[] = [
  ['aside', (c) => [keyOf(c), c.where, c.time, c.until, c.setup, c.content].join('\n')],
  ['value', (c) => [keyOf(c), c.where, c.time, c.setup].join('\n')],
  ['event', (c) => [keyOf(c), c.time, c.setup, c.content].join('\n')],
  ['value', (c) => [keyOf(c), c.time, c.setup].join('\n')],
  ['time', (c) => [keyOf(c), c.where, c.setup, c.content].join('\n')],
  ['set-up', (c) => [keyOf(c), c.where, c.time, c.content].join('\n')],
  [
    'heading',
    (c) =>
      [c.object, c.fibre ?? '', c.end ?? '', c.time, c.setup, c.content.split(':').pop()].join(
        '\n',
      ),
  ],
];

export function match(old: readonly EvidenceCell[], now: readonly EvidenceCell[]): Matched {
  const counts = new Map<HeldBlock, Map<HeldBlock, number>>();
  const note = ({ before, after }: Altered) => {
    const to = counts.get(before.block) ?? new Map<HeldBlock, number>();
    counts.set(before.block, to.set(after.block, (to.get(after.block) ?? 0) + 1));
  };
  let [gone, fresh] = pairs(old, now, same, note);
  const altered: (Altered & { by: Attribute })[] = [];
  const aside: Altered[] = [];
  const headed = exchangedColumns(gone, fresh);
  for (const pair of headed) {
    note(pair);
    altered.push({ ...pair, by: 'heading' });
  }
  [gone, fresh] = without(gone, fresh, headed);
  for (const [by, key] of rounds) {
    [gone, fresh] = pairs(gone, fresh, key, (pair) => {
      note(pair);
      if (by === 'aside') aside.push(pair);
      else if (by === 'value' && pair.before.content === pair.after.content) {
        altered.push({ ...pair, by: 'time' });
      } else altered.push({ ...pair, by });
    });
  }
  const moved = ofOtherObject(gone, fresh);
  for (const pair of moved) {
    note(pair);
    altered.push({ ...pair, by: 'object' });
  }
  [gone, fresh] = without(gone, fresh, moved);
  const partners = new Map(
    [...counts].map(([block, to]) => [block, [...to].sort(([, a], [, b]) => b - a)[0]![0]]),
  );
  return { altered, aside, gone, fresh, partners };
}

function without(
  old: readonly EvidenceCell[],
  now: readonly EvidenceCell[],
  taken: readonly Altered[],
): [readonly EvidenceCell[], readonly EvidenceCell[]] {
  if (taken.length === 0) return [old, now];
  const left = new Set(taken.map(({ before }) => before));
  const right = new Set(taken.map(({ after }) => after));
  return [old.filter((cell) => !left.has(cell)), now.filter((cell) => !right.has(cell))];
}

/** Fewer that are alike may be so by chance. */
const fewest = 3;

/** All that was left of one object, as another's now: a block that named the wrong one. */
function ofOtherObject(
  old: readonly EvidenceCell[],
  now: readonly EvidenceCell[],
): readonly Altered[] {
  const found: Altered[] = [];
  pairs(old, now, keyApartFromObject, (pair) => found.push(pair));
  return grouped(found, ({ before, after }) => `${before.object}\n${after.object}`)
    .filter((group) => {
      const { object } = group[0]!.before;
      const whole = old.filter((cell) => cell.object === object).length;
      return group.length >= fewest && group.length === whole;
    })
    .flat();
}

const keyApartFromObject = (c: EvidenceCell): string =>
  [keyOf({ ...c, object: '' }), c.where, c.time, c.setup, c.content].join('\n');

/**
 * Columns of one block that stand under another heading, value for value: two
 * headings were exchanged, or one was put right.
 */
function exchangedColumns(
  old: readonly EvidenceCell[],
  now: readonly EvidenceCell[],
): readonly Altered[] {
  const column = (cell: EvidenceCell) =>
    [cell.what, cell.wavelength ?? '', cell.direction ?? ''].join(' ');
  const row = (cell: EvidenceCell) =>
    [cell.object, cell.fibre ?? '', cell.end ?? '', cell.time].join(' ');
  const content = (cells: readonly EvidenceCell[]) =>
    cells.map((cell) => `${row(cell)} ${cell.content}`).join('\n');
  const columns = (cells: readonly EvidenceCell[]) =>
    grouped(cells, (cell) => `${cell.block.order} ${column(cell)}`);
  const left = new Map(columns(now).map((cells) => [content(cells), cells]));
  return columns(old).flatMap((cells) => {
    const mates = cells.length > 1 ? left.get(content(cells)) : undefined;
    if (!mates || column(mates[0]!) === column(cells[0]!)) return [];
    left.delete(content(cells));
    return cells.map((before, index) => ({ before, after: mates[index]! }));
  });
}

/** Takes pairs of equal key out of both lists, those of one key in order. */
function pairs(
  old: readonly EvidenceCell[],
  now: readonly EvidenceCell[],
  key: (cell: EvidenceCell) => string,
  found: (pair: Altered) => void,
): [readonly EvidenceCell[], readonly EvidenceCell[]] {
  if (old.length === 0 || now.length === 0) return [old, now];
  const byKey = new Map<string, EvidenceCell[]>();
  for (const cell of now) {
    const each = key(cell);
    const others = byKey.get(each);
    if (others) others.push(cell);
    else byKey.set(each, [cell]);
  }
  const taken = new Set<EvidenceCell>();
  const left = old.filter((cell) => {
    const mate = byKey.get(key(cell))?.shift();
    if (!mate) return true;
    taken.add(mate);
    found({ before: cell, after: mate });
    return false;
  });
  return [left, taken.size === 0 ? now : now.filter((cell) => !taken.has(cell))];
}

export function grouped<Item>(items: readonly Item[], key: (item: Item) => string): Item[][] {
  return [...listed(items, key).values()];
}

/** Items of one key together, in their order. */
export function listed<Item>(
  items: readonly Item[],
  key: (item: Item) => string,
): ReadonlyMap<string, Item[]> {
  const lists = new Map<string, Item[]>();
  for (const item of items) {
    const same = lists.get(key(item));
    if (same) same.push(item);
    else lists.set(key(item), [item]);
  }
  return lists;
}
