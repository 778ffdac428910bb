/**
 * Which thing of one state is which of the other: by its kind and name, by the
 * name that it says it had, by all that it says under another name, or by the
 * ports that it takes over where one became several or several one.
 */
import type { NameKind } from '../../../../grammar/src/bound.ts';
import { W } from '../../../../grammar/src/vocabulary/index.ts';
import { namesOf } from '../../model/values.ts';
import type { HeldBlock, Voice } from './side.ts';
import type { DeclaredUnit, RowUnit, TableUnit, Units } from './units.ts';
import { contents, entryContent, type Naming, plain, slotsOf } from './values.ts';

/** A declaration of its own, or a row. */
export type Thing = DeclaredUnit | RowUnit;

export interface Pair {
  readonly before: Thing;
  readonly after: Thing;
}

export interface Parted {
  readonly before: readonly Thing[];
  readonly after: readonly Thing[];
}

export interface Identities {
  readonly pairs: readonly Pair[];
  readonly gone: readonly Thing[];
  readonly fresh: readonly Thing[];
  /** One in several, or several in one: their other lines are told of each. */
  readonly parted: readonly Parted[];
  /** What is called otherwise now. */
  readonly renamed: readonly Pair[];
  /** A name of the old state as it is called in the new one. */
  readonly naming: Naming;
}

export const isRow = (thing: Thing): thing is RowUnit => 'head' in thing;
export const blockOf = (thing: Thing): HeldBlock => (isRow(thing) ? thing.head.block : thing.block);

/** Links, channels, rings and cables share one namespace. */
const objects: ReadonlySet<string> = new Set([W.link, W.channel, W.ring, W.cable, 'object']);
const spaceOf = (kind: string): string => (objects.has(kind) ? 'object' : kind);

/** Whether a kind has a thing of a name in a state, be it the library's. */
export type Stands = (kind: string, name: string) => boolean;

/** What said the same is no other name for it while either name means something on both sides. */
export function identify(before: Units, after: Units, stood: Stands, stands: Stands): Identities {
  const old = thingsOf(before);
  const now = thingsOf(after);
  const pairs: Pair[] = [];
  const renamed: Pair[] = [];

  const left = new Map<string, Thing[]>();
  for (const thing of now) add(left, `${thing.kind} ${thing.name}`, thing);
  let gone = old.filter((thing) => {
    const mate = left.get(`${thing.kind} ${thing.name}`)?.shift();
    if (mate) pairs.push({ before: thing, after: mate });
    return !mate;
  });
  let fresh = now.filter((thing) => left.get(`${thing.kind} ${thing.name}`)?.includes(thing));
  const parted: Parted[] = [];
  const settled = new Set<Thing>();
  for (const pair of sharedPorts(pairs, gone, fresh)) {
    parted.push(pair);
    for (const each of [...pair.before, ...pair.after]) settled.add(each);
  }

  // By the name that it says it had.
  const claims = new Map<string, Thing[]>();
  for (const thing of fresh) {
    for (const name of formerNames(thing)) add(claims, `${spaceOf(thing.kind)} ${name}`, thing);
  }
  for (const thing of gone) {
    if (settled.has(thing)) continue;
    const claimants = claims.get(`${spaceOf(thing.kind)} ${thing.name}`) ?? [];
    const [claimant] = claimants;
    if (!claimant) continue;
    const others = gone.filter(
      (other) =>
        other !== thing &&
        !settled.has(other) &&
        claims.get(`${spaceOf(other.kind)} ${other.name}`)?.includes(claimant),
    );
    if (settled.has(thing)) continue;
    if (claimants.length > 1) parted.push({ before: [thing], after: claimants });
    else if (others.length > 0) parted.push({ before: [thing, ...others], after: [claimant] });
    else {
      const pair = { before: thing, after: claimant };
      renamed.push(pair);
      pairs.push(pair);
    }
    for (const each of [thing, ...others, ...claimants]) settled.add(each);
  }
  [gone, fresh] = [gone, fresh].map((all) => all.filter((thing) => !settled.has(thing))) as [
    Thing[],
    Thing[],
  ];

  // By all that it says.
  const bodies = new Map<string, Thing[]>();
  for (const thing of fresh) add(bodies, bodyOf(thing), thing);
  for (const thing of gone) {
    if (stands(thing.kind, thing.name)) continue;
    const alike = bodies.get(bodyOf(thing)) ?? [];
    const index = alike.findIndex(({ kind, name }) => !stood(kind, name));
    const [mate] = index < 0 ? [] : alike.splice(index, 1);
    if (!mate) continue;
    const pair = { before: thing, after: mate };
    renamed.push(pair);
    pairs.push(pair);
    settled.add(thing).add(mate);
  }
  [gone, fresh] = [gone, fresh].map((all) => all.filter((thing) => !settled.has(thing))) as [
    Thing[],
    Thing[],
  ];

  // By the ports of both ends.
  for (const [whole, pieces, turned] of [
    ...gone.map((thing) => [thing, fresh, false] as const),
    ...fresh.map((thing) => [thing, gone, true] as const),
  ]) {
    if (settled.has(whole)) continue;
    const found = piecesOf(
      whole,
      pieces.filter((piece) => !settled.has(piece)),
    );
    if (found.length < 2) continue;
    parted.push(turned ? { before: found, after: [whole] } : { before: [whole], after: found });
    for (const each of [whole, ...found]) settled.add(each);
  }
  [gone, fresh] = [gone, fresh].map((all) => all.filter((thing) => !settled.has(thing))) as [
    Thing[],
    Thing[],
  ];

  const called = new Map<string, string>();
  for (const pair of renamed) {
    called.set(`${spaceOf(pair.before.kind)} ${pair.before.name}`, pair.after.name);
  }
  for (const each of parted) {
    const [first] = each.after;
    for (const thing of each.before) {
      if (each.after.length === 1) called.set(`${spaceOf(thing.kind)} ${thing.name}`, first!.name);
    }
  }
  const naming: Naming =
    called.size === 0
      ? plain
      : (name, of) => {
          for (const kind of of) {
            const now = called.get(`${spaceOf(kind)} ${name}`);
            if (now !== undefined) return now;
          }
          return name;
        };
  const whole = pairs.filter(
    ({ before: one }) => !parted.some((each) => each.before.includes(one)),
  );
  return { pairs: whole, gone, fresh, parted, renamed, naming };
}

/** A text in which what was renamed has its new name. */
export function speltNow(renamed: readonly Pair[]): (text: string) => string {
  if (renamed.length === 0) return (text) => text;
  const names = new Map(renamed.map(({ before, after }) => [before.name, after.name]));
  return (text) => text.replace(/[^\s",{}]+/gu, (run) => names.get(run) ?? run);
}

function thingsOf({ declared, tables }: Units): readonly Thing[] {
  return [...declared, ...tables.flatMap(({ rows }) => rows)];
}

function add<Key, Item>(map: Map<Key, Item[]>, key: Key, item: Item): void {
  const same = map.get(key);
  if (same) same.push(item);
  else map.set(key, [item]);
}

/** Names that it says it had. */
function formerNames(thing: Thing): readonly string[] {
  if (!isRow(thing)) {
    return (thing.entry.body?.entries ?? [])
      .filter(({ word }) => word === W.was)
      .flatMap(({ slots }) => namesOf(slots.name));
  }
  const column = thing.head.headings.findIndex(
    (heading) => heading.kind === 'word' && heading.word === W.was,
  );
  const cell = thing.row.cells[column];
  return cell ? namesOf([cell]) : [];
}

/** All that it says but its name; what says nothing of its own is found by its name alone. */
function bodyOf(thing: Thing): string {
  const block = blockOf(thing);
  const voice: Voice = { text: block.view.text, naming: plain };
  if (isRow(thing)) {
    const { headings, entry } = thing.head;
    const cells = thing.row.cells.flatMap((cell, index) => {
      const heading = headings[index];
      if (!heading || cell.kind === 'absent') return [];
      if (heading.kind === 'hole')
        return [`<${heading.name}>${contents([cell], undefined, voice)}`];
      if (heading.kind !== 'word' || heading.word === thing.kind) return [];
      return [`${heading.word} ${contents([cell], undefined, voice)}`];
    });
    return `${thing.kind} row ${contents(entry.slots.as ?? [], undefined, voice)} ${cells.sort().join(';')}`;
  }
  const entries = thing.entry.body?.entries ?? [];
  if (entries.length === 0) return `${thing.kind} ${thing.name}`;
  return `${thing.kind} ${entries
    .filter(({ word }) => word !== W.was)
    .map((entry) => entryContent(entry, thing.kind as NameKind as never, voice))
    .join(';')}`;
}

/** Of those that kept their name: one that left some of its ports to a new one, or took over those of one that is gone. */
function sharedPorts(
  pairs: readonly Pair[],
  gone: readonly Thing[],
  fresh: readonly Thing[],
): readonly Parted[] {
  if (gone.length === 0 && fresh.length === 0) return [];
  return pairs.flatMap(({ before, after }): Parted[] => {
    const parts = fresh.length === 0 ? [] : piecesOf(before, [after, ...fresh]);
    if (parts.length > 1 && parts.includes(after)) return [{ before: [before], after: parts }];
    const pieces = gone.length === 0 ? [] : piecesOf(after, [before, ...gone]);
    return pieces.length > 1 && pieces.includes(before) ? [{ before: pieces, after: [after] }] : [];
  });
}

/** Those of some that take over its ports of both ends, each port once; none where they are not all. */
function piecesOf(whole: Thing, candidates: readonly Thing[]): readonly Thing[] {
  const from = portsOf(whole, W.from);
  const to = portsOf(whole, W.to);
  if (from.size < 2 || to.size === 0) return [];
  const pieces = candidates.filter((piece) => {
    const ports = portsOf(piece, W.from);
    return (
      piece.kind === whole.kind && ports.size > 0 && [...ports].every((port) => from.has(port))
    );
  });
  const taken = pieces.flatMap((piece) => [...portsOf(piece, W.from)]);
  const ends = new Set(pieces.flatMap((piece) => [...portsOf(piece, W.to)]));
  const covers = taken.length === from.size && new Set(taken).size === from.size;
  return covers && ends.size === to.size && [...ends].every((port) => to.has(port)) ? pieces : [];
}

function portsOf(thing: Thing, word: string): ReadonlySet<string> {
  if (isRow(thing)) {
    const column = thing.head.headings.findIndex(
      (heading) => heading.kind === 'word' && heading.word === word,
    );
    const cell = thing.row.cells[column];
    return new Set(cell ? namesOf([cell]) : []);
  }
  const slot = [...slotsOf(word, W.link).keys()][0] ?? '';
  return new Set(
    (thing.entry.body?.entries ?? [])
      .filter((entry) => entry.word === word)
      .flatMap((entry) => namesOf(entry.slots[slot])),
  );
}

export interface TablePair {
  readonly before?: TableUnit;
  readonly after?: TableUnit;
}

/** Tables that hold the same rows, else those of the same pattern and title, in order. */
export function pairTables(
  before: readonly TableUnit[],
  after: readonly TableUnit[],
  pairs: readonly Pair[],
): readonly TablePair[] {
  const shared = new Map<TableUnit, Map<TableUnit, number>>();
  for (const { before: old, after: now } of pairs) {
    if (!isRow(old) || !isRow(now)) continue;
    const counts = shared.get(old.head) ?? new Map<TableUnit, number>();
    shared.set(old.head, counts.set(now.head, (counts.get(now.head) ?? 0) + 1));
  }
  const left = new Set(after);
  const found: TablePair[] = [];
  for (const table of before) {
    const likely =
      [...(shared.get(table) ?? [])]
        .sort(([, a], [, b]) => b - a)
        .map(([other]) => other)
        .find((other) => left.has(other)) ??
      [...left].find(
        (other) =>
          other.kind === table.kind &&
          other.pattern === table.pattern &&
          other.title === table.title,
      );
    if (likely) left.delete(likely);
    found.push(likely ? { before: table, after: likely } : { before: table });
  }
  for (const table of left) found.push({ after: table });
  return found;
}
