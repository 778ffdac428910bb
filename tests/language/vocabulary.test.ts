/** The vocabulary itself: every row of it is written as it says, and the reference reads without a finding. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { formatText } from '../../grammar/src/format.ts';
import {
  type Context,
  canonical,
  findWord,
  meaningsOf,
  neededIn,
  signature,
  slotsOf,
  tableOf,
  tables,
  vocabulary,
  W,
  type WordEntry,
  wordsIn,
} from '../../grammar/src/vocabulary/index.ts';
import { fences } from '../examples/corpus.ts';
import { findingsOf } from './binding-marks.ts';

const grammar = join(import.meta.dirname, '../../grammar');
const contexts = [...new Set(vocabulary.flatMap((entry) => entry.contexts))];

const rows = vocabulary.map((entry) => [`${entry.word} in ${entry.contexts[0]}`, entry] as const);

/** The example of an entry inside a block of one of its contexts, itself inside what that needs. */
function example(entry: WordEntry, context: Context): string {
  const line = entry.example.endsWith('{') ? `${entry.example}\n}` : entry.example;
  if (context === 'file') return `${line}\n`;
  const opener = vocabulary.find(({ block }) => block === context);
  if (!opener) throw new Error(`nothing opens ${context}`);
  const first = opener.example.endsWith('{') ? opener.example : 'out 1 {';
  const outer = opener.contexts[0] ?? 'file';
  const block = `${first}\n${line}\n}`;
  return outer === 'file' ? `${block}\n` : example({ ...opener, example: block }, outer);
}

describe('every row', () => {
  test.each(rows)('%s stands as its example writes it', (_, entry) => {
    for (const context of entry.contexts) {
      const text = example(entry, context);
      // a block that holds nothing else may lack what it needs
      const found = findingsOf(text).filter(({ name }) => !name.startsWith('missing-word'));
      expect(found.filter(({ name }) => name !== 'missing-columns')).toEqual([]);
      expect(findWord(entry.example.split(' ')[0] ?? '', context)).toBe(entry);
    }
  });

  test.each(rows)('%s says what it is, in a sentence', (_, entry) => {
    expect(entry.doc).toMatch(/^[A-Z].*\.$/u);
  });

  test.each(rows)('%s has slots that can be told apart', (_, entry) => {
    for (const form of entry.forms) {
      const names = form.slots.map((slot) => slot.name);
      expect(new Set(names).size).toBe(names.length);
      const keywords = form.slots.flatMap((slot) => slot.keyword ?? []);
      expect(new Set(keywords).size).toBe(keywords.length);
      for (const slot of form.slots) {
        if (slot.after) expect(names).toContain(slot.after);
        if (slot.kinds.length === 0) expect(slot.keyword).toBeDefined();
      }
      for (const name of form.oneOf ?? []) if (name !== 'block') expect(names).toContain(name);
    }
    const all = entry.forms.flatMap((form) => form.slots.map((slot) => slot.name));
    for (const key of entry.key ?? []) expect(all).toContain(key);
    if (entry.times === 'k') expect(entry.key).toBeDefined();
  });
});

test('a word has one meaning in a context', () => {
  for (const context of contexts) {
    const words = vocabulary.filter((entry) => entry.contexts.includes(context));
    expect(wordsIn(context)).toEqual(words);
  }
});

test('every spelling of a word is used', () => {
  const columns = tables.flatMap((table) => table.columns.map((column) => column.word));
  const used = new Set<string>([...vocabulary.map(({ word }) => word), ...columns, W.columns]);
  expect(Object.values(W).filter((word) => !used.has(word))).toEqual([]);
});

test('words inside a block have at most 11 letters, so that arguments start 12 columns on', () => {
  const words = vocabulary.filter(({ contexts: [first] }) => first !== 'file');
  expect(words.map(({ word }) => word).filter((word) => word.length > 11)).toEqual([]);
});

test('blocks open what words stand in', () => {
  const opened = new Set(vocabulary.flatMap(({ block }) => block ?? []));
  expect(contexts.filter((context) => context !== 'file' && !opened.has(context))).toEqual([]);
  for (const table of tables) expect(tableOf(table.context)).toBe(table);
});

test('the vocabulary is asked by word and place', () => {
  expect(findWord('fiber', 'cable')?.forms[0].slots[0]?.label).toBe('FIBRE');
  expect(findWord(W.taken, 'link')).toBeUndefined();
  expect(canonical('colors')).toBe(W.colours);
  expect(meaningsOf(W.fibre).flatMap((entry) => entry.contexts)).toEqual([
    'file',
    'cable',
    'limits',
    'application',
  ]);
  expect(slotsOf(W.taken, 'setup').map((slot) => slot.name)).toEqual([
    'date',
    'wavelength',
    'power',
  ]);
  expect(neededIn('readings').map((entry) => entry.word)).toEqual([W.setup, W.values, W.tested]);
  const measure = findWord(W.measure, 'plan');
  expect(measure && signature(measure)).toBe(
    'measure WL… [for multimode|single-mode|plastic|FIBRE]',
  );
});

describe('the reference', () => {
  test('has examples', () => {
    expect(fences.length).toBeGreaterThan(8);
  });

  test.each(fences.map(({ name, text }) => [name, text]))(
    '%s reads without a finding',
    (_, text) => {
      expect(findingsOf(text)).toEqual([]);
    },
  );

  test.each(fences.map(({ name, text }) => [name, text]))(
    '%s is laid out as it should be',
    (_, text) => {
      expect(formatText(text)).toEqual({ text, refused: [] });
    },
  );

  test('has a page for every place', () => {
    const pages = readdirSync(join(grammar, 'words')).sort();
    expect(pages).toEqual(['README.md', ...contexts.map((context) => `${context}.md`)].sort());
  });
});

test('whole plans of every kind read without a finding', () => {
  const folder = join(import.meta.dirname, 'shapes');
  const files = readdirSync(folder).filter((file) => file.endsWith('.lwl'));
  expect(files.length).toBe(10);
  for (const file of files)
    expect(findingsOf(readFileSync(join(folder, file), 'utf8'))).toEqual([]);
});
