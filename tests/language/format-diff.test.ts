/**
 * One changed fact is one changed line. Values of sound plans are made longer,
 * shorter or renamed, and the file formatted again: the difference that a
 * reviewer sees is that line, or the whole table where its headings changed.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatText } from '../../grammar/src/format.ts';
import { tokenize } from '../../grammar/src/tokens.ts';
import { examples, library } from '../examples/corpus.ts';

const shape = (name: string) => readFileSync(join(import.meta.dirname, 'shapes', name), 'utf8');

/** The difference of two texts of as many lines, as a reviewer reads it. */
function difference(before: string, after: string): string[] {
  const [old, now] = [before.split('\n'), after.split('\n')];
  expect(now).toHaveLength(old.length);
  return now.flatMap((line, at) => (line === old[at] ? [] : [`- ${old[at]}`, `+ ${line}`]));
}

function changed(text: string, from: string, to: string): string[] {
  expect(text.split(from)).toHaveLength(2);
  return difference(text, formatText(text.replace(from, to)).text);
}

describe('the difference after', () => {
  const backbone = shape('01-backbone.lwl');
  const matrix = shape('05-leaf-and-spine.lwl');

  it('a longer cell is its row', () => {
    expect(changed(backbone, '2.63        1.44', '12.6305        1.44')).toEqual([
      '-   3                2.66        2.63        1.44         1.41',
      '+   3                2.66       12.6305      1.44         1.41',
    ]);
  });

  it('a longer argument is its line', () => {
    expect(
      changed(
        backbone,
        '"closure under ramp 3"\n  segment',
        '"closure 3, under the ramp"\n  segment',
      ),
    ).toEqual([
      '-   splice      fusion at "closure under ramp 3"',
      '+   splice      fusion at "closure 3, under the ramp"',
    ]);
  });

  it('another name of a declaration is its opening line', () => {
    expect(changed(backbone, 'setup MM-1 {', 'setup MULTIMODE-OPERATIONS-1 {')).toEqual([
      '- setup MM-1 {',
      '+ setup MULTIMODE-OPERATIONS-1 {',
    ]);
  });

  it('a longer name in a row is that row, cells behind it pushed on', () => {
    expect(changed(matrix, 'L01-S2 ', 'L01-S2-BY-THE-SOUTHERN-DUCT ')).toEqual([
      '-   L01-S2          LEAF-01:50      SPINE-2:01       24',
      '+   L01-S2-BY-THE-SOUTHERN-DUCT  LEAF-01:50  SPINE-2:01  24',
    ]);
  });

  it('another heading is the table below it, for its stops moved', () => {
    const moved = changed(matrix, 'length in m', 'length in ft');
    expect(moved.filter((line) => line.startsWith('+')).length).toBeLessThanOrEqual(3);
    const wider = changed(matrix, 'from, ', 'title,  from, ');
    expect(wider.filter((line) => line.startsWith('+')).length).toBeLessThanOrEqual(3);
  });
});

/** Numbers and texts of lines, headings aside: stops follow from those, and with them a whole table. */
function valuesOf(text: string): { start: number; end: number }[] {
  const headings = [...text.matchAll(/^ *columns .*$/gmu)].map(({ index, 0: line }) => [
    index,
    index + line.length,
  ]);
  return [...text.matchAll(/(?<=\s)\d+(?:\.\d+)?(?=\s|$)|(?<=")[^"\n]+(?=")/gmu)]
    .map((match) => ({ start: match.index, end: match.index + match[0].length }))
    .filter(({ start }) => !headings.some(([from = 0, to = 0]) => start >= from && start < to));
}

describe.each([...examples, ...library].map(({ name, text }) => [name, text]))('%s', (_, text) => {
  it('is in canonical form', () => {
    expect(formatText(text)).toEqual({ text, refused: [] });
  });

  it('changes in one line where one value changes', () => {
    const values = valuesOf(text);
    if (values.length === 0) return;
    fc.assert(
      fc.property(
        fc.nat(values.length - 1),
        fc.constantFrom('7', '70', '7000.25', '0.123456'),
        (index, value) => {
          const { start, end } = values[index]!;
          const typed = text.slice(0, start) + value + text.slice(end);
          expect(difference(text, formatText(typed).text).length).toBeLessThanOrEqual(2);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('keeps every token and comment', () => {
    const loose = text.replace(/(?<=[^\s"]) {2,}(?=[^\s"])/gu, ' ').replace(/^ +/gmu, '\t');
    const words = (source: string) => {
      const { lines } = tokenize(source);
      return lines.map((line) => source.slice(line.start, line.end).replace(/\s+/gu, ' ').trim());
    };
    expect(words(formatText(loose).text)).toEqual(words(text));
  });
});
