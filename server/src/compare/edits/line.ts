/** What one line says otherwise, new or gone: its kind, its words, and what stands in its block. */
import type { BoundEntry } from '../../../../grammar/src/bound.ts';
import { type Context, findWord, W } from '../../../../grammar/src/vocabulary/index.ts';
import { type ChangeKind, changeKinds } from '../types.ts';
import type { Draft, Thing } from './draft.ts';
import { entryEdits } from './entries.ts';
import { isBuilt, isOrdered, isRecorded, kindOf } from './kinds.ts';
import type { HeldBlock, Lines, Spot, Voice } from './side.ts';
import { phraseOf, type Shown, slotPhrase } from './subjects.ts';
import { holeOf, printEntry, printValues, slotContent, slotsOf } from './values.ts';

export interface About {
  /** `KQ-OPS-B3`, `cable C-101`, `the plan`. */
  readonly label: string;
  /** The declaration that it is a line of, where it is one of its own. */
  readonly thing?: Thing;
  /** What of its block alone it concerns, as called in either state; by default all of it. */
  readonly objects?: readonly string[];
  /** Each line is a field of its own, and concerns who asks for it. */
  readonly fields?: true;
  /** Blocks of both states that it is a part of. */
  readonly beside?: readonly HeldBlock[];
  /** Words that are told otherwise. */
  readonly untold?: ReadonlySet<string>;
}

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
    printEntry(entry, context, voice.text, apart) ||
    linesIn(entry, context, voice.text) ||
    printEntry(entry, context, voice.text);
  // A line by which recorded work is of fewer fibres is no addition to it.
  const narrows = context === W.work && entry.word === W.fibres;
  const recorded = (old !== undefined || narrows) && isRecorded(context, entry.word);
  return [
    {
      kind: recorded ? 'evidence' : kindOfLine(context, entry.word, []),
      form: now ? 'new' : 'gone',
      subject: subject(context, entry.word, about, telling),
      ...(text !== '' && (now ? { now: text } : { was: text })),
      before: spotOf(old),
      after: spotOf(now),
      ...concerned(about, entry.word),
      group: groupOf(context, entry.word, about, telling),
      ...(now && entry.word === W.repair && { work: true }),
      guarded: recorded
        ? guardOfRecord(context, entry.word, 'gone')
        : isPathWord(context, entry.word)
          ? 'path-changed-without-work'
          : undefined,
    },
  ];
}

/** By which rule a line is guarded that was recorded when it happened. */
function guardOfRecord(context: Context, word: string, form: 'gone' | 'changed'): Draft['guarded'] {
  // A line of work that is gone leaves the work, which is of other fibres then, or of another day.
  if (context === W.work || context === W.repair) return 'work-altered';
  const gone = form === 'gone';
  if (word === W.repair) return gone ? 'work-removed' : 'work-altered';
  return gone ? 'reference-removed' : 'reference-altered';
}

/** So many lines of a block are said; of more, that there are more. */
const most = 6;

/** What stands in the block of a line that says nothing of its own: a repair, rules, bounds. */
function linesIn({ word, body }: BoundEntry, context: Context, text: string): string {
  const inner = findWord(word, context)?.block;
  if (!body || !inner) return '';
  const lines = body.entries.map((each) =>
    [each.word, printEntry(each, inner, text)].filter(Boolean).join(' '),
  );
  return [...lines.slice(0, most), ...(lines.length > most ? ['…'] : [])].join(', ');
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
      ...(was === is && { note: 'What is named so is another thing now, or none.' }),
      before: spotOf(old),
      after: spotOf(now),
      ...concerned(about, word),
      group: groupOf(context, word, about, telling),
      guarded: recorded
        ? guardOfRecord(context, word, 'changed')
        : // A joint that is called otherwise is the joint it was.
          isPathWord(context, word) && kindOfLine(context, word, differ) !== 'words'
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
    (slot) =>
      // What fills a hole is mostly a length.
      (slot !== undefined && holeOf(slot) !== undefined && pathContexts.has(context)
        ? 'medium'
        : kindOf(context, word, slot)) ?? 'words',
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
  { objects, fields, beside, thing }: About,
  word: string,
): Pick<Draft, 'objects' | 'beside' | 'thing'> {
  const of = fields ? [word] : objects;
  return { ...(of && { objects: of }), ...(beside && { beside }), ...(thing && { thing }) };
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
    ...(word === '' && { loose: true as const }),
    key: `${context} ${word}${telling.name === undefined ? [...telling.shown.values()].join() : ''}`,
    of: about.label,
    many: telling.many ?? phraseOf(context, word, telling.shown),
  };
}
