/** Head of the table and one row with its frame: what the live page and the printed one share. */
import type { Row, ScaleView, TextPlace } from '../view.ts';
import { type Layout, RowView } from './rows.tsx';
import { StripHead } from './strip.tsx';

export function TableHead({
  scale,
  layout,
}: {
  readonly scale: ScaleView;
  readonly layout: Layout;
}) {
  const wide = layout === 'wide';
  return (
    <div class="table-head row" aria-hidden="true">
      <span />
      {layout === 'narrow' ? null : <span>verdict</span>}
      <span>{layout === 'narrow' ? 'link, verdict' : 'link'}</span>
      {wide ? <span class="number">length</span> : null}
      {wide ? <span class="made">readings</span> : null}
      {layout === 'narrow' ? null : <span>limit</span>}
      <StripHead scale={scale} few={layout === 'narrow'} />
      <span class="number">margin, dB</span>
      {wide ? <span>where</span> : null}
    </div>
  );
}

/** What the strokes mean; it stays under the table. */
export function KeyLine({ scale }: { readonly scale: ScaleView }) {
  return (
    <p class="small quiet key-line">
      each stroke is a reading, placed by its margin: left of the line is inside the limit, right is
      over · up A&gt;B, down B&gt;A · dashed line expected
      {scale.uncertainty ? ` · whisker uncertainty ${scale.uncertainty}` : ''}
    </p>
  );
}

interface FramedProps {
  readonly row: Row;
  readonly scale: ScaleView;
  readonly layout: Layout;
  readonly dense: boolean;
  readonly height: number;
  /** Pixels from the top of the table; undefined where rows follow each other. */
  readonly top?: number;
  readonly position?: { readonly index: number; readonly count: number };
  readonly classes?: string;
  readonly click?: (row: Row, twice: boolean) => void;
  readonly show?: (place: TextPlace) => void;
}

export function FramedRow({
  row,
  scale,
  layout,
  dense,
  height,
  top,
  position,
  classes = '',
  click,
  show,
}: FramedProps) {
  const open = 'open' in row ? row.open : undefined;
  const level = row.kind === 'link' || row.kind === 'fold' ? 1 : row.kind === 'reading' ? 3 : 2;
  return (
    // biome-ignore lint/a11y: the grid holds focus and keys for all its rows, most of which do not exist
    <div
      id={`row-${position?.index ?? row.key}`}
      role="row"
      aria-level={level}
      aria-expanded={open}
      aria-rowindex={position ? position.index + 1 : undefined}
      class={`row ${row.kind}${open ? ' open' : ''} ${classes}`}
      style={{ height: `${height}px`, ...(top === undefined ? {} : { top: `${top}px` }) }}
      onClick={click ? (event) => click(row, event.detail > 1) : undefined}
    >
      {/* biome-ignore lint/a11y: a cell of the grid, read aloud in place of what is drawn */}
      <span role="gridcell" class="hidden-status">
        {row.spoken}
      </span>
      <RowView row={row} scale={scale} layout={layout} dense={dense} show={show} />
    </div>
  );
}
