/** What the words of a line become in the tree. */
import { describe, expect, it } from 'vitest';
import { parseBlock } from '../../grammar/src/parser.ts';
import type { Argument } from '../../grammar/src/tree.ts';

/** Arguments of one entry, each as its kind and what it says. */
function argumentsOf(written: string): string[] {
  const [entry] = parseBlock(`note ${written}\n`).entries;
  return entry!.lists.map((list) => list.arguments.map(shown).join(' | '));
}

function shown(argument: Argument): string {
  switch (argument.kind) {
    case 'name':
    case 'text':
    case 'spoilt':
      return `${argument.kind} ${argument.text}`;
    case 'number':
      return `number ${argument.digits}`;
    case 'quantity':
      return `quantity ${argument.digits} ${argument.unit.name}`;
    case 'range':
      return `range ${argument.first} ${argument.last} ${argument.step}`;
    case 'name-range': {
      const { prefix, first, last, step, width } = argument;
      return `name-range ${prefix} ${first} ${last} ${step} width ${width}`;
    }
    case 'pair':
      return `pair ${argument.first} ${argument.second}`;
    case 'date':
      return `date ${argument.value.day} ${argument.value.minutes ?? '-'}`;
    case 'direction':
      return `direction ${argument.value}`;
    case 'hole':
      return `hole ${argument.name}`;
    case 'absent':
      return 'absent';
  }
}

describe('an argument', () => {
  it.each([
    ['10GBASE-SR', 'name 10GBASE-SR'],
    ['11C-D32', 'name 11C-D32'],
    ['01B/5C-D.10', 'name 01B/5C-D.10'],
    ['Köln_3', 'name Köln_3'],
    ['Ko\u0308ln', 'name Köln'],
    ['"two words"', 'text two words'],
    [String.raw`"3\" and \\"`, String.raw`text 3" and \ `.trimEnd()],
    ['12', 'number 12'],
    ['-0.040', 'number -0.040'],
    ['142 m', 'quantity 142 m'],
    ['142m', 'quantity 142 m'],
    ['5 %', 'quantity 5 %'],
    ['5%', 'quantity 5 %'],
    ['-20.05\u00a0dBm', 'quantity -20.05 dBm'],
    ['50 µm', 'quantity 50 um'],
    ['3 ps/√km', 'quantity 3 ps/sqrt-km'],
    ['12 min', 'number 12 | name min'],
    ['12 "m"', 'number 12 | text m'],
    ['1..24', 'range 1 24 1'],
    ['1..23 step 2', 'range 1 23 2'],
    ['OPS/R2/A:01..12', 'name-range OPS/R2/A: 1 12 1 width 2'],
    ['K-8..12', 'name-range K- 8 12 1 width 0'],
    ['K-1..9 step 4', 'name-range K- 1 9 4 width 0'],
    ['1:8', 'pair 1 8'],
    ['09:05', 'pair 09 05'],
    ['2026-03-14', 'date 2026-03-14 -'],
    ['2026-03-14 09:05', 'date 2026-03-14 545'],
    ['2024-02-29', 'date 2024-02-29 -'],
    ['A>B', 'direction A>B'],
    ['B>A', 'direction B>A'],
    ['<length>', 'hole length'],
    ['-', 'absent'],
    ['0,15 dB', 'spoilt 0,15 dB'],
    ['2026-02-30', 'spoilt 2026-02-30'],
    ['A#01', 'spoilt A#01'],
  ])('%s is %s', (written, expected) => {
    expect(argumentsOf(written)).toEqual([expected]);
  });

  it('stands in the list that its comma begins', () => {
    expect(argumentsOf('850 nm, 1300 nm for multimode')).toEqual([
      'quantity 850 nm',
      'quantity 1300 nm | name for | name multimode',
    ]);
    expect(argumentsOf('1..4, 9..12')).toEqual(['range 1 4 1', 'range 9 12 1']);
  });

  it('is none in an entry without any', () => {
    expect(argumentsOf('')).toEqual([]);
  });
});

describe('a block', () => {
  const text =
    'readings A {\n  setup S  # one\n  columns fibre, 850 nm A>B\n  1  0.3 dB\n  2  -\n}\n';
  const tree = parseBlock(text);

  it('holds its entries, then its table', () => {
    const { body } = tree.entries[0]!;
    expect(body!.entries.map(({ word }) => word.text)).toEqual(['setup']);
    expect(body!.table!.headings.map((list) => list.arguments.map(shown).join(' | '))).toEqual([
      'name fibre',
      'quantity 850 nm | direction A>B',
    ]);
    expect(body!.table!.rows.map((row) => row.cells.map(shown).join(' | '))).toEqual([
      'number 1 | quantity 0.3 dB',
      'number 2 | absent',
    ]);
  });

  it('has spans that are its own text', () => {
    const { body, span } = tree.entries[0]!;
    const at = ({ start, end }: { start: number; end: number }) => text.slice(start, end);
    expect(at(span)).toBe(text.trimEnd());
    expect(at(body!.open)).toBe('{');
    expect(at(body!.close!)).toBe('}');
    expect(at(body!.table!.word)).toBe('columns');
    expect(at(body!.table!.rows[1]!.span)).toBe('2  -');
    expect(at(tree.comments[0]!.span)).toBe('# one');
    expect(at(body!.entries[0]!.span)).toBe('setup S');
  });

  it('that nobody closed has no closing brace', () => {
    expect(parseBlock('link A {\n  from X\n').entries[0]!.body!.close).toBeUndefined();
  });
});
