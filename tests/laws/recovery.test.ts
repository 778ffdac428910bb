/**
 * Recovery is local: whatever one character is taken out of an example, what is
 * said changes in its declaration alone, or in the two that the character held
 * apart. Every character of every example is tried.
 */
import { describe, expect, it } from 'vitest';
import { bindBlock } from '../../grammar/src/binding.ts';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import { examples, library } from '../examples/corpus.ts';

/** Findings that a block may have after one slip: what is said of the slip, and of what it laid bare. */
const most = 2;

describe.each([...examples, ...library].map(({ name, text }) => [name, text]))('%s', (_, text) => {
  const blocks = splitBlocks(text);

  it('without any one of its characters changes one declaration, or two that become one', () => {
    let start = 0;
    for (const [index, block] of blocks.entries()) {
      for (let at = 0; at < block.length; at++) {
        // A longer stretch of rows teaches nothing that its first hundred lines did not.
        if (at > 6000) break;
        const alone = block.slice(0, at) + block.slice(at + 1);
        const near = (blocks[index - 1] ?? '') + alone + (blocks[index + 1] ?? '');
        const after = splitBlocks(near);
        const kept =
          untouched(blocks[index - 1], after[0]) + untouched(blocks[index + 1], after.at(-1));
        const wanted = Number(index > 0) + Number(index + 1 < blocks.length);
        // What holds a declaration apart from the next is its opening line; without it two are one.
        expect([start + at, kept]).toEqual([start + at, Math.max(kept, wanted - 1)]);
      }
      start += block.length;
    }
  });

  it('gives two findings at most for any one of them', () => {
    let start = 0;
    for (const block of blocks) {
      for (let at = 0; at < block.length; at += 1 + Math.floor(block.length / 400)) {
        const alone = block.slice(0, at) + block.slice(at + 1);
        const said = splitBlocks(alone).flatMap((one) => bindBlock(parseBlock(one), one).findings);
        expect([start + at, said.slice(most).map(({ name }) => name)]).toEqual([start + at, []]);
      }
      start += block.length;
    }
  });

  it('gives two findings at most for any line that opens or closes a block', () => {
    for (const block of blocks) {
      const lines = block.split('\n');
      for (const [at, line] of lines.entries()) {
        if (!/[{}]\s*$/u.test(line)) continue;
        const alone = lines.toSpliced(at, 1, '').join('\n');
        const said = splitBlocks(alone).flatMap((one) => bindBlock(parseBlock(one), one).findings);
        expect([line, said.slice(most).map(({ name }) => name)]).toEqual([line, []]);
      }
    }
  });
});

const untouched = (before: string | undefined, after: string | undefined): number =>
  before !== undefined && before === after ? 1 : 0;
