/**
 * What a value says, whatever its unit, its spelling and its layout, and how a
 * person reads it: two values are the same where their content is.
 */
import type { BoundEntry, NameKind, Value } from '../../../../grammar/src/bound.ts';
import {
  type Context,
  findWord,
  type Slot,
  type SlotKind,
  W,
  type WordEntry,
} from '../../../../grammar/src/vocabulary/index.ts';
import { clock, namesOf, wholesOf } from '../../model/values.ts';
import type { Voice } from './side.ts';

/** A name of one of some kinds, as it is called now. */
export type Naming = (name: string, of: readonly NameKind[]) => string;

/** Names as they are written. */
export const plain: Naming = (name) => name;

/** Lists of which the order says nothing. */
const sets: ReadonlySet<string> = new Set([
  W.limits,
  W.compare,
  W.measure,
  W.spare,
  W.dead,
  W.adopt,
  W.was,
]);

/** Longer ranges are compared as they are written. */
const longest = 4096;

/** Kinds of the names that a slot holds. */
function namedIn(kinds: readonly SlotKind[] | undefined): readonly NameKind[] {
  return (kinds ?? []).flatMap((kind) => (kind.kind === 'name' ? kind.of : []));
}

/** What each value of a list says, ranges member by member. */
export function contents(
  values: readonly Value[],
  kinds: readonly SlotKind[] | undefined,
  { text, naming }: Voice,
): string[] {
  const of = namedIn(kinds);
  return values.flatMap((value) => {
    switch (value.kind) {
      case 'name':
      case 'text':
      case 'choice':
        return [of.length > 0 ? naming(value.text, of) : value.text];
      case 'names':
        return value.last - value.first > longest
          ? [printValue(value, text)]
          : namesOf([value]).map((name) => naming(name, of));
      case 'whole':
        return [String(value.value)];
      case 'wholes':
        return value.last - value.first > longest
          ? [printValue(value, text)]
          : (wholesOf([value]) ?? []).map(String);
      case 'decimal':
        return [String(Number(value.digits))];
      case 'quantity':
        return [`${value.dimension}:${value.base}`];
      case 'map':
        return [value.named ?? (value.places ?? []).join(',')];
      default:
        return [printValue(value, text)];
    }
  });
}

/** As a person writes it, with its unit. */
export function printValue(value: Value, text: string): string {
  switch (value.kind) {
    case 'name':
    case 'choice':
      return value.text;
    case 'text':
      return `"${value.text}"`;
    case 'names':
      return `${value.prefix}${padded(value.first, value.width)}..${padded(value.last, value.width)}${stepOf(value)}`;
    case 'whole':
      return String(value.value);
    case 'wholes':
      return `${value.first}..${value.last}${stepOf(value)}`;
    case 'decimal':
      return value.digits;
    case 'quantity':
      return `${value.digits} ${value.unit.name}`;
    case 'date':
      return value.value.minutes === undefined
        ? value.value.day
        : `${value.value.day} ${clock(value.value.minutes)}`;
    case 'time':
      return clock(value.minutes);
    case 'direction':
      return value.value;
    case 'ratio':
      return `${value.first}:${value.second}`;
    case 'map':
      return value.named ?? (value.places ?? []).join(', ');
    case 'hole':
      return `<${value.name}>`;
    case 'absent':
      return '-';
    case 'dark':
      return value.kind;
    case 'spoilt':
      return text.slice(value.span.start, value.span.end).trim();
  }
}

const padded = (number: number, width: number): string => String(number).padStart(width, '0');
const stepOf = ({ step }: { readonly step: number }): string => (step === 1 ? '' : ` step ${step}`);

export function printValues(values: readonly Value[], text: string): string {
  return values.map((value) => printValue(value, text)).join(', ');
}

/** Whole numbers that follow each other as ranges: `1, 2, 3, 7` is `1..3, 7`. */
export function inRuns(texts: readonly string[]): readonly string[] {
  const runs: { first: string; last: string }[] = [];
  for (const text of texts) {
    const run = runs.at(-1);
    if (run && /^\d+$/u.test(text) && Number(text) === Number(run.last) + 1) run.last = text;
    else runs.push({ first: text, last: text });
  }
  return runs.map(({ first, last }) => (first === last ? first : `${first}..${last}`));
}

// ---- entries

/** What a slot of an entry says; undefined where it was not written. */
export function slotContent(
  entry: BoundEntry,
  slot: string,
  context: Context,
  voice: Voice,
): string | undefined {
  const values = entry.slots[slot];
  if (!values) return undefined;
  // What takes over its own name means the one that it shadows, however it is called itself.
  const ofItself =
    entry.word === W.like && values.some((value) => 'text' in value && value.text === voice.self);
  const said = contents(
    values,
    slotsOf(entry.word, context).get(slot)?.kinds,
    ofItself ? { ...voice, naming: plain } : voice,
  );
  return (sets.has(entry.word) ? said.sort() : said).join(', ');
}

/** All that an entry says, with its block. */
export function entryContent(entry: BoundEntry, context: Context, voice: Voice): string {
  const { word, body } = entry;
  if (word === '') return squeezed(voice.text.slice(entry.span.start, entry.span.end));
  const slots = Object.keys(entry.slots)
    .sort()
    .map((slot) => `${slot}=${slotContent(entry, slot, context, voice)}`);
  const inner = body
    ? `{${body.entries
        .map((each) => entryContent(each, findWord(word, context)?.block ?? context, voice))
        .join(';')}}`
    : '';
  return `${word} ${slots.join(' ')}${inner}`;
}

/** Some slots of an entry as a person writes them, in the order of the vocabulary; all of them if none are named. */
export function printEntry(
  entry: BoundEntry,
  context: Context,
  text: string,
  only?: ReadonlySet<string>,
): string {
  if (entry.word === '') return squeezed(text.slice(entry.span.start, entry.span.end));
  const form = formOf(entry, context);
  const more = Object.keys(entry.slots).filter((name) => !form.some((slot) => slot.name === name));
  return [...form, ...more.map((name) => ({ name, keyword: holeOf(name), kinds: undefined }))]
    .filter(({ name }) => entry.slots[name] && (!only || only.has(name)))
    .map(({ name, keyword, kinds }) => {
      const alone = keyword !== undefined && kinds?.length === 0;
      const values = alone ? '' : printValues(entry.slots[name] ?? [], text);
      return [keyword, values].filter(Boolean).join(' ');
    })
    .join(' ');
}

/** The hole whose value stands in a slot. */
export function holeOf(slot: string): string | undefined {
  return /^<(.+)>$/u.exec(slot)?.[1];
}

/** The form that holds most of what was written. */
function formOf(entry: BoundEntry, context: Context): readonly Slot[] {
  const forms = findWord(entry.word, context)?.forms ?? [];
  const held = (slots: readonly Slot[]) => slots.filter(({ name }) => entry.slots[name]).length;
  return forms.reduce<readonly Slot[]>(
    (best, { slots }) => (held(slots) > held(best) ? slots : best),
    forms[0]?.slots ?? [],
  );
}

const slotsByWord = new WeakMap<WordEntry, ReadonlyMap<string, Slot>>();

export function slotsOf(word: string, context: Context): ReadonlyMap<string, Slot> {
  const known = findWord(word, context);
  if (!known) return new Map();
  let slots = slotsByWord.get(known);
  if (!slots) {
    slots = new Map(known.forms.flatMap((form) => form.slots.map((slot) => [slot.name, slot])));
    slotsByWord.set(known, slots);
  }
  return slots;
}

/** Blanks as one, without a comment at the end. */
function squeezed(text: string): string {
  return text
    .replace(/\s#.*$/gmu, '')
    .replace(/\s+/gu, ' ')
    .trim();
}
