/**
 * The moment of typing: the reading at the cursor beside its limit and its
 * neighbours. While the cursor is inside the number the stroke is pale and
 * moves, and what is said stays that of the last whole number.
 */
import { useRef } from 'preact/hooks';
import type { Layout } from '../../../../server/src/report/page/layout.ts';
import { heightOf } from '../../../../server/src/report/page/layout.ts';
import { Mark, toneOf } from '../../../../server/src/report/page/mark.tsx';
import { Ground, Strip } from '../../../../server/src/report/page/strip.tsx';
import { FramedRow, TableGround } from '../../../../server/src/report/page/table.tsx';
import { limitAt, placeOf, ticks } from '../../../../server/src/report/scale.ts';
import { lookOf } from '../../../../server/src/report/verdicts.ts';
import type { ScaleView, TextPlace, Typed } from '../../../../server/src/report/view.ts';

interface TypedProps {
  readonly typed: Typed;
  readonly scale: ScaleView;
  readonly layout: Layout;
  readonly show: (place: TextPlace) => void;
}

/** Names the reading, so that what was said of it is not said of another. */
function keyOf({ object, fibre, what }: Typed): string {
  return `${object} ${fibre} ${what}`;
}

export function TypedView({ typed, scale, layout, show }: TypedProps) {
  const whole = useRef<Typed | undefined>(undefined);
  if (!typed.inside) whole.current = typed;
  const said = whole.current && keyOf(whole.current) === keyOf(typed) ? whole.current : undefined;
  return (
    <header class="typed">
      <div class="typed-top small quiet">
        <span>last typed, line {typed.line}</span>
        <span>{typed.made}</span>
      </div>
      <div class="typed-line">
        {said ? (
          <>
            <Mark verdict={said.verdict} />
            <span class={toneOf(said.verdict)}>{lookOf(said.verdict).word}</span>
          </>
        ) : (
          <span class="quiet">typing</span>
        )}
        <b class="mono">{typed.object}</b>
        <span>
          fibre {typed.fibre}, {typed.what}
        </span>
        <b class={said ? toneOf(said.verdict) : ''}>{typed.value}</b>
      </div>
      <TypedStrip typed={typed} />
      <p class="typed-sentence">
        {said ? (
          <>
            <b>{said.over}</b> {said.sentence} <span class="quiet">{said.advice}</span>
          </>
        ) : null}
      </p>
      {typed.next ? (
        <p class="typed-next small quiet">
          next <b>{typed.next}</b>
        </p>
      ) : null}
      <div class="table typed-rows">
        <div class="table-body">
          <TableGround scale={scale} />
          {typed.rows.map((row) => (
            <FramedRow
              key={row.key}
              row={row}
              scale={scale}
              layout={layout}
              dense={false}
              height={heightOf('fibre', row.values.length, layout, false)}
              classes={row.fibre === typed.fibre ? 'here' : ''}
              click={({ at }) => at && show(at)}
            />
          ))}
        </div>
      </div>
    </header>
  );
}

function TypedStrip({ typed }: { readonly typed: Typed }) {
  const { reach, lane, limit, expected } = typed;
  const expectedAt = lane.expected === undefined ? undefined : placeOf(lane.expected, reach);
  return (
    <div class={`typed-strip${typed.inside ? ' inside' : ''}`}>
      <Ground scale={{ reach, ticks: ticks(reach) }} />
      <div class="strip-head">
        <svg width="100%" height="16" aria-hidden="true">
          {expected && expectedAt !== undefined && expectedAt >= 0 && expectedAt < limitAt - 0.2 ? (
            <text x={`${Math.max(0.08, expectedAt) * 100}%`} y="12" text-anchor="middle">
              expected {expected}
            </text>
          ) : null}
          {limit ? (
            <text class="limit-word" x={`${limitAt * 100}%`} y="12" text-anchor="middle">
              limit {limit}
            </text>
          ) : null}
        </svg>
      </div>
      <Strip lanes={[lane]} reach={reach} height={64} full={true} />
    </div>
  );
}
