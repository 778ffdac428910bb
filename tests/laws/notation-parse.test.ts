/** Any string has a tree; nothing of it is lost, and no mistake reaches another declaration. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { splitBlocks } from '../../grammar/src/blocks.ts';
import { parseBlock } from '../../grammar/src/parser.ts';
import { Source } from '../../grammar/src/source.ts';
import { tokenize } from '../../grammar/src/tokens.ts';
import type { BlockTree, Body, Entry, Span } from '../../grammar/src/tree.ts';
import { atLeast } from './runs.ts';
import { brokenText, declarations } from './texts.ts';

const anyText = fc.oneof(
  brokenText(16),
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.string({ unit: fc.constantFrom(...'{}\n\r ,"#<>=\\AB1.-:…“’\t'), maxLength: 60 }),
);

describe('tokens', () => {
  it('with blanks, comments and what was skipped are the text', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const { pieces, lines, skipped } = tokenize(text);
        const spans: Span[] = [
          ...pieces.map((piece) => ({ start: piece.startOffset, end: piece.endOffset })),
          ...lines.flatMap(({ comment }) => comment ?? []),
          ...skipped,
        ].sort((a, b) => a.start - b.start || a.end - b.end);
        let end = 0;
        for (const span of spans) {
          expect(span.start).toBeGreaterThanOrEqual(end);
          expect(text.slice(end, span.start)).toMatch(/^[ \t\u00a0\ufeff\r\n]*$/u);
          end = span.end;
        }
        expect(text.slice(end)).toMatch(/^[ \t\u00a0\ufeff\r\n]*$/u);
      }),
      { numRuns: atLeast(1000) },
    );
  });
});

describe('the tree of a text', () => {
  it('exists for any string, and the parser meets no error', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const tree = parseBlock(text);
        expect(tree.findings.map(({ name }) => name)).not.toContain('not-read');
        for (const span of spansOf(tree)) {
          expect(span.start).toBeGreaterThanOrEqual(0);
          expect(span.end).toBeGreaterThanOrEqual(span.start);
          expect(span.end).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: atLeast(1000) },
    );
  });

  it('holds every token that was not skipped, once and in order', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const tree = parseBlock(text);
        const held = [...wordsOf(tree), ...tree.skipped].sort((a, b) => a.start - b.start);
        const punctuation = /^[,{}]$/u;
        for (const { startOffset, endOffset } of tokenize(text).pieces) {
          const source = text.slice(startOffset, endOffset);
          const holders = held.filter(({ start, end }) => start <= startOffset && end >= endOffset);
          if (!punctuation.test(source)) expect([source, holders.length]).toEqual([source, 1]);
        }
      }),
      { numRuns: atLeast(500), examples: [[',{B']] },
    );
  });

  it('has at most one finding that begins in a line', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const source = Source.of(text);
        const lines = parseBlock(text).findings.map(
          ({ span }) => source.positionAt(span.start).line,
        );
        expect(new Set(lines).size).toBe(lines.length);
      }),
      { examples: [['link A {\n  columns fibre, 850 nm A>B\n{\n  1 0.31\n']] },
    );
  });

  it('is the same with line feeds, carriage returns or both', () => {
    fc.assert(
      fc.property(brokenText(14), (text) => {
        const feeds = text.replace(/\r\n?/gu, '\n');
        const names = (from: string) => parseBlock(from).findings.map(({ name }) => name);
        expect(names(feeds.replaceAll('\n', '\r'))).toEqual(names(feeds));
        expect(names(feeds.replaceAll('\n', '\r\n'))).toEqual(names(feeds));
      }),
    );
  });

  it('of a fix applied has no new finding in other blocks', () => {
    fc.assert(
      fc.property(brokenText(10), (text) => {
        for (const { fix } of parseBlock(text).findings) {
          for (const { span } of fix?.edits ?? []) {
            expect(span.start).toBeLessThanOrEqual(span.end);
            expect(span.end).toBeLessThanOrEqual(text.length);
          }
        }
      }),
    );
  });
});

describe('one slip of the hand in a sound text', () => {
  const slip = fc.record({
    place: fc.double({ min: 0, max: 1, noNaN: true }),
    taken: fc.nat(2),
    typed: fc.constantFrom('', '', '', ...'{}"#,<\n 1x-;'),
  });
  const texts = [declarations.join('\n'), declarations.join('')];

  it('changes one declaration at most', () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), slip, (text, { place, taken, typed }) => {
        const at = Math.floor(place * text.length);
        const after = text.slice(0, at) + typed + text.slice(at + taken);
        const now = new Set(declarationsOf(after));
        const gone = declarationsOf(text).filter((shown) => !now.has(shown));
        expect(gone.length).toBeLessThanOrEqual(spoilsTwo(text, at, taken) ? 2 : 1);
      }),
      { numRuns: atLeast(2000) },
    );
  });

  it('gives two findings at most', () => {
    fc.assert(
      fc.property(fc.constantFrom(...texts), slip, (text, { place, taken, typed }) => {
        const at = Math.floor(place * text.length);
        const after = text.slice(0, at) + typed + text.slice(at + taken);
        const findings = splitBlocks(after).flatMap((block) => parseBlock(block).findings);
        expect(findings.map(({ name }) => name).slice(2)).toEqual([]);
      }),
      { numRuns: atLeast(2000) },
    );
  });
});

/** True where the characters taken out belong to two declarations. */
function spoilsTwo(text: string, at: number, taken: number): boolean {
  return splitBlocks(text.slice(0, at)).length < splitBlocks(text.slice(0, at + taken)).length;
}

/** Every declaration with its words and arguments, wherever it stands. */
function declarationsOf(text: string): string[] {
  return splitBlocks(text).flatMap((block) =>
    parseBlock(block).entries.map((entry) =>
      JSON.stringify(entry, (key, value: unknown) =>
        key === 'span' || key === 'open' || key === 'close' || key === 'unitSpan'
          ? undefined
          : typeof value === 'bigint'
            ? value.toString()
            : key === 'word' && typeof value === 'object' && value !== null && 'start' in value
              ? 'columns'
              : value,
      ),
    ),
  );
}

describe('a declaration typed letter by letter between two others', () => {
  it.each(declarations.map((text) => [text.split('\n')[0]!, text]))('%s', (_, text) => {
    const before = 'link BEFORE "Sound" {\n  from        X\n}\n\n';
    const after = 'link AFTER "Sound" {\n  from        X\n}\n';
    const source = Source.of(before + after);
    const sound = parseBlock(source.block(0).text).entries[0];
    const last = source.block(1);
    let line = 4;
    let character = 0;
    for (const letter of text) {
      // The first letter gets a line of its own, as a person would make room.
      const at = { line, character };
      source.edit({ start: at, end: at }, line === 4 && character === 0 ? `${letter}\n` : letter);
      if (letter === '\n') {
        line++;
        character = 0;
      } else character += letter.length;
      expect(parseBlock(source.block(0).text).entries[0]).toEqual(sound);
      expect(source.block(source.blockCount - 1)).toBe(last);
      const findings = [...source.blocks()].flatMap(({ block }) => parseBlock(block.text).findings);
      expect(findings.map(({ name }) => name).slice(2)).toEqual([]);
    }
  });
});

function spansOf(tree: BlockTree): Span[] {
  return [
    ...wordsOf(tree),
    ...tree.skipped,
    ...tree.comments.map(({ span }) => span),
    ...tree.findings.map(({ span }) => span),
  ];
}

/** Spans of all words, arguments, cells and headings. */
function wordsOf(tree: BlockTree): Span[] {
  return tree.entries.flatMap(entrySpans);
}

function entrySpans(entry: Entry): Span[] {
  const lists = entry.lists.flatMap((list) => list.arguments.map(({ span }) => span));
  return [entry.word.span, ...lists, ...(entry.body ? bodySpans(entry.body) : [])];
}

function bodySpans({ entries, table }: Body): Span[] {
  const inner = entries.flatMap(entrySpans);
  if (!table) return inner;
  const headings = table.headings.flatMap((list) => list.arguments.map(({ span }) => span));
  const cells = table.rows.flatMap((row) => row.cells.map(({ span }) => span));
  return [...inner, table.word, ...headings, ...cells];
}
