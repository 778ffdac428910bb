import { describe, expect, test } from 'vitest';
import { documentLinks } from '../../server/src/features/document-links.ts';
import { folding } from '../../server/src/features/folding.ts';
import {
  formatting,
  onTypeFormatting,
  rangeFormatting,
} from '../../server/src/features/formatting.ts';
import { selectionRange } from '../../server/src/features/selection-range.ts';
import { semanticTokensRange } from '../../server/src/features/semantic-tokens.ts';
import { documentSymbols, workspaceSymbols } from '../../server/src/features/symbols.ts';
import { answer, applyEdits, ask, textIn } from '../support/ask.ts';

const text = `# one
# two
plan "Shape" {
  limits      TIA-568.3-E
}

include "links.lwl"

link KQ-1 "First link" {
  fibres      1..2
  connector   LC
  segment     90 m OM4
  connector   LC
}
`;
const links = {
  'links.lwl': 'link KQ-2 {\n  connector   LC\n  segment     12 m OM4\n  connector   LC\n}\n',
};

test('folds blocks to the line before the brace, and runs of comments', () => {
  const folds = answer(folding, ask(text, links)).map(({ startLine, endLine, kind }) => [
    startLine,
    endLine,
    kind ?? '',
  ]);
  expect(folds).toEqual(
    expect.arrayContaining([
      [0, 1, 'comment'],
      [2, 3, ''],
      [8, 12, ''],
    ]),
  );
});

test('names declarations with their title in the outline', () => {
  const symbols = answer(documentSymbols, ask(text, links));
  expect(symbols.map(({ name, detail }) => [name, detail])).toEqual([
    ['plan "Shape"', undefined],
    ['link KQ-1', 'First link'],
  ]);
});

test('finds names of all files by their letters', () => {
  const asked = ask(text, links);
  const found = workspaceSymbols.answer(asked.session, { query: 'kq2' });
  expect(found.map(({ name, location }) => [name, location.uri])).toEqual([
    ['KQ-2', 'file:///site/links.lwl'],
  ]);
});

test('links an include to its file', () => {
  const asked = ask(text, links);
  const [link] = answer(documentLinks, asked);
  expect(link && textIn(asked.text, link.range)).toBe('"links.lwl"');
  expect(link?.target).toBe('file:///site/links.lwl');
});

test('selection grows from argument to list, line, block, declaration', () => {
  const asked = ask(text.replace('90 m OM4', '90 m O$0M4'), links);
  const [first] = answer(selectionRange, asked, { positions: [asked.position] }) ?? [];
  const grown: string[] = [];
  for (let range = first; range; range = range.parent) grown.push(textIn(asked.text, range.range));
  expect(grown.slice(0, 3)).toEqual(['OM4', '90 m OM4', 'segment     90 m OM4']);
  expect(grown.at(-1)?.startsWith('link KQ-1')).toBe(true);
});

test('colours words, names and numbers of the lines asked for', () => {
  const asked = ask(text, links);
  const { data } = answer(semanticTokensRange, asked, {
    range: { start: { line: 8, character: 0 }, end: { line: 11, character: 99 } },
  });
  expect(data.length % 5).toBe(0);
  let line = 0;
  let character = 0;
  const shown: string[] = [];
  for (let index = 0; index < data.length; index += 5) {
    const [down = 0, right = 0, length = 0] = data.slice(index, index + 3);
    line += down;
    character = down === 0 ? character + right : right;
    shown.push(asked.text.split('\n')[line]?.slice(character, character + length) ?? '');
  }
  expect(shown).toEqual([
    'link',
    'KQ-1',
    '"First link"',
    'fibres',
    '1..2',
    'connector',
    'LC',
    'segment',
    '90 m',
    'OM4',
  ]);
});

describe('formatting', () => {
  const crooked = text
    .replace('  segment     90 m OM4', '    segment 90 m   OM4')
    .replace('limits      TIA', 'limits TIA');

  test('puts a file in order, an edit a line', () => {
    const asked = ask(crooked, links);
    const edits = answer(formatting, asked);
    expect(edits).toHaveLength(2);
    expect(applyEdits(asked.text, edits)).toBe(text);
  });

  test('a range touches no other line', () => {
    const asked = ask(crooked, links);
    const edits = answer(rangeFormatting, asked, {
      range: { start: { line: 11, character: 0 }, end: { line: 11, character: 5 } },
    });
    expect(edits.map(({ range }) => range.start.line)).toEqual([11]);
  });

  test('the line just left is put in order while typing', () => {
    const asked = ask(crooked.replace('90 m   OM4', '90 m   OM4\n$0'), links);
    const edits = answer(onTypeFormatting, asked, { ch: '\n' });
    expect(applyEdits(asked.text, edits).split('\n')[11]).toBe('  segment     90 m OM4');
  });
});
