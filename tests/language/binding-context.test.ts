/** Where an offset stands: `|` marks it in the text. */
import { expect, test } from 'vitest';
import { contextAt, type TextContext } from '../../grammar/src/binding.ts';
import { parseBlock } from '../../grammar/src/parser.ts';

function at(text: string): TextContext {
  const offset = text.indexOf('|');
  const plain = text.replace('|', '');
  return contextAt(parseBlock(plain), plain, offset);
}

const expected = (text: string) => at(text).expected.map((slot) => slot.name);

test('at the margin and in a block a word is wanted', () => {
  expect(at('li|')).toMatchObject({ context: 'file', touched: { start: 0, end: 2 } });
  expect(at('link L {\n  |\n}\n')).toMatchObject({ context: 'link', enclosing: ['link'] });
  expect(at('link L {\n  con|\n}\n')).toMatchObject({ context: 'link', expected: [] });
  expect(at('link L {\n  split S P {\n    |\n  }\n}\n')).toMatchObject({
    context: 'split',
    enclosing: ['link', 'split'],
  });
});

test('behind a word stand its slots, up to the next one that is required', () => {
  expect(expected('setup S {\n  cord        |\n}\n')).toEqual(['name']);
  expect(expected('setup S {\n  cord        TC-1 |\n}\n')).toEqual(['role']);
  expect(expected('setup S {\n  cord        TC-1 launch LC OM4 |\n}\n')).toEqual([
    'grade',
    'length',
    'diameter',
    'verified',
    'since',
  ]);
});

test('an argument that is being typed does not count', () => {
  const context = at('setup S {\n  cord        TC-1 lau|\n}\n');
  expect(context.expected.map((slot) => slot.name)).toEqual(['role']);
  expect(context.slotIndex).toBe(1);
  expect(context.touched).toEqual({ start: 29, end: 32 });
});

test('behind a keyword its value is wanted, behind a comma the next of the list', () => {
  expect(expected('link L {\n  carries     X with |\n}\n')).toEqual(['with']);
  expect(expected('link L {\n  carries     X with A, |\n}\n')).toEqual(['with']);
  expect(expected('plan "x" {\n  limits      TIA-568.3-E, |\n}\n')).toEqual(['name']);
});

test('a line is half typed while its brace is open', () => {
  expect(expected('readings |')).toEqual(['object']);
  expect(expected('link L {\n  connector   LC at |')).toEqual(['at']);
});

test('in a table the column says what a cell holds', () => {
  const text =
    'readings L {\n  setup       S\n  values      loss in dB\n  columns fibre, 850 nm A>B, seen\n  1                1.2         |\n}\n';
  expect(at(text)).toMatchObject({
    context: 'readings',
    inTable: 'row',
    slotIndex: 2,
    heading: { kind: 'word', word: 'seen' },
    expected: [{ name: 'seen' }],
  });
  expect(at('readings L {\n  columns fibre, |\n}\n')).toMatchObject({
    inTable: 'headings',
    slotIndex: 1,
  });
});
