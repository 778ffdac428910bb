/** Places in a long table: arithmetic both ways, and scrolling that is scaled beyond what browsers can hold. */
import { describe, expect, test } from 'vitest';
import { heightsOf } from '../../client/src/preview/page/heights.ts';
import type { RowKind, Run } from '../../server/src/report/view.ts';

function outline(runs: readonly Run[]) {
  const rows = runs.reduce((sum, [, count]) => sum + count, 0);
  return { runs, rows, dense: false, overview: [], fibresShown: 0 };
}

const opened: readonly Run[] = [
  ['link', 3, 1],
  ['columns', 1, 1],
  ['fibre', 12, 2],
  ['limits', 1, 2],
  ['link', 40, 1],
  ['fold', 1, 1],
] satisfies readonly [RowKind, number, number][];

describe.each(['wide', 'middle', 'narrow'] as const)('%s', (layout) => {
  const heights = heightsOf(outline(opened), layout);

  test('every row begins where the one above ends, and is found at each of its heights', () => {
    let top = 0;
    for (let row = 0; row < 58; row += 1) {
      expect(heights.topOf(row)).toBe(top);
      expect(heights.rowAt(top)).toBe(row);
      expect(heights.rowAt(top + heights.heightAt(row) - 1)).toBe(row);
      top += heights.heightAt(row);
    }
    expect(heights.total).toBe(top);
  });

  test('rows of an opened link know it, others stand by themselves', () => {
    expect([0, 2, 3, 10, 16, 17, 57].map((row) => heights.linkOf(row))).toEqual([
      undefined,
      undefined,
      2,
      2,
      2,
      undefined,
      undefined,
    ]);
  });
});

test('a table of a million rows scrolls within ten million pixels, from its first row to its last', () => {
  const heights = heightsOf(outline([['link', 1_000_000, 1]]), 'wide');
  const seen = 900;
  expect(heights.total).toBe(40_000_000);
  expect(heights.scrolled).toBe(10_000_000);
  expect(heights.rowsAt(0, seen)).toBe(0);
  expect(heights.rowsAt(heights.scrolled - seen, seen)).toBeCloseTo(heights.total - seen, 3);
  for (const row of [1, 500_000, 999_000]) {
    const place = heights.scrolledAt(heights.topOf(row), seen);
    expect(heights.rowsAt(place, seen)).toBeCloseTo(heights.topOf(row), 3);
  }
});
