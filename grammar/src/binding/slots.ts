/**
 * Sorts the arguments of an entry into the slots of one form. Slots without
 * keyword come in their order; a keyword opens its own slot wherever it stands;
 * a comma means the next of the same kind and nothing else.
 */
import type { Value } from '../bound.ts';
import type { Argument, Entry, Span } from '../tree.ts';
import {
  canonical,
  type Form,
  holeSlot,
  K,
  type Slot,
  signature,
  slotLabel,
  type WordEntry,
} from '../vocabulary/index.ts';
import type { Match, Token } from './match.ts';
import { nearest } from './nearest.ts';
import { oneOf, replace } from './sentences.ts';
import {
  choicesIn,
  has,
  type Mistake,
  quantityIn,
  quoted,
  type Reading,
  readValue,
  unknownUnit,
  type Where,
} from './values.ts';
import { describe } from './wording.ts';

/** Fills the slots of a form as far as the arguments make sense. */
export function fillSlots(
  word: WordEntry,
  form: Form,
  tokens: readonly Token[],
  entry: Entry,
  where: Where,
): Match {
  return new Filling(word, form, tokens, entry, where).run();
}

class Filling {
  readonly #word: WordEntry;
  readonly #form: Form;
  readonly #tokens: readonly Token[];
  readonly #entry: Entry;
  readonly #where: Where;
  readonly #slots: Record<string, Value[]> = {};
  #mistakes: Mistake[] = none;
  #at = 0;
  #awaiting: Slot | undefined;

  constructor(word: WordEntry, form: Form, tokens: readonly Token[], entry: Entry, where: Where) {
    this.#word = word;
    this.#form = form;
    this.#tokens = tokens;
    this.#entry = entry;
    this.#where = where;
  }

  run(): Match {
    while (this.#at < this.#tokens.length) {
      const before = this.#at;
      const token = this.#tokens[before];
      if (!token || !this.#take(token) || this.#at === before) break;
    }
    this.#askForMissing();
    return {
      form: this.#form,
      slots: this.#slots,
      mistakes: this.#mistakes,
      pending: () => this.#form.slots.filter((slot) => this.#free(slot)),
      awaiting: this.#awaiting,
    };
  }

  /** Takes the next argument and what belongs to it; false where the rest of the line makes no sense. */
  #take(token: Token): boolean {
    const { argument, comma } = token;
    if (comma) {
      this.#say({ name: 'no-list', span: argument.span, details: {} });
      return false;
    }
    if (argument.kind === 'name') {
      const keyword = canonical(argument.text);
      const slot = this.#form.slots.find((s) => s.keyword === keyword);
      if (slot) return this.#takeKeyword(slot, argument.span);
      if (this.#form.holes && this.#holesMayFollow()) return this.#takeHole(argument);
    }
    for (const slot of this.#form.slots) {
      if (slot.keyword !== undefined || !this.#free(slot)) continue;
      if (slot.required || 'value' in readValue(argument, slot.kinds, this.#where)) {
        return this.#takeValues(slot);
      }
    }
    return this.#explain(argument);
  }

  #takeKeyword(slot: Slot, span: Span): boolean {
    const keyword = slot.keyword ?? '';
    if (this.#slots[slot.name]) {
      this.#say({ name: 'repeated-argument', span, details: { keyword } });
    } else if (slot.after && !this.#slots[slot.after]) {
      this.#say({ name: 'misplaced-argument', span, details: { keyword, after: slot.after } });
    }
    this.#at += 1;
    if (slot.kinds.length === 0) {
      this.#slots[slot.name] = [{ kind: 'choice', span, text: keyword }];
      return true;
    }
    const next = this.#tokens[this.#at];
    const nextIsKeyword =
      next?.argument.kind === 'name' &&
      this.#form.slots.some(
        (s) => s.keyword === canonical((next.argument as { text: string }).text),
      );
    if (!next || next.comma || nextIsKeyword) {
      if (!next) this.#awaiting = slot;
      this.#say({
        name: 'missing-argument',
        span,
        details: { word: keyword, want: describe(slot.kinds) },
      });
      this.#slots[slot.name] = [{ kind: 'spoilt', span }];
      return true;
    }
    return this.#takeValues(slot);
  }

  /** The value of a slot, or its list. */
  #takeValues(slot: Slot): boolean {
    const values: Value[] = [];
    this.#slots[slot.name] = values;
    do {
      const reading = this.#readNext(slot);
      if ('value' in reading) {
        values.push(reading.value);
      } else {
        this.#say(reading.mistake);
        values.push({ kind: 'spoilt', span: reading.mistake.span });
      }
    } while (slot.many && this.#tokens[this.#at]?.comma);
    if (slot.kinds[0]?.kind === 'map') this.#slots[slot.name] = [asMap(values)];
    return true;
  }

  /** Reads the next argument in a slot's kinds and moves behind it, and behind what it spoilt. */
  #readNext(slot: Slot): Reading {
    const argument = this.#tokens[this.#at]?.argument as Argument;
    this.#at += 1;
    const reading = readValue(argument, slot.kinds, this.#where);
    if ('value' in reading) return reading;
    if (reading.mistake.name === 'missing-unit' && argument.kind === 'number') {
      const unit = this.#strayUnit();
      const kind = quantityIn(slot.kinds);
      if (unit && kind) {
        this.#at += 1;
        return { mistake: unknownUnit(argument, unit, kind) };
      }
    }
    if (reading.mistake.name === 'unquoted-text') return { mistake: this.#unquoted(argument) };
    return reading;
  }

  /** A text without quotes: from its first word to the next keyword or the end of the line. */
  #unquoted(first: Argument): Mistake {
    const { start } = first.span;
    let { end } = first.span;
    for (; this.#at < this.#tokens.length; this.#at++) {
      const next = this.#tokens[this.#at]?.argument;
      if (!next || next.kind === 'text' || this.#isKeyword(next)) break;
      end = next.span.end;
    }
    const span = { start, end };
    const text = quoted(this.#where.text.slice(start, end));
    const fix = replace('Put it in quotes', span, text);
    return { name: 'unquoted-text', span, details: {}, fix };
  }

  /** `at closure under ramp`: a place of several words, of which the first was read as its name. */
  #unquotedPlace(): Mistake | undefined {
    const before = this.#tokens[this.#at - 1]?.argument;
    if (before?.kind !== 'name') return undefined;
    const place = this.#form.slots.find(
      (slot) =>
        has(slot.kinds, 'text') &&
        this.#slots[slot.name]?.some(
          (value) => value.kind === 'name' && value.span.start === before.span.start,
        ),
    );
    return place && this.#unquoted(before);
  }

  /** A name behind a bare number that is wanted by nothing else on the line, or spells a unit almost. */
  #strayUnit(): Extract<Argument, { kind: 'name' }> | undefined {
    const next = this.#tokens[this.#at];
    if (next?.argument.kind !== 'name' || next.comma || this.#isKeyword(next.argument)) return;
    const { argument } = next;
    const wanted = this.#form.slots.some(
      (slot) =>
        slot.keyword === undefined &&
        this.#free(slot) &&
        'value' in readValue(argument, slot.kinds, this.#where),
    );
    if (!wanted) return argument;
    const another = this.#tokens[this.#at + 1];
    const twoNames = another?.argument.kind === 'name' && !this.#isKeyword(another.argument);
    return twoNames ? argument : undefined;
  }

  /** `length 64 m`: a hole of the pattern and its value. */
  #takeHole(name: Extract<Argument, { kind: 'name' }>): boolean {
    this.#at += 1;
    const next = this.#tokens[this.#at];
    if (!next || next.comma) {
      if (!next) this.#awaiting = { name: holeSlot(name.text), kinds: anyKind, label: 'VALUE' };
      this.#say({
        name: 'missing-argument',
        span: name.span,
        details: { word: name.text, want: describe(anyKind) },
      });
      return true;
    }
    const slot: Slot = { name: holeSlot(name.text), kinds: anyKind, label: 'VALUE' };
    if (this.#slots[slot.name]) {
      this.#say({ name: 'repeated-argument', span: name.span, details: { keyword: name.text } });
    }
    return this.#takeValues(slot);
  }

  #holesMayFollow(): boolean {
    const asSlot = this.#form.slots.find((slot) => slot.keyword === K.as);
    if (asSlot) return this.#slots[asSlot.name] !== undefined;
    return this.#form.slots.every((slot) => !slot.required || this.#slots[slot.name]);
  }

  /** Says what is wrong with an argument that no slot takes. */
  #explain(argument: Argument): boolean {
    const { span } = argument;
    const found = this.#where.text.slice(span.start, span.end);
    const free = this.#form.slots.filter((slot) => this.#free(slot));
    if (argument.kind === 'name') {
      const keywords = free.flatMap((slot) => slot.keyword ?? []);
      const choices = free.flatMap((slot) => (slot.keyword ? [] : choicesIn(slot.kinds)));
      const meant = nearest(found, [...keywords, ...choices]);
      if (meant) {
        this.#say({
          name: 'unknown-argument',
          span,
          details: { found, word: this.#word.word, nearest: meant },
          fix: replace(`Write \`${meant}\``, span, meant),
        });
        return false;
      }
    }
    for (const slot of free) {
      if (slot.keyword !== undefined) continue;
      if (akin(argument, slot)) return this.#takeValues(slot);
    }
    const texts = argument.kind === 'text' ? undefined : this.#unquotedPlace();
    if (texts) {
      this.#say(texts);
      return true;
    }
    const bare = free.filter(
      (slot) =>
        slot.keyword !== undefined &&
        slot.kinds.length > 0 &&
        (has(slot.kinds, 'name') ? argument.kind === 'name' : true) &&
        'value' in readValue(argument, slot.kinds, this.#where),
    );
    const figure = bare.find((slot) => slot.keyword === K.max);
    const likely = figure ?? (argument.kind === 'name' ? undefined : bare[0]);
    if (likely?.keyword && (figure || bare.length === 1)) {
      const { keyword } = likely;
      this.#say({
        name: 'missing-keyword',
        span,
        details: { found, keyword },
        fix: replace(
          `Write \`${keyword} ${found}\``,
          { start: span.start, end: span.start },
          `${keyword} `,
        ),
      });
      return false;
    }
    const last = this.#tokens.at(-1)?.argument.span.end ?? span.end;
    const rest = { start: span.start, end: last };
    this.#say({
      name: 'too-many-arguments',
      span: rest,
      details: {
        found: this.#where.text.slice(rest.start, rest.end),
        word: this.#word.word,
        signature: signature(this.#word, this.#form),
      },
    });
    return false;
  }

  #askForMissing(): void {
    const { span } = this.#entry.word;
    if (this.#mistakes.length > 0) return;
    for (const slot of this.#form.slots) {
      if (!slot.required || !this.#free(slot)) continue;
      const want = slot.keyword
        ? `\`${slot.keyword}\` and ${describe(slot.kinds)}`
        : describe(slot.kinds);
      this.#say({ name: 'missing-argument', span, details: { word: this.#word.word, want } });
      return;
    }
    const { oneOf: some } = this.#form;
    if (!some) return;
    const there = some.some((name) =>
      name === 'block' ? this.#entry.body !== undefined : this.#slots[name] !== undefined,
    );
    if (there) return;
    const words = this.#form.slots.filter((slot) => some.includes(slot.name));
    const want = oneOf(words.map((slot) => slotLabel({ ...slot, required: true })));
    this.#say({
      name: 'missing-figure',
      span,
      details: {
        word: this.#word.word,
        want: some.includes('block') ? `${want}, or a block` : want,
      },
    });
  }

  /** Not written yet, and not waiting for a slot that is not there. */
  #free(slot: Slot): boolean {
    return (
      this.#slots[slot.name] === undefined && (!slot.after || this.#slots[slot.after] !== undefined)
    );
  }

  #isKeyword(argument: Argument): boolean {
    if (argument.kind !== 'name') return false;
    const text = canonical(argument.text);
    return this.#form.slots.some((slot) => slot.keyword === text);
  }

  #say(mistake: Mistake): void {
    if (this.#mistakes === none) this.#mistakes = [];
    this.#mistakes.push(mistake);
  }
}

/** Most lines have no mistake: they share this list, which nothing is pushed to. */
const none: Mistake[] = [];

const anyKind = [{ kind: 'any' }] as const;

/** Whether an argument was probably meant for a slot that refuses it. */
function akin(argument: Argument, slot: Slot): boolean {
  const { kinds } = slot;
  switch (argument.kind) {
    case 'number':
    case 'quantity':
      return has(kinds, 'quantity') || has(kinds, 'whole') || has(kinds, 'decimal');
    case 'text':
      return has(kinds, 'choice');
    case 'name':
      return has(kinds, 'text') || has(kinds, 'choice');
    case 'date':
    case 'pair':
      return has(kinds, 'date') || has(kinds, 'time') || has(kinds, 'ratio');
    default:
      return slot.required === true;
  }
}

/** One map from its name, or from the places written one by one. */
function asMap(values: readonly Value[]): Value {
  const first = values[0];
  const span = { start: first?.span.start ?? 0, end: values.at(-1)?.span.end ?? 0 };
  if (values.length === 1 && (first?.kind === 'map' || first?.kind === 'hole')) return first;
  const places: number[] = [];
  for (const value of values) {
    if (value.kind === 'whole') places.push(value.value);
    else if (value.kind === 'wholes') {
      for (let n = value.first; n <= value.last; n += value.step) places.push(n);
    } else return { kind: 'spoilt', span };
  }
  return { kind: 'map', span, places };
}
