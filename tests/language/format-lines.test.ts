/** The rules of the formatter, each on a few lines. */
import { describe, expect, it } from 'vitest';
import { formatEdits, formatLine, formatText } from '../../grammar/src/format.ts';
import { Source } from '../../grammar/src/source.ts';

const formatted = (text: string) => formatText(text).text;

describe('a line', () => {
  it.each([
    ['arguments stand 12 columns after the word', 'length 142 m', 'length      142 m'],
    ['a word too long has one blank', 'measurements 850 nm', 'measurements 850 nm'],
    ['number, one blank, unit', 'length 142m', 'length      142 m'],
    ['a unit has its ASCII spelling', 'loss 5 µm 2 MHz·km', 'loss        5 um 2 MHz.km'],
    ['a zero stands before a leading point', 'loss .5 dB -.5 dB', 'loss        0.5 dB -0.5 dB'],
    ['the minus is that of ASCII', 'loss −0.04 dB', 'loss        -0.04 dB'],
    ['digits stay', 'loss 0.040 dB', 'loss        0.040 dB'],
    ['one blank after a comma, none before', 'map 1 ,2 , 3', 'map         1, 2, 3'],
    ['a trailing comment has two blanks', 'map 1 # one', 'map         1  # one'],
    ['a comment stays as typed', '#one  two  ', '#one  two'],
    ['a range and its step', 'fibres 1..23   step  2', 'fibres      1..23 step 2'],
    ['a day and its time', 'on 2026-03-14\t09:05', 'on          2026-03-14 09:05'],
    ['a unit after in', 'values power in µW', 'values      power in uW'],
    ['a text is not touched', 'note "a  b ,c"', 'note        "a  b ,c"'],
  ])('%s', (_, written, expected) => {
    expect(formatted(`cable C {\n${written}\n}\n`)).toBe(`cable C {\n  ${expected}\n}\n`);
    expect(formatLine(`cable C {\n${written}\n}\n`, 1)).toBe(
      written === `  ${expected}` ? undefined : `  ${expected}`,
    );
  });

  it('that opens a block has single blanks, and so has a top-level line', () => {
    expect(formatted('include   "a.lwl"\nlink  A   "t"{\nsplit  S   P  {\nout 1\n}\n}')).toBe(
      'include "a.lwl"\n\nlink A "t" {\n  split S P {\n    out         1\n  }\n}\n',
    );
  });

  it('that goes on keeps its breaks, under the first argument', () => {
    expect(formatted('cable C {\nmap 1, 2,\n  3,  # three\n # four\n   4\n}\n')).toBe(
      'cable C {\n  map         1, 2,\n              3,  # three\n              # four\n              4\n}\n',
    );
  });
});

describe('empty lines', () => {
  it('are one at most, one between declarations and none next to a brace', () => {
    const text =
      '\n\n# top\n\n\ninclude "a"\ninclude "b"\nlink A {\n\nfrom X\n\n\nto Y\n\n}\n# of B\nlink B {\n}\nlink C {\n}\n\n\n';
    expect(formatted(text)).toBe(
      '# top\n\ninclude "a"\ninclude "b"\n\nlink A {\n  from        X\n\n  to          Y\n}\n\n# of B\nlink B {\n}\n\nlink C {\n}\n',
    );
  });

  it('and line ends are all like the first, one at the end', () => {
    const inLineFeeds = 'link A {\n}\n\nlink B {\n}\n';
    expect(formatted('link A {\n}\r\n\r\rlink B {\r}')).toBe(inLineFeeds);
    expect(formatted('link A {\r}\r\r\rlink B {\r}')).toBe(inLineFeeds);
    const inPairs = inLineFeeds.replaceAll('\n', '\r\n');
    expect(formatted('link A {\r\n}\r\r\rlink B {\n}')).toBe(inPairs);
    expect(formatted(inPairs)).toBe(inPairs);
    expect(formatted('\n\n')).toBe('');
  });
});

describe('rows', () => {
  const table = (row: string) =>
    `readings A {\n  columns fibre, seen,           850 nm A>B, remark\n${row}\n}\n`;
  it.each([
    [
      'points stand under each other',
      '1 P 1.12 -',
      '  1              P                 1.12      -',
    ],
    [
      'a whole number ends where they stand',
      '1 P 12 -',
      '  1              P                12         -',
    ],
    [
      'nothing stands like a whole number',
      '1 P - -',
      '  1              P                 -         -',
    ],
    ['a word starts at its stop', '1 P dark -', '  1              P               dark        -'],
    [
      'a cell too long moves its own row only',
      '1 B3/R1/PANEL-A:02 1.12 -',
      '  1              B3/R1/PANEL-A:02  1.12      -',
    ],
    [
      'a long number starts at its stop',
      '1 P 1234.5 -',
      '  1              P               1234.5      -',
    ],
    [
      'more cells than headings stand apart',
      '1 P 1.1 - 2 x',
      '  1              P                 1.1       -  2  x',
    ],
  ])('%s', (_, written, expected) => {
    expect(formatted(table(written))).toBe(table(expected));
  });

  it('change alone: a longer name in one of a thousand changes one line', () => {
    const rows = Array.from({ length: 1000 }, (_, n) => `L-${n} P-${n} 0.5 -`);
    const before = formatted(table(rows.join('\n'))).split('\n');
    rows[500] = 'L-500-TO-THE-FAR-BREAKWATER-AND-BACK P-500 0.5 -';
    const after = formatted(table(rows.join('\n'))).split('\n');
    expect(after.filter((line, at) => line !== before[at])).toHaveLength(1);
  });

  it('get their points while typing', () => {
    const text = table('  1              P                 1,12      -');
    expect(formatLine(text, 2)).toBe('  1              P                 1.12      -');
    expect(formatLine('cable C {\n  length      1,5 km\n}\n', 1)).toBeUndefined();
  });
});

describe('a declaration in doubt', () => {
  it.each([
    ['a brace left open', 'link A {\nfrom   X\n\n', 0],
    ['a character without meaning', 'link A {\nfrom = X\n}\n\n', 1],
    ['a block on one line', 'link A { from   X }\n', 0],
    ['a merge conflict', 'link A {\n<<<<<<< a\nfrom  X\n=======\n>>>>>>> b\n}\n', 1],
    ['a character behind another mistake', 'link A {\nfrom 0,5 ; X\n}\n', 1],
  ])('stays as it is: %s', (_, text, line) => {
    const { text: result, refused } = formatText(`${text}link   B {\nto Z\n}`);
    expect(result).toBe(`${text}link B {\n  to          Z\n}\n`);
    expect(refused.map((refusal) => refusal.line)).toEqual([line]);
    expect(refused[0]!.because).not.toBe('');
  });

  it('still has its lines laid out while typing', () => {
    expect(formatLine('link A {\nfrom   X\n', 1)).toBe('  from        X');
    expect(formatLine('link A {\nfrom = X\n', 1)).toBeUndefined();
  });
});

describe('edits', () => {
  it('touch only what changes, and only the lines of a range', () => {
    const text = 'link A {\n  from        X\n  to   Y\n}\nlink B {\n to Z\n}\n';
    const edits = formatEdits(text).map(({ range: { start, end }, newText }) => [
      `${start.line}:${start.character}-${end.line}:${end.character}`,
      newText,
    ]);
    expect(edits).toEqual([
      ['2:7-2:7', '       '],
      ['3:1-4:0', '\n\n'],
      ['5:1-5:3', ' to         '],
    ]);
    const line = { start: { line: 2, character: 0 }, end: { line: 2, character: 9 } };
    expect(formatEdits(Source.of(text), line).map(({ range }) => range.start.line)).toEqual([2]);
  });

  it('leave the line ends of the editor alone', () => {
    expect(formatEdits('link A {\r\n  from        X\r\n}\r\n')).toEqual([]);
    const [edit] = formatEdits('link A {\r\n}\r\nlink B {\r\n}\r\n');
    expect(edit?.newText).toBe('\r\n\r\n');
  });
});
