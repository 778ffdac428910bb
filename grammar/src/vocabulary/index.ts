/**
 * The vocabulary: one typed table of the words of the notation. Binding,
 * completion, hover, signatures, highlighting and the word pages read it.
 */
import { cableWords } from './cables.ts';
import { changeWords } from './changes.ts';
import { doubtWords } from './doubts.ts';
import { everywhere } from './everywhere.ts';
import { evidenceWords } from './evidence.ts';
import { faceWords } from './faces.ts';
import type { Context, Form, Slot, SlotKind, TableSpec, WordEntry } from './kinds.ts';
import { launchWords } from './launches.ts';
import { limitWords } from './limits.ts';
import { partWords } from './parts.ts';
import { pathWords } from './paths.ts';
import { planWords } from './plan.ts';
import { setupWords } from './setup.ts';
import { canonical } from './spelling.ts';
import { tables } from './tables.ts';

export type {
  Column,
  Context,
  Form,
  Slot,
  SlotKind,
  TableSpec,
  Times,
  WordEntry,
} from './kinds.ts';
export { figureNames } from './kinds.ts';
export { elementWords } from './paths.ts';
export { saysDark, soughtAs } from './sought.ts';
export * from './spelling.ts';

/** Every word, once for each meaning that it has. */
export const vocabulary: readonly WordEntry[] = [
  ...planWords,
  ...doubtWords,
  ...changeWords,
  ...partWords,
  ...launchWords,
  ...faceWords,
  ...cableWords,
  ...limitWords,
  ...setupWords,
  ...pathWords,
  ...evidenceWords,
  ...everywhere,
];

export { tables };

const byContext = new Map<Context, Map<string, WordEntry>>();
const byWord = new Map<string, WordEntry[]>();
for (const entry of vocabulary) {
  for (const context of entry.contexts) {
    const words = byContext.get(context) ?? new Map<string, WordEntry>();
    byContext.set(context, words.set(entry.word, entry));
  }
  const same = byWord.get(entry.word);
  if (same) same.push(entry);
  else byWord.set(entry.word, [entry]);
}
const orderedByContext = new Map(
  [...byContext].map(([context, words]) => [context, [...words.values()]]),
);
const neededByContext = new Map(
  [...orderedByContext].map(([context, words]) => [
    context,
    words.filter((entry) => entry.times === '1' || entry.times === '+' || entry.needed),
  ]),
);
const tableByContext = new Map(tables.map((table) => [table.context, table]));

/** The meaning of a word where it stands; any of its spellings. */
export function findWord(text: string, context: Context): WordEntry | undefined {
  return byContext.get(context)?.get(canonical(text));
}

/** All words that may stand in a context, in the order of the vocabulary. */
export function wordsIn(context: Context): readonly WordEntry[] {
  return orderedByContext.get(context) ?? [];
}

/** The words that a block of a context cannot do without. */
export function neededIn(context: Context): readonly WordEntry[] {
  return neededByContext.get(context) ?? [];
}

/** Every meaning of a word, in whatever context. */
export function meaningsOf(text: string): readonly WordEntry[] {
  return byWord.get(canonical(text)) ?? [];
}

/** The slots of all forms of a word in a context, for documentation and signatures. */
export function slotsOf(text: string, context: Context): readonly Slot[] {
  return findWord(text, context)?.forms.flatMap((form) => form.slots) ?? [];
}

/** The table that blocks of a context end in. */
export function tableOf(context: Context): TableSpec | undefined {
  return tableByContext.get(context);
}

/** The slot in which the value of a hole stands, of words that fill holes: `<length>`. */
export const holeSlot = (hole: string): string => `<${hole}>`;

/** One form as a signature shows it: `segment CABLE [fibres NS…] [length LEN]`. */
export function signature(entry: WordEntry, form: Form = entry.forms[0]): string {
  const parts: string[] = [];
  for (const slot of form.slots) {
    const before = slot.after === undefined ? undefined : parts.at(-1);
    // What stands only behind an argument that may be left out is left out with it.
    if (before?.endsWith(']')) parts.push(`${parts.pop()?.slice(0, -1)} ${slotLabel(slot)}]`);
    else parts.push(slotLabel(slot));
  }
  if (form.holes) parts.push('[hole VALUE]…');
  if (entry.block) parts.push(entry.blockOptional ? '[{ … }]' : '{');
  return [entry.word, ...parts].join(' ');
}

/** One slot as a signature shows it: `[fibres NS…]`. */
export function slotLabel(slot: Slot): string {
  const value = `${slot.label}${slot.many ? '…' : ''}`;
  const written = [slot.keyword, value].filter(Boolean).join(' ');
  return slot.required ? written : `[${written}]`;
}

/** The choices of a slot, if it has any. */
export function choicesOf(kinds: readonly SlotKind[]): readonly string[] {
  return kinds.flatMap((kind) => (kind.kind === 'choice' ? kind.choices : []));
}
