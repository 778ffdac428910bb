/** Where rows stand: kinds of rows have fixed heights, so a place in a long table is arithmetic. */
import { heightOf, type Layout } from '../../../../server/src/report/page/rows.tsx';
import type { TableOutline } from '../../../../server/src/report/view.ts';

interface Stretch {
  readonly from: number;
  readonly count: number;
  readonly top: number;
  readonly each: number;
}

export interface Heights {
  readonly total: number;
  topOf(index: number): number;
  heightAt(index: number): number;
  /** The row that covers a height. */
  rowAt(y: number): number;
}

export function heightsOf(outline: TableOutline, layout: Layout): Heights {
  const stretches: Stretch[] = [];
  let from = 0;
  let top = 0;
  for (const [kind, count, lines] of outline.runs) {
    const each = heightOf(kind, lines, layout, outline.dense);
    stretches.push({ from, count, top, each });
    from += count;
    top += count * each;
  }
  const find = (fits: (stretch: Stretch) => boolean): Stretch => {
    let low = 0;
    let high = stretches.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      const stretch = stretches[middle];
      if (stretch && fits(stretch)) low = middle;
      else high = middle - 1;
    }
    return stretches[low] ?? { from: 0, count: 0, top: 0, each: 1 };
  };
  const stretchOf = (index: number) => find((stretch) => stretch.from <= index);
  return {
    total: top,
    topOf(index) {
      const stretch = stretchOf(index);
      return stretch.top + (index - stretch.from) * stretch.each;
    },
    heightAt: (index) => stretchOf(index).each,
    rowAt(y) {
      const stretch = find((one) => one.top <= y);
      return Math.min(from - 1, stretch.from + Math.floor((y - stretch.top) / stretch.each));
    },
  };
}
