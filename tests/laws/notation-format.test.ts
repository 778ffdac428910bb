/** Formatting moves blanks and nothing else. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { formatBlock, formatEdits, formatText } from '../../grammar/src/format.ts';
import { Source } from '../../grammar/src/source.ts';
import { tokenize } from '../../grammar/src/tokens.ts';
import { atLeast } from './runs.ts';
import { brokenText, soundText } from './texts.ts';

describe('formatting', () => {
  it('twice is formatting once', () => {
    fc.assert(
      fc.property(fc.oneof(brokenText(14), soundText), (text) => {
        const once = formatText(text).text;
        expect(formatText(once).text).toBe(once);
      }),
      { numRuns: atLeast(500) },
    );
  });

  it('keeps every character that is no blank, and the order of all', () => {
    fc.assert(
      fc.property(fc.oneof(brokenText(14), soundText), (text) => {
        const bare = (from: string) =>
          from
            // Spellings that mean the same: a true minus, a zero before a point, a unit.
            .replace(/−/gu, '-')
            .replace(/(?<![\d.])0\.(?=\d)/gu, '.')
            .replace(/µ/gu, 'u')
            .replace(/[\s\ufeff\u00a0]/gu, '');
        expect(bare(formatText(text).text)).toBe(bare(text));
      }),
      { numRuns: atLeast(500) },
    );
  });

  it('keeps comments', () => {
    fc.assert(
      fc.property(soundText, (text) => {
        expect(comments(formatText(text).text)).toEqual(comments(text));
      }),
    );
  });

  it('leaves the layout of a line to that line: other blanks give the same text', () => {
    fc.assert(
      fc.property(
        soundText,
        fc.infiniteStream(fc.constantFrom(' ', '  ', '\t', '\u00a0')),
        (text, blanks) => {
          const other = withOtherBlanks(text, () => blanks.next().value);
          expect(formatText(other).text).toBe(formatText(text).text);
        },
      ),
      { numRuns: atLeast(200) },
    );
  });

  it('as edits is formatting as a whole, line ends aside', () => {
    fc.assert(
      fc.property(fc.oneof(brokenText(14), soundText), (text) => {
        const source = Source.of(text);
        for (const { range, newText } of formatEdits(text).toReversed())
          source.edit(range, newText);
        const refused = formatText(text).refused.length > 0;
        if (!refused) expect(lineFeeds(source.text())).toBe(lineFeeds(formatText(text).text));
        expect(formatEdits(source)).toEqual([]);
      }),
      { numRuns: atLeast(300) },
    );
  });

  it('of one block is that of the text it stands in', () => {
    fc.assert(
      fc.property(brokenText(14), (text) => {
        const parts = splitBlocks(text);
        const joined = parts.map((part, at) => formatBlock(part, at + 1 < parts.length)).join('');
        expect(lineFeeds(joined)).toBe(lineFeeds(formatText(text).text));
      }),
    );
  });
});

function lineFeeds(text: string): string {
  return text.replace(/\r\n?/gu, '\n');
}

function comments(text: string): string[] {
  return tokenize(text).lines.flatMap(({ comment }) =>
    comment ? [text.slice(comment.start, comment.end).trimEnd()] : [],
  );
}

/** The text with other blanks between the tokens of each line. */
function withOtherBlanks(text: string, blank: () => string): string {
  let other = '';
  let end = 0;
  for (const { startOffset, endOffset } of tokenize(text).pieces) {
    const gap = text.slice(end, startOffset);
    other += /^[ \t\u00a0]+$/u.test(gap) ? blank() : gap;
    other += text.slice(startOffset, endOffset);
    end = endOffset;
  }
  return other + text.slice(end);
}
