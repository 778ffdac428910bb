/** Heights of rows: fixed for each kind and layout, so that a position in a long table is arithmetic. */
import type { RowKind } from '../view.ts';

export type Layout = 'wide' | 'middle' | 'narrow';

/** Least widths of the page in px for each layout. */
const widths = { wide: 960, middle: 640 } as const;

export function layoutFor(width: number): Layout {
  return width >= widths.wide ? 'wide' : width >= widths.middle ? 'middle' : 'narrow';
}

/** `lines`: wavelengths of the link, each of which takes a line of its own where there is little room. */
export function heightOf(kind: RowKind, lines: number, layout: Layout, dense: boolean): number {
  const narrow = layout === 'narrow';
  switch (kind) {
    case 'link':
      return dense ? 24 : narrow ? 44 : 40;
    case 'columns':
      return narrow ? 24 : 36;
    case 'fibre':
      return narrow ? Math.max(24, 18 * lines) : 24;
    case 'reading':
      return narrow ? 40 : 24;
    case 'limits':
      return (layout === 'wide' ? 36 : 64) * lines + 16;
    case 'fold':
      return 40;
  }
}
