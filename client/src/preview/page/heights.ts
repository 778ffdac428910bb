/**
 * Where rows stand: kinds of rows have fixed heights, so a place in a long
 * table is arithmetic. Browsers stop at 18 to 33 million pixels; beyond ten
 * million the page is shorter than its rows, and scrolling is scaled.
 */
import { heightOf, type Layout } from '../../../../server/src/report/page/layout.ts';
import type { TableOutline } from '../../../../server/src/report/view.ts';

const mostPixels = 10_000_000;

interface Stretch {
  readonly from: number;
  readonly count: number;
  readonly top: number;
  readonly each: number;
}

export interface Heights {
  /** Of all rows, px. */
  readonly total: number;
  /** Of the element that scrolls. */
  readonly scrolled: number;
  topOf(index: number): number;
  heightAt(index: number): number;
  /** The row that covers a height. */
  rowAt(y: number): number;
  /** The link that an opened row belongs to; undefined for rows that stand by themselves. */
  linkOf(index: number): number | undefined;
  /** Height among the rows at a place of the scrolled element, and the way back; `seen` is the height in sight. */
  rowsAt(scrolled: number, seen: number): number;
  scrolledAt(rows: number, seen: number): number;
}

export function heightsOf(outline: TableOutline, layout: Layout): Heights {
  const stretches: Stretch[] = [];
  /** First row of an opened link's inside, and the link's own row. */
  const insides: { from: number; link: number }[] = [];
  let from = 0;
  let top = 0;
  for (const [kind, count, lines] of outline.runs) {
    const each = heightOf(kind, lines, layout, outline.dense);
    if (kind === 'columns') insides.push({ from, link: from - 1 });
    else if (kind === 'link' || kind === 'fold') insides.push({ from, link: -1 });
    stretches.push({ from, count, top, each });
    from += count;
    top += count * each;
  }
  const nothing: Stretch = { from: 0, count: 0, top: 0, each: 1 };
  const stretchOf = (index: number) => lastThat(stretches, (one) => one.from <= index) ?? nothing;
  const total = top;
  const scrolled = Math.min(total, mostPixels);
  const scale = (seen: number) =>
    scrolled === total ? 1 : (total - seen) / Math.max(1, scrolled - seen);
  return {
    total,
    scrolled,
    topOf(index) {
      const stretch = stretchOf(index);
      return stretch.top + (index - stretch.from) * stretch.each;
    },
    heightAt: (index) => stretchOf(index).each,
    rowAt(y) {
      const stretch = lastThat(stretches, (one) => one.top <= y) ?? nothing;
      const row = stretch.from + Math.floor((y - stretch.top) / stretch.each);
      return Math.max(0, Math.min(outline.rows - 1, row));
    },
    linkOf(index) {
      const link = lastThat(insides, (one) => one.from <= index)?.link ?? -1;
      return link < 0 ? undefined : link;
    },
    rowsAt: (y, seen) => y * scale(seen),
    scrolledAt: (y, seen) => y / scale(seen),
  };
}

/** The last of a row of growing things that fits. */
function lastThat<Thing>(
  all: readonly Thing[],
  fits: (thing: Thing) => boolean,
): Thing | undefined {
  let low = -1;
  let high = all.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (fits(all[middle]!)) low = middle;
    else high = middle - 1;
  }
  return all[low];
}
