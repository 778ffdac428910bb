/**
 * What the lines of two blocks say otherwise. A line is found again by its word
 * and key, as `like` finds it; one that may stand many times by what it says,
 * then by what most resembles it; lines of a path by their order.
 */
import type { BoundEntry } from '../../../../grammar/src/bound.ts';
import { type Context, findWord, K, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import type { Draft } from './draft.ts';
import { isOrdered } from './kinds.ts';
import { type About, lineEdits, spoken, type Telling } from './line.ts';
import { pathEdits } from './path.ts';
import type { Lines, Voice } from './side.ts';
import type { Shown } from './subjects.ts';
import { contents, entryContent, inRuns, printValue, slotContent, slotsOf } from './values.ts';

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
function unlike(
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
      inRuns([...new Set(all.flatMap((shown) => shown.get(slot) ?? []))]).join(', '),
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
