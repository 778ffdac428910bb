/**
 * Loss summed from A: slopes are fibre, steps are joints. It ends in the gauge,
 * the margin strip turned upright: the limit line, the ground over it, the
 * expected loss, and the readings, left for A>B and right for B>A.
 */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Drawing, DrawnElement } from '../drawing.ts';
import { lookOf } from '../verdicts.ts';
import { isFibre, type Placed, pushApart } from './placing.ts';

const gaugeWidth = 60;
const gaugeGap = 54;
const labelHeight = 13;

interface ProfileProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly left: number;
  readonly to: number;
  readonly top: number;
  readonly bottom: number;
}

export function Profile({ drawing, placed, left, to, top, bottom }: ProfileProps) {
  const loss = lossScale(drawing).range([bottom, top]);
  const gauge = to + gaugeGap;
  const labels = pushApart(
    drawing.labels.map((label) => ({ ...label, y: loss(label.loss) + 4 })),
    labelHeight,
    bottom,
  );
  const path = (pick: (element: DrawnElement) => number | undefined) =>
    line()(stairOf(placed, pick, to + 40).map(([x, sum]) => [x, loss(sum)])) ?? '';
  return (
    <g class="profile">
      <text class="quiet" x="0" y={top + 4}>
        loss from A, dB
      </text>
      {loss.ticks(4).map((tick) => (
        <g key={tick}>
          <path class="hair" d={`M${left} ${loss(tick)}H${to + 40}`} />
          <text class="quiet" x={left - 8} y={loss(tick) + 4} text-anchor="end">
            {tick}
          </text>
        </g>
      ))}
      <Distances placed={placed} top={top} bottom={bottom} />
      <path class="stair expected" d={path(({ expected }) => expected?.upTo)} />
      <path class="stair allowed" d={path(({ allowed }) => allowed?.upTo)} />
      <StairNames placed={placed} loss={loss} />
      <Gauge drawing={drawing} x={gauge} loss={loss} top={top} bottom={bottom} />
      {labels.map(({ text, at, verdict, strength }) => (
        <text
          key={text}
          class={strength === 'expected' ? 'quiet' : verdict ? `text-${lookOf(verdict).tone}` : ''}
          x={gauge + gaugeWidth + 8}
          y={at}
        >
          {text}
        </text>
      ))}
    </g>
  );
}

/** From nothing to a little over whatever is greatest; the gauge and both staircases share it. */
export function lossScale({ limit, allowed, expected, readings }: Drawing) {
  const most = Math.max(
    0.1,
    limit?.loss ?? 0,
    allowed?.loss ?? 0,
    expected?.loss ?? 0,
    ...readings.map(({ loss }) => loss),
  );
  return scaleLinear().domain([0, most * 1.12]);
}

type Pick = (element: DrawnElement) => number | undefined;

/** Places across and summed loss; a part without a figure ends what can be said. */
function stairOf(placed: readonly Placed[], pick: Pick, end: number): [number, number][] {
  const first = placed[0];
  const points: [number, number][] = [[(first?.from ?? 0) - 30, 0]];
  let last = 0;
  for (const { element, from, to } of placed) {
    const upTo = pick(element);
    if (!element.counted) continue;
    if (upTo === undefined) return points.length > 1 ? points : [];
    points.push([from, last], [isFibre(element) ? to : from, upTo]);
    last = upTo;
  }
  points.push([end, last]);
  return points;
}

/** Names on the staircases, where the longest stretch of fibre gives them room. */
function StairNames({
  placed,
  loss,
}: {
  placed: readonly Placed[];
  loss: (sum: number) => number;
}) {
  const [longest] = placed
    .filter(({ element }) => isFibre(element))
    .sort((a, b) => b.to - b.from - (a.to - a.from));
  if (!longest || longest.to - longest.from < 90) return null;
  const before = placed[placed.indexOf(longest) - 1]?.element;
  const { allowed, expected } = longest.element;
  const above = loss(allowed?.upTo ?? 0) - 8;
  const below = loss(before?.expected?.upTo ?? 0) + 14;
  return (
    <>
      {allowed ? (
        <text x={longest.from + 12} y={above}>
          most allowed
        </text>
      ) : null}
      {expected && below < loss(0) - 2 ? (
        <text class="quiet" x={longest.from + 12} y={below}>
          expected
        </text>
      ) : null}
    </>
  );
}

/** Metres under the joints, where there is room between them. */
function Distances({
  placed,
  top,
  bottom,
}: {
  placed: readonly Placed[];
  top: number;
  bottom: number;
}) {
  let end = Number.NEGATIVE_INFINITY;
  return (
    <>
      {placed.map(({ element, x }, index) => {
        if (isFibre(element)) return null;
        const room = x - end >= 52;
        if (room) end = x;
        return (
          <g key={index}>
            <path class="hair" d={`M${x} ${top}V${bottom}`} />
            {room ? (
              <text class="quiet" x={x} y={bottom + 16} text-anchor="middle">
                {metres(element.at)}
              </text>
            ) : null}
          </g>
        );
      })}
    </>
  );
}

function metres(value: number): string {
  return value >= 10_000 ? `${Number((value / 1000).toFixed(2))} km` : `${Math.round(value)} m`;
}

interface GaugeProps {
  readonly drawing: Drawing;
  readonly x: number;
  readonly loss: (sum: number) => number;
  readonly top: number;
  readonly bottom: number;
}

function Gauge({ drawing, x, loss, top, bottom }: GaugeProps) {
  const { limit, expected, readings } = drawing;
  const middle = x + gaugeWidth / 2;
  return (
    <g class="gauge">
      <path class="hair" d={`M${middle} ${limit ? loss(limit.loss) : top}V${bottom}`} />
      {limit ? (
        <>
          <rect class="over" x={x} y={top} width={gaugeWidth} height={loss(limit.loss) - top} />
          <path class="gauge-limit" d={`M${x} ${loss(limit.loss)}h${gaugeWidth}`} />
        </>
      ) : null}
      {expected ? <path class="dots" d={`M${x} ${loss(expected.loss)}h${gaugeWidth}`} /> : null}
      {readings.map(({ loss: value, side, verdict }, index) => {
        const [from, to] = side === 'up' ? [-14, 0] : side === 'down' ? [0, 14] : [-14, 14];
        return (
          <path
            key={index}
            class={`gauge-reading ${verdict === 'pass' ? 'tone-ink' : `marked tone-${lookOf(verdict).tone}`}`}
            d={`M${middle + from} ${loss(value)}H${middle + to}`}
          />
        );
      })}
      <text class="quiet" x={middle - 3} y={bottom + 16} text-anchor="end">
        A&gt;B
      </text>
      <text class="quiet" x={middle + 3} y={bottom + 16}>
        B&gt;A
      </text>
    </g>
  );
}
