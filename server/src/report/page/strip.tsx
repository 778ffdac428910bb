/**
 * The margin strip: readings placed by limit minus loss, so that every limit
 * falls on one vertical line through the whole table. Drawn 1000 wide and
 * stretched; strokes keep their width.
 */
import type { Verdict } from '../../evaluate/result.ts';
import { limitAt, placeOf } from '../scale.ts';
import { lookOf } from '../verdicts.ts';
import type { Lane, ScaleView, Side } from '../view.ts';

const WIDTH = 1000;

interface StripProps {
  readonly lanes: readonly Lane[];
  readonly scale: ScaleView;
  readonly height: number;
  /** Whiskers and full strokes: rows of fibres and readings. */
  readonly full: boolean;
}

export function Strip({ lanes, scale, height, full }: StripProps) {
  const each = height / Math.max(1, lanes.length);
  const limit = limitAt * WIDTH;
  return (
    <svg
      class="strip"
      viewBox={`0 0 ${WIDTH} ${height}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect class="over" x={limit} y={0} width={WIDTH - limit} height={height} />
      {scale.ticks.map(({ at, label }) =>
        label === 'limit' ? null : (
          <Line key={label} kind="grid" x={at * WIDTH} from={0} to={height} />
        ),
      )}
      {scale.wanted === undefined ? null : (
        <Line kind="wanted" x={placeOf(scale.wanted, scale.reach) * WIDTH} from={0} to={height} />
      )}
      {lanes.map((lane, index) => (
        <LaneMarks
          key={lane.wavelength}
          lane={lane}
          reach={scale.reach}
          top={index * each}
          height={each}
          full={full}
        />
      ))}
      <Line kind="limit" x={limit} from={0} to={height} />
    </svg>
  );
}

function Line({ kind, x, from, to }: { kind: string; x: number; from: number; to: number }) {
  return (
    <path class={`line ${kind}`} d={`M${x} ${from}V${to}`} vector-effect="non-scaling-stroke" />
  );
}

interface LaneProps {
  readonly lane: Lane;
  readonly reach: number;
  readonly top: number;
  readonly height: number;
  readonly full: boolean;
}

function LaneMarks({ lane, reach, top, height, full }: LaneProps) {
  const middle = top + height / 2;
  const up = Math.min(6, height / 2 - 0.5);
  const span = (side: Side): [number, number] => [
    side === 'down' ? middle : middle - up,
    side === 'up' ? middle : middle + up,
  ];
  const x = (margin: number) => placeOf(margin, reach) * WIDTH;
  const inside = (margin: number) => placeOf(margin, reach) >= 0 && placeOf(margin, reach) <= 1;
  const most = Math.max(1, ...(lane.density?.up ?? []), ...(lane.density?.down ?? []));
  return (
    <g>
      {lane.expected === undefined || !inside(lane.expected) ? null : (
        <path
          class="line expected"
          d={`M${x(lane.expected)} ${top}V${top + height}`}
          vector-effect="non-scaling-stroke"
        />
      )}
      {lane.density
        ? (['up', 'down'] as const).flatMap((side) =>
            (lane.density?.[side] ?? []).map((count, bin) => {
              if (count === 0) return null;
              const tall = (up * count) / most;
              const width = WIDTH / 130;
              const y = side === 'up' ? middle - tall : middle;
              return (
                <rect
                  key={`${side}${bin}`}
                  class="density"
                  x={bin * width}
                  y={y}
                  width={width}
                  height={tall}
                />
              );
            }),
          )
        : null}
      {full && lane.whisker ? (
        <path
          class="line whisker"
          d={`M${clamp(x(lane.whisker.from))} ${middle}H${clamp(x(lane.whisker.to))}`}
          vector-effect="non-scaling-stroke"
        />
      ) : null}
      {(['up', 'down', 'both'] as const).flatMap((side) =>
        lane.plain[side].map((margin, index) => {
          const [from, to] = span(side);
          return inside(margin) ? (
            <path
              key={`${side}${index}`}
              class={`line stroke${full ? '' : ' faint'}`}
              d={`M${x(margin)} ${from}V${to}`}
              vector-effect="non-scaling-stroke"
            />
          ) : (
            <Edge
              key={`${side}${index}`}
              left={placeOf(margin, reach) < 0}
              middle={middle}
              tone="ink"
            />
          );
        }),
      )}
      {lane.marked.map(({ margin, side, verdict }, index) => {
        const [from, to] = span(side);
        return inside(margin) ? (
          <path
            key={index}
            class={`line marked tone-${lookOf(verdict).tone}`}
            d={`M${x(margin)} ${from}V${to}`}
            stroke-dasharray={dashOf(verdict)}
            vector-effect="non-scaling-stroke"
          />
        ) : (
          <Edge
            key={index}
            left={placeOf(margin, reach) < 0}
            middle={middle}
            tone={lookOf(verdict).tone}
          />
        );
      })}
      {lane.dark ? (
        <path
          class="line marked tone-fail"
          d={`M${WIDTH - 2} ${middle - up}V${middle + up}`}
          vector-effect="non-scaling-stroke"
        />
      ) : null}
    </g>
  );
}

/** Off the scale: a double chevron at the edge instead of the stroke. */
function Edge({ left, middle, tone }: { left: boolean; middle: number; tone: string }) {
  const [a, b] = left ? [14, 4] : [WIDTH - 14, WIDTH - 4];
  const d = [0, left ? 12 : -12]
    .map((shift) => `M${a + shift} ${middle - 4}L${b + shift} ${middle}L${a + shift} ${middle + 4}`)
    .join('');
  return <path class={`line edge tone-${tone}`} d={d} vector-effect="non-scaling-stroke" />;
}

function dashOf(verdict: Verdict): string | undefined {
  return verdict === 'invalid' || verdict === 'stale' ? '2 2' : undefined;
}

function clamp(x: number): number {
  return Math.min(WIDTH, Math.max(0, x));
}

/** Head of the strip: signed figures over the grid, and the word `limit` over the line. */
export function StripHead({ scale, few }: { readonly scale: ScaleView; readonly few: boolean }) {
  // In a narrow head only the ends of the scale and its limit have room.
  const shown = scale.ticks.filter(({ label }, index) => !few || index === 0 || label === 'limit');
  return (
    <svg class="strip-head" width="100%" height="16" aria-hidden="true">
      {shown.map(({ at, label }) => (
        <text key={label} x={`${at * 100}%`} y="12" text-anchor={at < 0.03 ? 'start' : 'middle'}>
          {label}
        </text>
      ))}
    </svg>
  );
}
