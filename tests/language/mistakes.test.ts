/**
 * What goes wrong while a plan is typed. Each case stands between two sound
 * declarations: it gives the findings marked in it, and harms neither of them.
 */
import { globSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseBlock } from '../../grammar/src/parser.ts';
import { Source } from '../../grammar/src/source.ts';
import { expectFindings, type Found, readMarkers } from '../support/markers.ts';

const before = 'link BEFORE "Sound" {\n  from        X\n}\n\n';
const after = 'link AFTER "Sound" {\n  from        X\n}\n';

const files = globSync(join(import.meta.dirname, 'mistakes/*.lwl')).sort();

describe.each(files.map((path) => [basename(path), path]))('%s', (_, path) => {
  it.each(cases(readFileSync(path, 'utf8')))('%s', (_title, fixture) => {
    const marked = readMarkers(fixture);
    const source = Source.of(before + marked.text + after);
    expectFindings(marked, findingsOf(source, 4));
    const first = parseBlock(source.block(0).text);
    expect(first.entries[0]).toEqual(parseBlock(before).entries[0]);
    expect(source.block(source.blockCount - 1).text).toBe(after);
  });

  it.each(cases(readFileSync(path, 'utf8')))(
    '%s: the fixes leave no finding there',
    (_title, fixture) => {
      const { text } = readMarkers(fixture);
      const source = Source.of(text);
      const lines = new Set<number>();
      const fixes = [...source.blocks()].flatMap(({ block, firstLine }) => {
        const start = source.offsetAt({ line: firstLine, character: 0 });
        return parseBlock(block.text).findings.flatMap(({ fix, span }) => {
          if (fix) lines.add(source.positionAt(start + span.start).line);
          return (fix?.edits ?? []).map((edit) => ({
            start: source.positionAt(start + edit.span.start),
            end: source.positionAt(start + edit.span.end),
            text: edit.text,
          }));
        });
      });
      for (const { start, end, text: newText } of fixes.toReversed()) {
        source.edit({ start, end }, newText);
      }
      const left = findingsOf(source, 0).filter(({ range }) => lines.has(range.start.line));
      expect(left.map(({ name }) => name)).toEqual([]);
    },
  );
});

/** Titles and texts of the cases of a file. `\u0000` and the like stand for their character. */
function cases(text: string): [string, string][] {
  return text
    .split(/^----- /mu)
    .slice(1)
    .map((part) => {
      const end = part.indexOf('\n');
      const fixture = part
        .slice(end + 1)
        .replace(/\\u([0-9a-f]{4})/gu, (_, code) => String.fromCharCode(Number.parseInt(code, 16)));
      return [part.slice(0, end), fixture];
    });
}

/** Findings of all blocks, as lines and columns from `offset` lines on. */
function findingsOf(source: Source, offset: number): Found[] {
  return [...source.blocks()].flatMap(({ block, firstLine }) => {
    const start = source.offsetAt({ line: firstLine, character: 0 });
    return parseBlock(block.text).findings.map(({ name, message, span }) => {
      const from = source.positionAt(start + span.start);
      const to = source.positionAt(start + span.end);
      return {
        name,
        message,
        range: {
          start: { ...from, line: from.line - offset },
          end: { ...to, line: to.line - offset },
        },
      };
    });
  });
}
