/** A text held by block is the same text after any edit, and only touched lines move a boundary. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { type Range, Source } from '../../grammar/src/source.ts';
import { atLeast } from './runs.ts';
import { brokenText } from './texts.ts';

/** A range as an editor may send it, also beyond the text and upside down. */
const range: fc.Arbitrary<Range> = fc
  .tuple(fc.nat(40), fc.nat(30), fc.integer({ min: 0, max: 4 }), fc.nat(30))
  .map(([line, character, down, end]) => ({
    start: { line, character },
    end: { line: line + down, character: end },
  }));

const edits = fc.array(fc.tuple(range, brokenText(3)), { minLength: 1, maxLength: 6 });

function offset(text: string, line: number, character: number): number {
  const lines = text.split(/(?<=\r\n|\n|\r(?!\n))/u);
  if (/[\r\n]$/u.test(text) || text === '') lines.push('');
  if (line >= lines.length) return text.length;
  const start = lines.slice(0, line).join('').length;
  return start + Math.min(character, lines[line]!.replace(/[\r\n]+$/u, '').length);
}

function edited(text: string, { start, end }: Range, newText: string): string {
  const a = offset(text, start.line, start.character);
  const b = offset(text, end.line, end.character);
  return text.slice(0, Math.min(a, b)) + newText + text.slice(Math.max(a, b));
}

describe('a text held by block', () => {
  it('joins to the source', () => {
    fc.assert(
      fc.property(brokenText(12), (text) => {
        const source = Source.of(text);
        expect(source.text()).toBe(text);
        expect(source.length).toBe(text.length);
        expect(splitBlocks(text).join('')).toBe(text);
      }),
    );
  });

  it('is after any edits what a fresh look at the text would give', () => {
    fc.assert(
      fc.property(brokenText(12), edits, (before, changes) => {
        const source = Source.of(before);
        let text = before;
        for (const [where, newText] of changes) {
          const old = [...source.blocks()].map(({ block }) => block);
          const { index, removed, added } = source.edit(where, newText);
          text = edited(text, where, newText);
          const now = [...source.blocks()].map(({ block }) => block);
          expect(now.map((block) => block.text)).toEqual(splitBlocks(text));
          expect(old.slice(index, index + removed.length)).toEqual(removed);
          expect(old.toSpliced(index, removed.length, ...added)).toEqual(now);
        }
        const fresh = Source.of(text);
        expect(source.lineCount).toBe(fresh.lineCount);
        for (let line = 0; line < fresh.lineCount; line++) {
          expect(source.line(line)).toBe(fresh.line(line));
          expect(source.blockAtLine(line).index).toBe(fresh.blockAtLine(line).index);
        }
        for (const { index, block, firstLine } of source.blocks()) {
          expect(source.indexOf(block)).toBe(index);
          expect(source.firstLine(index)).toBe(firstLine);
          expect(source.block(index)).toBe(block);
        }
      }),
      { numRuns: atLeast(300) },
    );
  });

  it('finds a place and its offset from each other', () => {
    fc.assert(
      fc.property(brokenText(8), fc.nat(400), (text, at) => {
        const source = Source.of(text);
        const position = source.positionAt(at);
        const back = source.offsetAt(position);
        // Between the two characters of one line end there is no place.
        const inside = text[at - 1] === '\r' && text[at] === '\n' ? 1 : 0;
        expect(back).toBe(Math.min(at, text.length) - inside);
        expect(back).toBe(offset(text, position.line, position.character));
      }),
    );
  });

  it('moves no boundary off the lines an edit touches', () => {
    fc.assert(
      fc.property(brokenText(14), range, brokenText(2), (text, where, newText) => {
        const source = Source.of(text);
        const a = source.offsetAt(where.start);
        const b = source.offsetAt(where.end);
        const [start, end] = [Math.min(a, b), Math.max(a, b)];
        const after = text.slice(0, start) + newText + text.slice(end);
        const [old, now] = [boundaries(text), boundaries(after)];
        const firstTouched = lineStartBefore(text, start);
        const lastTouched = lineEndBehind(text, end);
        const moved = after.length - text.length;
        expect(now.filter((at) => at < firstTouched)).toEqual(
          old.filter((at) => at < firstTouched),
        );
        expect(now.filter((at) => at > lastTouched + moved)).toEqual(
          old.filter((at) => at > lastTouched).map((at) => at + moved),
        );
      }),
      { numRuns: atLeast(300) },
    );
  });

  it('keeps 10,000 blocks apart while one is typed in', () => {
    const text = Array.from(
      { length: 10_000 },
      (_, n) => `link L-${n} {\n  note "${n}"\n}\n\n`,
    ).join('');
    const source = Source.of(text);
    const before = source.block(9_000);
    const middle = source.firstLine(5_000);
    for (const letter of 'abc') {
      const change = source.edit(
        { start: { line: middle + 1, character: 8 }, end: { line: middle + 1, character: 8 } },
        letter,
      );
      expect(change.index).toBe(5_000);
      expect([change.removed.length, change.added.length]).toEqual([1, 1]);
    }
    expect(source.block(5_000).text).toBe('link L-5000 {\n  note "cba5000"\n}\n\n');
    expect(source.block(9_000)).toBe(before);
    expect(source.blockCount).toBe(10_000);
  });
});

function boundaries(text: string): number[] {
  let at = 0;
  return splitBlocks(text)
    .map((part) => {
      const start = at;
      at += part.length;
      return start;
    })
    .filter((start) => start > 0);
}

/** Start of the line of an offset; of the line before, if only a line end parts them. */
function lineStartBefore(text: string, offset: number): number {
  let at = offset;
  if (at > 0 && text[at - 1] === '\r') at--;
  while (at > 0 && !/[\r\n]/u.test(text[at - 1]!)) at--;
  return at;
}

function lineEndBehind(text: string, offset: number): number {
  let at = offset;
  while (at < text.length && !/[\r\n]/u.test(text[at]!)) at++;
  return at;
}
