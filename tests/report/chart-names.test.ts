/** Words of a chart stand on no line of it and on no other word, wherever its lines fall. */
import { expect, it } from 'vitest';
import { namesOf } from '../../server/src/report/page/chart-spread.tsx';
import { textWidth } from '../../server/src/report/page/text-width.ts';

const width = 372;
const wavelength = '1550 nm';

/** Boxes of all words, and the lines with the row of words that they begin below. */
function laidOut(limit: number, expected: number) {
  const named = namesOf({
    wavelength,
    width,
    limit: { x: limit, text: 'limit 2.04' },
    expected: { x: expected, text: 'expected 1.24' },
  });
  const lines = [named.limit!, named.expected!];
  const words = [
    { from: 0, to: textWidth(wavelength, { bold: true }), row: 0 },
    ...lines.flatMap(({ at, text }) => (at ? [{ ...at, to: at.from + textWidth(text) }] : [])),
  ];
  return { lines, words };
}

it('keeps words off lines and off each other', () => {
  for (let limit = 0; limit <= width; limit += 7) {
    for (let expected = 0; expected <= limit; expected += 5) {
      const { lines, words } = laidOut(limit, expected);
      const crossed = lines.flatMap(({ x, rows }) =>
        words.filter(({ from, to, row }) => row >= rows && from < x && x < to),
      );
      const met = words.filter((a) =>
        words.some((b) => a !== b && a.row === b.row && a.from < b.to && b.from < a.to),
      );
      expect([limit, expected, crossed, met]).toEqual([limit, expected, [], []]);
    }
  }
});

it('leaves both names where there is room for them', () => {
  const { lines } = laidOut(300, 90);
  expect(lines.map(({ at, rows }) => [at?.row, rows])).toEqual([
    [0, 0],
    [0, 0],
  ]);
  // A line at the left begins below the wavelength.
  expect(laidOut(340, 20).lines.map(({ rows }) => rows)).toEqual([0, 1]);
});
