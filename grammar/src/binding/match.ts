/**
 * Matches an entry with the form of its word that fits best: the one that its
 * first argument opens, else the one whose slots it fills with the fewest mistakes.
 */
import type { Value } from '../bound.ts';
import type { Argument, Entry } from '../tree.ts';
import type { Form, Slot, WordEntry } from '../vocabulary/index.ts';
import { fillSlots } from './slots.ts';
import { has, type Mistake, readValue, type Where } from './values.ts';

export interface Match {
  readonly form: Form;
  readonly slots: Record<string, readonly Value[]>;
  readonly mistakes: readonly Mistake[];
  /** Slots that could still be written behind the last argument, in order. */
  readonly pending: () => readonly Slot[];
  /** The slot whose value the next argument has to be: behind a keyword, or behind a comma. */
  readonly awaiting?: Slot | undefined;
}

export interface Token {
  readonly argument: Argument;
  /** A comma stands before it. */
  readonly comma: boolean;
}

/** Matches an entry with the form of its word that fits best. */
export function matchEntry(entry: Entry, word: WordEntry, where: Where): Match {
  const tokens = tokensOf(entry);
  const forms = word.forms.length === 1 ? word.forms : likelyForms(word, tokens[0], where);
  let best: Match | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const form of forms) {
    const match = fillSlots(word, form, tokens, entry, where);
    if (forms.length === 1) return match;
    const weight = weigh(match, tokens[0], where);
    if (weight < least) {
      best = match;
      least = weight;
    }
  }
  const match = best as Match;
  return match.mistakes[0]?.name === 'unknown-choice'
    ? withAllChoices(match, word, tokens, where)
    : match;
}

/** The one form that the first argument opens, or all of them where that does not decide. */
function likelyForms(word: WordEntry, first: Token | undefined, where: Where): readonly Form[] {
  if (!first) return word.forms.slice(0, 1);
  const open: Form[] = [];
  let near = false;
  for (const form of word.forms) {
    const reading = readValue(first.argument, form.slots[0]?.kinds ?? [], where);
    if ('value' in reading) open.push(form);
    else near ||= isNear(reading.mistake);
  }
  return open.length === 1 && !near ? open : word.forms;
}

/** A number without unit, or a word almost spelt: meant for this slot though it does not fit. */
const isNear = ({ name, details }: Mistake): boolean =>
  name === 'missing-unit' || details.nearest !== undefined;

/** Where the first argument is none of a form's choices: says those of all forms. */
function withAllChoices(
  match: Match,
  word: WordEntry,
  tokens: readonly Token[],
  where: Where,
): Match {
  const argument = tokens[0]?.argument;
  if (!argument || match.mistakes[0]?.span !== argument.span) return match;
  const kinds = word.forms.flatMap((form) => form.slots[0]?.kinds ?? []);
  const reading = readValue(argument, kinds, where);
  if (!('mistake' in reading)) return match;
  return { ...match, mistakes: [reading.mistake, ...match.mistakes.slice(1)] };
}

/** Arguments of all lists in one row. */
export function tokensOf(entry: Entry): Token[] {
  const tokens: Token[] = [];
  entry.lists.forEach((list, index) => {
    list.arguments.forEach((argument, place) => {
      tokens.push({ argument, comma: index > 0 && place === 0 });
    });
  });
  return tokens;
}

/** Less is better: mistakes first, then how well the first argument opens the form. */
function weigh(match: Match, first: Token | undefined, where: Where): number {
  const slot = match.form.slots[0];
  let opening = 3;
  if (first && slot) {
    const { argument } = first;
    const reading = readValue(argument, slot.kinds, where);
    // a number without unit, or a word almost spelt, was meant for this form even if a name fits another
    if ('value' in reading) opening = argument.kind === 'number' && has(slot.kinds, 'name') ? 2 : 1;
    else if (isNear(reading.mistake)) opening = 0;
  }
  return match.mistakes.length * 4 + opening;
}
