/** Files that nobody meant to write: one clear finding at its place, and the rest goes on. */
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { isBinary } from '../../grammar/src/characters.ts';
import { formatText } from '../../grammar/src/format.ts';
import { parseBlock } from '../../grammar/src/parser.ts';

interface Seen {
  readonly name: string;
  readonly start: number;
}

function findingsOf(text: string): Seen[] {
  let offset = 0;
  return splitBlocks(text).flatMap((block) => {
    const start = offset;
    offset += block.length;
    return parseBlock(block).findings.map(({ name, span }) => ({
      name,
      start: start + span.start,
    }));
  });
}

describe('input that is no plan', () => {
  it.each([
    ['an empty file', '', []],
    ['only line ends', '\n\r\n\r', []],
    ['a line of 5 MB', `${'x'.repeat(5e6)}\n`, [{ name: 'line-too-long', start: 0 }]],
    ['100,000 brackets on one line', '['.repeat(1e5), [{ name: 'line-too-long', start: 0 }]],
    ['60,000 brackets on one line', '['.repeat(6e4), [{ name: 'stray-character', start: 0 }]],
    ['60,000 braces on one line', '{'.repeat(6e4), [{ name: 'nested-too-deep', start: 32 }]],
    [
      '100,000 lines of an opening brace',
      '{\n'.repeat(1e5),
      [{ name: 'nested-too-deep', start: 64 }],
    ],
    ['100,000 lines of a closing brace', '}\n'.repeat(1e5), [{ name: 'stray-close', start: 0 }]],
    [
      'bytes of another kind of file',
      '\u0001PK\u0003\u0004\u0000\u0000\u0008\u0000'.repeat(99),
      [{ name: 'binary', start: 0 }],
    ],
    [
      'a NUL in a word',
      'cable C {\n  count 2\u00004\n}\n',
      [{ name: 'stray-character', start: 19 }],
    ],
    [
      'a NUL in a text',
      'cable C {\n  note        "a\u0000b"\n}\n',
      [{ name: 'unseen-in-text', start: 26 }],
    ],
    ['a byte-order mark first', '\ufeffcable C {\n  count 24\n}\n', []],
    ['carriage returns alone', 'cable C {\r  count 24\r}\r', []],
    [
      'half a character',
      'cable C {\n  count \ud83d\n}\n',
      [{ name: 'stray-character', start: 18 }],
    ],
  ])(
    '%s',
    (_, text, expected) => {
      expect(findingsOf(text)).toEqual(expected);
      if (expected.length > 0) expect(formatText(text).text).toBe(text);
    },
    60_000,
  );

  it('a block nested 100,000 deep is skipped from the 33rd on', () => {
    const text = `link A {\n${'  split S X {\n'.repeat(1e5)}`;
    const tree = parseBlock(text);
    expect(tree.findings.map(({ name }) => name)).toEqual(['nested-too-deep']);
    let depth = 0;
    let entry = tree.entries[0];
    for (; entry; entry = entry.body?.entries[0]) depth++;
    expect(depth).toBe(32);
  }, 300_000);

  it('a brace left open in the third of 100 blocks harms no other', () => {
    const blocks = Array.from({ length: 100 }, (_, n) => `link L-${n} {\n  from        X\n}\n\n`);
    blocks[2] = blocks[2]!.replace('}\n', '');
    const parts = splitBlocks(blocks.join(''));
    expect(parts).toEqual(blocks);
    const names = parts.map((part) => parseBlock(part).findings.map(({ name }) => name));
    expect(names.flatMap((of, at) => of.map((name) => [at, name]))).toEqual([
      [2, 'block-left-open'],
    ]);
  });

  it('is known as binary before it is parted into blocks', () => {
    expect(isBinary('\u0000\u0001'.repeat(50))).toBe(true);
    expect(isBinary('cable C {\r\n\tcount 24\r\n}\r\n')).toBe(false);
    expect(isBinary('cable C {\n  note "\u0000"\n}\n')).toBe(false);
  });
});
