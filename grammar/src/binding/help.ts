/** What is said of a word to people: how often it stands, and each of its arguments. Pages and hovers share it. */
import type { Form, Slot, Times, WordEntry } from '../vocabulary/index.ts';
import { slotLabel } from '../vocabulary/index.ts';
import { describe } from './wording.ts';

const timesText: Readonly<Record<Times, string>> = {
  '1': 'once, required',
  '?': 'at most once',
  '+': 'once or more',
  '*': 'any number of times',
  k: 'once for each key',
};

/** How often an entry stands in a block: `once for each WL and for`. */
export function timesOf(entry: WordEntry): string {
  const slots = entry.forms.flatMap((form: Form) => form.slots);
  const keys = entry.key?.map((name) => {
    const slot = slots.find((one) => one.name === name);
    return `\`${slot?.keyword ?? slot?.label ?? name}\``;
  });
  const times =
    keys && entry.times === 'k' ? `once for each ${listed(keys)}` : timesText[entry.times];
  return entry.needed ? `${times}, at least one` : times;
}

/** Its arguments, a line each: as the signature shows it, and what may stand there. */
export function argumentsOf(entry: WordEntry): readonly string[] {
  return [...new Set(entry.forms.flatMap((form) => form.slots.map(argument)))];
}

function argument(slot: Slot): string {
  const label = `- \`${slotLabel(slot)}\``;
  if (slot.kinds.length === 0) return `${label}: a keyword alone`;
  return `${label}: ${slot.many ? 'a list, each ' : ''}${describe(slot.kinds)}`;
}

const listed = (keys: readonly string[]): string =>
  keys.length < 2 ? keys.join('') : `${keys.slice(0, -1).join(', ')} and ${keys.at(-1)}`;

/** A text as a sentence of its own. */
export const asSentence = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
