/** Every word of the vocabulary, with every argument and every choice, stands in some example. */
import { describe, expect, test } from 'vitest';
import { bindBlock } from '../../grammar/src/binding.ts';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import type { BoundBody, BoundEntry } from '../../grammar/src/bound.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import {
  type Context,
  choicesOf,
  findWord,
  slotLabel,
  tables,
  vocabulary,
} from '../../grammar/src/vocabulary/index.ts';
import { examples, library } from './corpus.ts';

interface Used {
  readonly words: ReadonlySet<string>;
  readonly slots: ReadonlySet<string>;
  readonly choices: ReadonlySet<string>;
  readonly columns: ReadonlySet<string>;
}

const used = usesOf([...examples, ...library].map(({ text }) => text));

describe('of the vocabulary', () => {
  test('every word, wherever it may stand, is used', () => {
    const missing = vocabulary.flatMap((entry) =>
      // A word that means the same in several places has been shown where one of them uses it.
      entry.contexts.some((context) => used.words.has(`${context} ${entry.word}`))
        ? []
        : [`${entry.word} in ${entry.contexts[0]}`],
    );
    expect(missing).toEqual([]);
  });

  test('every argument is used', () => {
    const missing = vocabulary.flatMap((entry) =>
      entry.forms
        .flatMap(({ slots }) => slots)
        .filter(
          ({ name }) =>
            !entry.contexts.some((context) => used.slots.has(`${context} ${entry.word} ${name}`)),
        )
        .map((slot) => `${entry.word} in ${entry.contexts[0]}: ${slotLabel(slot)}`),
    );
    expect(missing).toEqual([]);
  });

  test('every choice is used', () => {
    const missing = vocabulary.flatMap((entry) =>
      entry.forms
        .flatMap(({ slots }) => slots.flatMap(({ kinds }) => choicesOf(kinds)))
        .filter((choice) => !used.choices.has(`${entry.word} ${choice}`))
        .map((choice) => `${entry.word} in ${entry.contexts[0]}: ${choice}`),
    );
    expect([...new Set(missing)]).toEqual([]);
  });

  test('every column is used', () => {
    const missing = tables.flatMap(({ context, columns }) =>
      columns
        .filter(({ word }) => !used.columns.has(`${context} ${word}`))
        .map(({ word }) => `${word} in ${context}`),
    );
    expect(missing).toEqual([]);
  });
});

function usesOf(texts: readonly string[]): Used {
  const words = new Set<string>();
  const slots = new Set<string>();
  const choices = new Set<string>();
  const columns = new Set<string>();
  const inEntry = (entry: BoundEntry, context: Context) => {
    if (entry.word === '') return;
    words.add(`${context} ${entry.word}`);
    for (const [slot, values] of Object.entries(entry.slots)) {
      slots.add(`${context} ${entry.word} ${slot}`);
      for (const value of values) {
        if (value.kind === 'choice') choices.add(`${entry.word} ${value.text}`);
        if (value.kind === 'map' && value.named) choices.add(`${entry.word} ${value.named}`);
      }
    }
    const block = findWord(entry.word, context)?.block;
    if (entry.body && block) inBody(entry.body, block);
  };
  const inBody = (body: BoundBody, context: Context) => {
    for (const entry of body.entries) inEntry(entry, context);
    for (const heading of body.table?.headings ?? []) {
      if (heading.kind === 'word') columns.add(`${context} ${heading.word}`);
    }
  };
  for (const text of texts) {
    for (const block of splitBlocks(text)) {
      for (const entry of bindBlock(parseBlock(block), block).entries) inEntry(entry, 'file');
    }
  }
  return { words, slots, choices, columns };
}
