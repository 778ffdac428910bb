/**
 * Loss summed from A: slopes are fibre, steps are joints, open diamonds what
 * traces saw of them. It ends in the gauge,
 * the margin strip turned upright: the limit line, the ground over it, the
 * expected loss, and the readings, left for A>B and right for B>A.
 */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Drawing } from '../drawing.ts';
import type { DrawnElement } from '../elements.ts';
import { lookOf } from '../verdicts.ts';
import { acrossAt, isFibre, type Placed, pushApart } from './placing.ts';
import { cutTo, textWidth } from './text-width.ts';

const gaugeWidth = 60;
const gaugeGap = 54;
const labelGap = 8;
const labelHeight = 13;

/** What the gauge and its labels take at the right, px. */
export function gaugeRoom({ labels, readings }: Drawing, room: number): number {
  if (labels.length === 0 && readings.length === 0) return gaugeGap;
  const widest = Math.max(60, ...labels.map(({ text }) => textWidth(text, { bold: true })));
  return gaugeGap + gaugeWidth + labelGap + Math.min(widest + 4, room / 3);
}

interface ProfileProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly left: number;
  readonly to: number;
  /** Width of the drawing, px. */
  readonly room: number;
  readonly top: number;
  readonly bottom: number;
}

export function Profile({ drawing, placed, left, to, room, top, bottom }: ProfileProps) {
  const loss = lossScale(drawing).range([bottom, top]);
  const gauge = to + gaugeGap;
  const measured = drawing.limit !== undefined || drawing.readings.length > 0;
  const labels = pushApart(
    drawing.labels.map((label) => ({ ...label, y: loss(label.loss) + 4 })),
    labelHeight,
    bottom,
  );
  const roomForLabels = room - gauge - gaugeWidth - labelGap;
  const path = (pick: Pick, whole: number | undefined) =>
    line()(stairOf(placed, pick, to + 40, whole).map(([x, sum]) => [x, loss(sum)])) ?? '';
  return (
    <g class="profile">
      <text class="quiet" x="0" y={top - 8}>
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
      <Distances drawing={drawing} placed={placed} top={top} bottom={bottom} />
      <path
        class="stair expected"
        d={path((each) => each.expected?.upTo, drawing.expected?.loss)}
      />
      <path class="stair allowed" d={path((each) => each.allowed?.upTo, drawing.allowed?.loss)} />
      <StairNames drawing={drawing} placed={placed} loss={loss} />
      <Diamonds drawing={drawing} placed={placed} loss={loss} />
      {measured ? (
        <Gauge drawing={drawing} x={gauge} loss={loss} top={top} bottom={bottom} />
      ) : null}
      {labels.map(({ text, at, verdict, strength }) => (
        <text
          key={text}
          class={strength === 'expected' ? 'quiet' : verdict ? `text-${lookOf(verdict).tone}` : ''}
          x={gauge + gaugeWidth + labelGap}
          y={at}
        >
          <title>{text}</title>
          {cutTo(text, roomForLabels, { bold: verdict !== undefined })}
        </text>
      ))}
    </g>
  );
}

interface DiamondsProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly loss: (sum: number) => number;
}

/** What traces saw: an open diamond for each fibre at the loss that it has come to. */
function Diamonds({ drawing: { traced }, placed, loss }: DiamondsProps) {
  return (
    <>
      {traced.map(({ element, at, figure, fibre, upTo }, index) => {
        const x = element === undefined ? acrossAt(placed, at) : (placed[element]?.x ?? 0);
        return (
          <g key={index}>
            <title>{`traced: ${figure} dB on ${fibre}`}</title>
            {upTo.map(({ loss: sum, verdict }, fibreIndex) => (
              <path
                key={fibreIndex}
                class={`traced${verdict === 'pass' ? '' : ` tone-${lookOf(verdict).tone}`}`}
                d={diamond(x, loss(sum))}
              />
            ))}
          </g>
        );
      })}
    </>
  );
}

export const diamond = (x: number, y: number): string => `M${x - 4} ${y}l4 -4l4 4l-4 4z`;

/** From nothing to a little over whatever is greatest; the gauge and both staircases share it. */
export function lossScale({ limit, allowed, expected, readings, traced }: Drawing) {
  const most = Math.max(
    0.1,
    limit?.loss ?? 0,
    allowed?.loss ?? 0,
    expected?.loss ?? 0,
    ...readings.map(({ loss }) => loss),
    ...traced.flatMap(({ upTo }) => upTo.map(({ loss }) => loss)),
  );
  return scaleLinear().domain([0, most * 1.12]);
}

type Pick = (element: DrawnElement) => number | undefined;

/**
 * Places across and summed loss; a part without a figure ends what can be said.
 * What is in the whole and at no element is a last step behind B.
 */
function stairOf(
  placed: readonly Placed[],
  pick: Pick,
  end: number,
  whole: number | undefined,
): [number, number][] {
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
  if (whole !== undefined && Math.abs(whole - last) > 1e-6) {
    points.push([end - 20, last], [end - 20, whole]);
    last = whole;
  }
  points.push([end, last]);
  return points;
}

/** Names on the staircases, where the longest stretch of fibre gives them room. */
function StairNames({ drawing, placed, loss }: DiamondsProps) {
  const [longest] = placed
    .filter(({ element }) => isFibre(element))
    .sort((a, b) => b.to - b.from - (a.to - a.from));
  const names = [drawing.allowed?.kind === undefined ? 'greatest' : 'most allowed', 'expected'];
  const [most = '', should = ''] = names;
  if (!longest || longest.to - longest.from < textWidth(most) + 20) return null;
  const before = placed[placed.indexOf(longest) - 1]?.element;
  const { allowed, expected } = longest.element;
  const above = loss(allowed?.upTo ?? 0) - 8;
  const below = loss(before?.expected?.upTo ?? 0) + 14;
  return (
    <>
      {allowed ? (
        <text x={longest.from + 12} y={above}>
          {most}
        </text>
      ) : null}
      {expected && below < loss(0) - 2 ? (
        <text class="quiet" x={longest.from + 12} y={below}>
          {should}
        </text>
      ) : null}
    </>
  );
}

interface DistancesProps {
  readonly drawing: Drawing;
  readonly placed: readonly Placed[];
  readonly top: number;
  readonly bottom: number;
}

/** How far along joints are: the ends first, then from A on where there is room; each distance once. */
function Distances({ drawing, placed, top, bottom }: DistancesProps) {
  const joints = placed.filter(({ element }) => !isFibre(element));
  const inKilometres = drawing.metres >= 5000;
  const taken: { from: number; to: number; text: string }[] = [];
  for (const { element, x } of [joints[0], joints.at(-1), ...joints.slice(1, -1)].flatMap(
    (each) => each ?? [],
  )) {
    const text = distanceOf(element.at, inKilometres);
    const half = textWidth(text) / 2;
    const [from, to] = [x - half, x + half];
    if (taken.some((other) => other.text === text || (from < other.to + 8 && other.from < to + 8)))
      continue;
    taken.push({ from, to, text });
  }
  return (
    <>
      {joints.map(({ x }, index) => (
        <path key={index} class="hair" d={`M${x} ${top}V${bottom}`} />
      ))}
      {taken.map(({ from, to, text }) => (
        <text key={text} class="quiet" x={(from + to) / 2} y={bottom + 16} text-anchor="middle">
          {text}
        </text>
      ))}
    </>
  );
}

/** Of one drawing all in the same unit. */
function distanceOf(metres: number, inKilometres: boolean): string {
  return inKilometres ? `${Number((metres / 1000).toFixed(2))} km` : `${Math.round(metres)} m`;
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
      {readings.length === 0 ? null : (
        <path class="hair" d={`M${middle} ${limit ? loss(limit.loss) : top}V${bottom}`} />
      )}
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
      {readings.length === 0 ? null : (
        <>
          <text class="quiet" x={middle - 3} y={bottom + 16} text-anchor="end">
            A&gt;B
          </text>
          <text class="quiet" x={middle + 3} y={bottom + 16}>
            B&gt;A
          </text>
        </>
      )}
    </g>
  );
}
