/**
 * A keyword of the notation is spelt in grammar/src/vocabulary and nowhere else:
 * code that asks for a word, a keyword or a choice of a text names it through
 * the vocabulary's constants. What is held against what a text says is looked
 * at here: comparisons with a bound word or text, look-ups by word, slots.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { expect, test } from 'vitest';
import * as lists from '../../grammar/src/binding/lists.ts';
import * as words from '../../grammar/src/vocabulary/index.ts';

const root = join(import.meta.dirname, '../..');
const spellings = new Set<string>([
  ...Object.values(words.W),
  ...Object.values(words.K),
  ...Object.values(words.C),
  ...Object.keys(words.otherSpellings),
]);

/** Functions that take a word: those of the vocabulary and of the lists of bound entries. */
const askers = [...Object.entries(words), ...Object.entries(lists)]
  .filter(([, value]) => typeof value === 'function')
  .map(([name]) => name)
  .join('|');

const quoted = String.raw`(['"])([\w-]+)\1`;
const places: readonly RegExp[] = [
  new RegExp(String.raw`\.(?:word|text)\s*[!=]==?\s*${quoted}`, 'gu'),
  new RegExp(String.raw`${quoted}\s*[!=]==?\s*[\w.?!()[\]]+\.(?:word|text)\b`, 'gu'),
  new RegExp(String.raw`\bslots\??\.?\[\s*${quoted}`, 'gu'),
  new RegExp(String.raw`\b(?:${askers})\([^()'"]*${quoted}`, 'gu'),
];

/** Keywords that a source spells itself, each with its line. */
function spelt(source: string): string[] {
  const found: string[] = [];
  const report = (offset: number, word: string | undefined) => {
    if (word === undefined || !spellings.has(word)) return;
    found.push(`${source.slice(0, offset).split('\n').length}: ${word}`);
  };
  for (const place of places) {
    for (const match of source.matchAll(place)) report(match.index, match[2]);
  }
  for (const match of source.matchAll(/\bswitch \([\w.?!()[\]]+\.(?:word|text)\) \{/gu)) {
    const body = source.slice(match.index, blockEnd(source, match.index));
    for (const label of body.matchAll(/\bcase (['"])([\w-]+)\1/gu)) {
      report(match.index + label.index, label[2]);
    }
  }
  return found;
}

/** Where the braces that open behind an offset are closed again. */
function blockEnd(source: string, from: number): number {
  let depth = 0;
  for (let at = source.indexOf('{', from); at < source.length; at++) {
    if (source[at] === '{') depth++;
    else if (source[at] === '}' && --depth === 0) return at;
  }
  return source.length;
}

function sources(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/u.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name));
}

test('no source but the vocabulary spells a keyword of the notation', () => {
  const files = [
    ...sources(join(root, 'server/src')),
    ...sources(join(root, 'client/src')),
    ...sources(join(root, 'grammar/src')).filter((file) => !file.includes('/vocabulary/')),
  ];
  expect(files.length).toBeGreaterThan(50);
  const found = files.flatMap((file) =>
    spelt(readFileSync(file, 'utf8')).map((place) => `${relative(root, file)}:${place}`),
  );
  expect(found).toEqual([]);
});

test.each([
  [`if (entry.word === 'fibre') return;`, '1: fibre'],
  [`const a = 'mode-field' !== entry.word;`, '1: mode-field'],
  [`entriesNamed(body, 'connector')`, '1: connector'],
  [`entry.slots['length']`, '1: length'],
  [`value.text === "one-cord"`, '1: one-cord'],
  [`\nswitch (entry.word) {\n  case 'link':\n}`, '3: link'],
])('a keyword spelt by a source is seen: %s', (source, place) => {
  expect(spelt(source)).toEqual([place]);
});

test('what is not asked of a text is left alone', () => {
  expect(spelt(`step.kind === 'link'; entry.word === W.link; log('plan');`)).toEqual([]);
});
