/**
 * What the lines of two blocks say otherwise. A line is found again by its word
 * and key, as `like` finds it; one that may stand many times by what it says,
 * then by what most resembles it; lines of a path by their order.
 */
import type { BoundEntry } from '../../../../grammar/src/bound.ts';
import { type Context, findWord, K, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import { type ChangeKind, changeKinds } from '../types.ts';
import type { Draft } from './draft.ts';
import { isBuilt, isOrdered, isRecorded, kindOf } from './kinds.ts';
import { pathEdits } from './path.ts';
import type { HeldBlock, Spot, Voice } from './side.ts';
import { phraseOf, type Shown, slotPhrase } from './subjects.ts';
import {
  contents,
  entryContent,
  printEntry,
  printValue,
  printValues,
  slotContent,
  slotsOf,
} from './values.ts';

/** Lines of one side, where they stand, and what they are of. */
export interface Lines {
  readonly block: HeldBlock;
  readonly entries: readonly BoundEntry[];
  readonly voice: Voice;
}

export interface About {
  /** `KQ-OPS-B3`, `cable C-101`, `the plan`. */
  readonly label: string;
  /** What of its block alone it concerns, as called in either state; by default all of it. */
  readonly objects?: readonly string[];
  /** Each line is a field of its own, and concerns who asks for it. */
  readonly fields?: true;
  /** Blocks of both states that it is a part of. */
  readonly beside?: readonly HeldBlock[];
  /** Words that are told otherwise. */
  readonly untold?: ReadonlySet<string>;
}

export function entryEdits(
  before: Lines,
  after: Lines,
  context: Context,
  about: About,
): readonly Draft[] {
  const here = { ...about, beside: [before.block, after.block] };
  const told = ({ word }: BoundEntry) => !about.untold?.has(word);
  const path = (entry: BoundEntry) => isOrdered(context, entry.word);
  const pick = (lines: Lines, keep: (entry: BoundEntry) => boolean): Lines => ({
    ...lines,
    entries: lines.entries.filter((entry) => told(entry) && keep(entry)),
  });
  return [
    ...looseEdits(
      pick(before, (entry) => !path(entry)),
      pick(after, (entry) => !path(entry)),
      context,
      here,
    ),
    ...pathEdits(pick(before, path), pick(after, path), context, here),
  ];
}

// ---- lines of which the order says nothing

function looseEdits(before: Lines, after: Lines, context: Context, about: About): Draft[] {
  const [old, now] = unlike(before, after, context);
  const keyed = (entry: BoundEntry) => keySlots(entry, context) !== undefined;
  return [
    ...keyedEdits(
      { ...before, entries: old.filter(keyed) },
      { ...after, entries: now.filter(keyed) },
      context,
      about,
    ),
    ...addingEdits(
      { ...before, entries: old.filter((entry) => !keyed(entry)) },
      { ...after, entries: now.filter((entry) => !keyed(entry)) },
      context,
      about,
    ),
  ];
}

/** What is left of both sides after lines that say the same, one for one. */
export function unlike(
  before: Lines,
  after: Lines,
  context: Context,
): [readonly BoundEntry[], readonly BoundEntry[]] {
  const same = new Map<string, number>();
  for (const entry of after.entries) {
    const content = entryContent(entry, context, after.voice);
    same.set(content, (same.get(content) ?? 0) + 1);
  }
  const taken = new Map<string, number>();
  const old = before.entries.filter((entry) => {
    const content = entryContent(entry, context, before.voice);
    const left = same.get(content) ?? 0;
    if (left === 0) return true;
    same.set(content, left - 1);
    taken.set(content, (taken.get(content) ?? 0) + 1);
    return false;
  });
  const now = after.entries.filter((entry) => {
    const content = entryContent(entry, context, after.voice);
    const left = taken.get(content) ?? 0;
    if (left === 0) return true;
    taken.set(content, left - 1);
    return false;
  });
  return [old, now];
}

/** Slots that make an entry the only one of its word; undefined for words that add. */
function keySlots(entry: BoundEntry, context: Context): readonly string[] | undefined {
  const word = findWord(entry.word, context);
  if (!word || word.times === '*' || word.times === '+') return undefined;
  return word.times === 'k' ? (word.key ?? []) : [];
}

interface Keyed {
  readonly entry: BoundEntry;
  readonly shown: Shown;
}

/** An entry once for each name of its key. */
function byKey({ entries, voice }: Lines, context: Context): Map<string, Keyed> {
  const found = new Map<string, Keyed>();
  for (const entry of entries) {
    let items: { key: string; shown: Map<string, string> }[] = [
      { key: entry.word, shown: new Map() },
    ];
    for (const slot of keySlots(entry, context) ?? []) {
      const parts = keyParts(entry, slot, context, voice);
      items = items.flatMap(({ key, shown }) =>
        parts.map(([content, text]) => ({
          key: `${key}\n${content}`,
          shown: text === '' ? shown : new Map([...shown, [slot, text]]),
        })),
      );
    }
    for (const { key, shown } of items) if (!found.has(key)) found.set(key, { entry, shown });
  }
  return found;
}

/** Each value of a key with how it is written; one empty value where the slot is missing. */
function keyParts(
  entry: BoundEntry,
  slot: string,
  context: Context,
  voice: Voice,
): readonly (readonly [string, string])[] {
  const values = entry.slots[slot];
  if (!values) return [['', '']];
  const kinds = slotsOf(entry.word, context).get(slot)?.kinds;
  return values.flatMap((value) => {
    const all = contents([value], kinds, voice);
    return all.length === 1
      ? [[all[0]!, printValue(value, voice.text)] as const]
      : all.map((content) => [content, content] as const);
  });
}

function keyedEdits(before: Lines, after: Lines, context: Context, about: About): Draft[] {
  const old = byKey(before, context);
  const now = byKey(after, context);
  /** Keys of one line told together. */
  const told = new Map<
    string,
    { old?: Keyed | undefined; now?: Keyed | undefined; shown: Shown[] }
  >();
  const order = new Map<BoundEntry, number>();
  const numberOf = (keyed: Keyed | undefined) => {
    if (!keyed) return -1;
    if (!order.has(keyed.entry)) order.set(keyed.entry, order.size);
    return order.get(keyed.entry)!;
  };
  for (const key of new Set([...old.keys(), ...now.keys()])) {
    const was = old.get(key);
    const is = now.get(key);
    const together = `${numberOf(was)} ${numberOf(is)}`;
    const same = told.get(together);
    if (same) same.shown.push((is ?? was)!.shown);
    else told.set(together, { old: was, now: is, shown: [(is ?? was)!.shown] });
  }
  return [...told.values()].flatMap((each) => {
    const shown = new Map([...joined(each.shown), ...alsoShown(each.old, each.now)]);
    return lineEdits(
      each.old && spoken(before, each.old.entry),
      each.now && spoken(after, each.now.entry),
      context,
      about,
      { shown, apart: new Set(keySlots((each.now ?? each.old)!.entry, context)) },
    );
  });
}

/** What else says which one it is: the name of a cord beside its role. */
function alsoShown(old: Keyed | undefined, now: Keyed | undefined): Shown {
  const [was, is] = [old, now].map((keyed) => keyed && nameOf(keyed.entry.slots.name));
  const name = was === undefined || was === is ? is : is === undefined ? was : undefined;
  return new Map(name === undefined ? [] : [['name', name]]);
}

/** Values of several keys, each once. */
function joined(all: readonly Shown[]): Shown {
  const slots = [...new Set(all.flatMap((shown) => [...shown.keys()]))];
  return new Map(
    slots.map((slot) => [
      slot,
      [...new Set(all.flatMap((shown) => shown.get(slot) ?? []))].join(', '),
    ]),
  );
}

/** Lines that may stand many times: paired by what most of them says, in their order. */
function addingEdits(before: Lines, after: Lines, context: Context, about: About): Draft[] {
  const drafts: Draft[] = [];
  const left = new Set(after.entries);
  const words = new Map<string, BoundEntry[]>();
  for (const entry of after.entries) {
    const same = words.get(entry.word);
    if (same) same.push(entry);
    else words.set(entry.word, [entry]);
  }
  const alone = new Map<string, number>();
  for (const { word } of before.entries) alone.set(word, (alone.get(word) ?? 0) + 1);
  for (const entry of before.entries) {
    const others = (words.get(entry.word) ?? []).filter((other) => left.has(other));
    const single = alone.get(entry.word) === 1 && words.get(entry.word)?.length === 1;
    const mate = likest(entry, others, context, before.voice, after.voice, single);
    if (mate) left.delete(mate);
    drafts.push(
      ...lineEdits(
        spoken(before, entry),
        mate && spoken(after, mate),
        context,
        about,
        asIdentified(entry, mate, context, before.voice, after.voice),
      ),
    );
  }
  for (const entry of after.entries) {
    if (!left.has(entry)) continue;
    drafts.push(
      ...lineEdits(
        undefined,
        spoken(after, entry),
        context,
        about,
        asIdentified(undefined, entry, context, before.voice, after.voice),
      ),
    );
  }
  return drafts;
}

/** Slots by which a line that may stand many times is known: nothing else of it says which it is. */
const identifying: Readonly<Record<string, readonly string[]>> = {
  [W.taken]: ['date', 'wavelength'],
  [W.checked]: ['date', 'wavelength'],
  [W.verified]: ['date', 'cord'],
  [W.disturbed]: ['date'],
  [W.carries]: ['application', K.fibres],
  [W.slack]: [K.at],
  [W.fibre]: ['fibre', K.reach],
  [W.wavelength]: ['wavelength', 'direction'],
};

/** The line that says most of the same; of a word that is there once on both sides, that one. */
function likest(
  entry: BoundEntry,
  others: readonly BoundEntry[],
  context: Context,
  voice: Voice,
  other: Voice,
  single: boolean,
): BoundEntry | undefined {
  let best: BoundEntry | undefined;
  let most = 0;
  for (const each of others) {
    const same = Object.keys(entry.slots).filter(
      (slot) =>
        slotContent(entry, slot, context, voice) === slotContent(each, slot, context, other),
    );
    const known = identifying[entry.word]?.filter((slot) => same.includes(slot)).length ?? 0;
    const score = same.length + known * 10;
    if (score > most) [best, most] = [each, score];
  }
  return best ?? (single ? others[0] : undefined);
}

function asIdentified(
  old: BoundEntry | undefined,
  now: BoundEntry | undefined,
  context: Context,
  before: Voice,
  after: Voice,
): Telling {
  const entry = (old ?? now)!;
  const shown = new Map<string, string>();
  for (const slot of identifying[entry.word] ?? []) {
    const values = entry.slots[slot];
    if (!values) continue;
    const other = old && now;
    if (
      other &&
      slotContent(old, slot, context, before) !== slotContent(now, slot, context, after)
    ) {
      continue;
    }
    shown.set(
      slot,
      values.map((value) => printValue(value, (old ? before : after).text)).join(', '),
    );
  }
  return { shown, apart: new Set(shown.keys()) };
}

// ---- one line

export interface SaidLine {
  readonly block: HeldBlock;
  readonly entry: BoundEntry;
  readonly voice: Voice;
}

export const spoken = ({ block, voice }: Lines, entry: BoundEntry): SaidLine => ({
  block,
  entry,
  voice,
});

export interface Telling {
  /** What says which line it is. */
  readonly shown: Shown;
  /** Slots that say which it is, so that they are not told as its value. */
  readonly apart: ReadonlySet<string>;
  /** What it is called, where that is not by word and key: `segment 2`. */
  readonly name?: string;
  /** Several of a word are told together by this. */
  readonly many?: string;
}

const spotOf = (line: SaidLine | undefined): Spot | undefined =>
  line && { block: line.block, span: line.entry.span };

/** What one line says otherwise, new or gone; its block is looked into. */
export function lineEdits(
  old: SaidLine | undefined,
  now: SaidLine | undefined,
  context: Context,
  about: About,
  telling: Telling,
): Draft[] {
  if (old && now) return changedLine(old, now, context, about, telling);
  const line = (now ?? old)!;
  const { entry, voice } = line;
  const apart = new Set(Object.keys(entry.slots).filter((slot) => !telling.apart.has(slot)));
  const text =
    printEntry(entry, context, voice.text, apart) || printEntry(entry, context, voice.text);
  const recorded = old !== undefined && isRecorded(context, entry.word);
  return [
    {
      kind: recorded ? 'evidence' : kindOfLine(context, entry.word, []),
      form: now ? 'new' : 'gone',
      subject: subject(context, entry.word, about, telling),
      ...(now ? { now: text } : { was: text }),
      before: spotOf(old),
      after: spotOf(now),
      ...concerned(about, entry.word),
      group: groupOf(context, entry.word, about, telling),
      ...(now && entry.word === W.repair && { work: true }),
      guarded: recorded
        ? 'reference-removed'
        : isPathWord(context, entry.word)
          ? 'path-changed-without-work'
          : undefined,
    },
  ];
}

function changedLine(
  old: SaidLine,
  now: SaidLine,
  context: Context,
  about: About,
  telling: Telling,
): Draft[] {
  const { word } = now.entry;
  const slots = [...new Set([...Object.keys(old.entry.slots), ...Object.keys(now.entry.slots)])];
  const differ = slots.filter(
    (slot) =>
      !(telling.apart.has(slot) && telling.shown.has(slot)) &&
      slotContent(old.entry, slot, context, old.voice) !==
        slotContent(now.entry, slot, context, now.voice),
  );
  const drafts: Draft[] = [];
  if (differ.length > 0) {
    const only = new Set(differ);
    const recorded = differ.some(
      (slot) => old.entry.slots[slot] && isRecorded(context, word, slot),
    );
    const bare = differ.length === 1 && slotPhrase(differ[0]!) !== undefined;
    const said = [old, now].map(({ entry, voice }) =>
      bare && entry.slots[differ[0]!]?.length
        ? printValues(entry.slots[differ[0]!]!, voice.text)
        : printEntry(entry, context, voice.text, only),
    );
    const whole = said.some((text) => text === '');
    const [was, is] = whole
      ? [old, now].map(({ entry, voice }) => printEntry(entry, context, voice.text))
      : said;
    drafts.push({
      kind: recorded ? 'evidence' : kindOfLine(context, word, differ),
      form: 'changed',
      subject: subject(context, word, about, telling, whole ? [] : differ),
      was,
      now: is,
      before: spotOf(old),
      after: spotOf(now),
      ...concerned(about, word),
      group: groupOf(context, word, about, telling),
      guarded: recorded
        ? 'reference-altered'
        : isPathWord(context, word)
          ? 'path-changed-without-work'
          : undefined,
    });
  }
  return [...drafts, ...bodyEdits(old, now, context, about, telling)];
}

/** Lines of a block inside: a repair, the outputs of a splitter. */
function bodyEdits(
  old: SaidLine,
  now: SaidLine,
  context: Context,
  about: About,
  telling: Telling,
): readonly Draft[] {
  const inner = findWord(now.entry.word, context)?.block;
  if (!inner || (!old.entry.body && !now.entry.body)) return [];
  const lines = ({ block, entry, voice }: SaidLine): Lines => ({
    block,
    entries: entry.body?.entries ?? [],
    voice,
  });
  const { fields, ...rest } = about;
  return entryEdits(lines(old), lines(now), inner, {
    ...rest,
    ...(fields && { objects: [now.entry.word] }),
    label:
      context === W.plan
        ? about.label
        : `${telling.name ?? phraseOf(context, now.entry.word, telling.shown)} of ${about.label}`,
  });
}

const importance = new Map(changeKinds.map((kind, index) => [kind, index]));

/** The most important kind of what differs in a line. */
function kindOfLine(context: Context, word: string, differ: readonly string[]): ChangeKind {
  const kinds = (differ.length === 0 ? [undefined] : differ).map(
    (slot) => kindOf(context, word, slot) ?? 'words',
  );
  return kinds.reduce((most, kind) =>
    importance.get(kind)! < importance.get(most)! ? kind : most,
  );
}

function isPathWord(context: Context, word: string): boolean {
  if (context === W.repair) return false;
  if (context === W.pattern) return isOrdered(context, word);
  const kind = kindOf(context, word);
  return kind !== undefined && isBuilt(kind) && pathContexts.has(context) && word !== W.wavelength;
}

const pathContexts: ReadonlySet<string> = new Set([
  W.link,
  W.channel,
  W.ring,
  W.links,
  W.channels,
  W.cable,
  W.split,
  W.out,
]);

export function concerned(
  { objects, fields, beside }: About,
  word: string,
): Pick<Draft, 'objects' | 'beside'> {
  const of = fields ? [word] : objects;
  return { ...(of && { objects: of }), ...(beside && { beside }) };
}

function subject(
  context: Context,
  word: string,
  about: About,
  telling: Telling,
  differ: readonly string[] = [],
): string {
  const slot =
    differ.length === 1 && slotsOf(word, context).size > 1 ? slotPhrase(differ[0]!) : undefined;
  const line = telling.name ?? phraseOf(context, word, telling.shown);
  const first = slot && slot !== line ? `${slot} of ${line}` : line;
  return `${first} ${context === W.limits ? 'in' : 'of'} ${about.label}`;
}

function groupOf(context: Context, word: string, about: About, telling: Telling): Draft['group'] {
  return {
    key: `${context} ${word}${telling.name === undefined ? [...telling.shown.values()].join() : ''}`,
    of: about.label,
    many: telling.many ?? phraseOf(context, word, telling.shown),
  };
}
