/** What charts share: title, the picture with its readings to step through, and the table behind it. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import type { Point } from '../charts.ts';
import { lookOf } from '../verdicts.ts';
import type { ChartActions } from './charts.tsx';

export const plotHeight = 196;

/** A reading and where it is drawn, px. */
export interface Drawn<P extends Point = Point> {
  readonly point: P;
  readonly x: number;
  readonly y: number;
}

interface FrameProps extends ChartActions {
  readonly title: string;
  readonly note: string;
  readonly width: number;
  readonly height?: number;
  /** In the order of the fibres. */
  readonly drawn: readonly Drawn[];
  readonly table?: {
    readonly heads: readonly string[];
    rows(): readonly (readonly string[])[];
  };
  /** What the picture says in a sentence. */
  readonly says: string;
  readonly children: ComponentChildren;
}

/** Pixels within which the pointer finds a reading. */
const reach = 16;

export function ChartFrame(props: FrameProps) {
  const {
    title,
    note,
    width,
    height = plotHeight,
    drawn,
    table,
    says,
    point,
    go,
    children,
  } = props;
  const [at, setAt] = useState<number>();
  const chosen = at === undefined ? undefined : drawn[at];
  const choose = (next: number | undefined) => {
    if (next === at) return;
    setAt(next);
    point?.(next === undefined ? undefined : drawn[next]?.point.row);
  };
  const picture = (
    <svg class="drawing chart" width={width} height={height} aria-hidden="true">
      {children}
      {chosen ? (
        <rect class="cell-cursor" x={chosen.x - 6} y={chosen.y - 6} width="12" height="12" />
      ) : null}
    </svg>
  );
  const head = (
    <figcaption>
      <b>{title}</b> <span class="small quiet">{note}</span>
    </figcaption>
  );
  if (!go || drawn.length === 0) {
    return (
      <figure class="chart-frame" style={{ width: `${width}px` }}>
        {head}
        <div role="img" aria-label={`${title}. ${says}`}>
          {picture}
        </div>
      </figure>
    );
  }
  const show = (one: Drawn | undefined) => {
    if (!one) return;
    const { object, fibre, picometres, direction } = one.point;
    go({ object, fibre, wavelength: picometres, direction });
  };
  const key = (event: KeyboardEvent) => {
    const now = at ?? -1;
    const steps: Readonly<Record<string, number>> = {
      ArrowRight: now + 1,
      ArrowUp: now + 1,
      ArrowLeft: now - 1,
      ArrowDown: now - 1,
      PageUp: now + 10,
      PageDown: now - 10,
      Home: 0,
      End: drawn.length - 1,
    };
    const next = steps[event.key];
    if (event.key === 'Enter') show(chosen ?? drawn[0]);
    else if (next !== undefined) choose(Math.max(0, Math.min(drawn.length - 1, next)));
    else return;
    event.preventDefault();
  };
  const move = (event: MouseEvent) => {
    const { left, top } = (event.currentTarget as HTMLElement).getBoundingClientRect();
    choose(nearest(drawn, event.clientX - left, event.clientY - top));
  };
  return (
    <figure class="chart-frame" style={{ width: `${width}px` }}>
      {head}
      <div
        class="chart-stop"
        role="slider"
        aria-label={`${title}. ${says} Readings in the order of fibres.`}
        aria-valuemin={1}
        aria-valuemax={drawn.length}
        aria-valuenow={(at ?? 0) + 1}
        aria-valuetext={spoken(chosen ?? drawn[0])}
        tabIndex={0}
        onKeyDown={key}
        onMouseMove={move}
        onMouseLeave={() => choose(undefined)}
        onBlur={() => choose(undefined)}
        onClick={() => show(chosen)}
      >
        {picture}
      </div>
      <p class="small quiet chart-said">{chosen ? spoken(chosen) : ' '}</p>
      {table ? <AsTable {...table} of={title} /> : null}
    </figure>
  );
}

function spoken(one: Drawn | undefined): string {
  if (!one) return '';
  const { place, what, figure, verdict } = one.point;
  return `${place}, ${what.replace('>', ' to ')}, ${figure} dB, ${lookOf(verdict).word}`;
}

function nearest(drawn: readonly Drawn[], x: number, y: number): number | undefined {
  let found: number | undefined;
  let least = reach * reach;
  for (const [index, each] of drawn.entries()) {
    const far = (each.x - x) ** 2 + (each.y - y) ** 2;
    if (far > least) continue;
    least = far;
    found = index;
  }
  return found;
}

/** The same in words; its rows exist once it is opened. */
function AsTable({ heads, rows, of }: NonNullable<FrameProps['table']> & { readonly of: string }) {
  const [open, setOpen] = useState(false);
  return (
    <div class="small">
      <button type="button" class="goto" aria-expanded={open} onClick={() => setOpen(!open)}>
        as table<span class="unseen">: {of}</span>
      </button>
      {open ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys
        <section class="chart-table" aria-label={`${of}, as table`} tabIndex={0}>
          <table>
            <thead>
              <tr>
                {heads.map((head) => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {rows().map((row, index) => (
                <tr key={index}>
                  {row.map((cell, column) => (
                    <td key={column}>{cell}</td>
                  ))}
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      ) : null}
    </div>
  );
}

/** Least and greatest with a little room at both ends; never nothing. */
export function domainOf(values: Iterable<number>): readonly [number, number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const each of values) {
    least = Math.min(least, each);
    most = Math.max(most, each);
  }
  const room = Math.max(0.05, (most - least) * 0.08);
  return [least - room, most + room];
}
