/**
 * A splitter tree over its loss: one row an end, fibre solid, a splitter's loss
 * dotted, limits that all ends share as lines through them.
 */
import { scaleLinear } from 'd3-scale';
import type { TreeDrawing } from '../tree.ts';
import { lookOf } from '../verdicts.ts';
import type { TextPlace } from '../view.ts';
import { SignShape } from './sign.tsx';
import { cutTo, textWidth } from './text-width.ts';

const rowHeight = 22;
const top = 34;
const edge = 12;
/** Names at the right of a narrow page, px. */
const nameColumn = 104;

interface TreeProps {
  readonly tree: TreeDrawing;
  readonly width: number;
  readonly narrow: boolean;
  readonly show?: (place: TextPlace) => void;
}

/** What the parts of the picture share. */
interface Frame {
  readonly loss: (value: number) => number;
  readonly y: (row: number) => number;
  readonly right: number;
  readonly room: number;
  readonly narrow: boolean;
  readonly show: TreeProps['show'];
}

export function TreeView({ tree, width, narrow, show }: TreeProps) {
  const room = Math.max(width, narrow ? 320 : 640);
  const left = narrow || !tree.root.name ? edge : textWidth(tree.root.name, { mono: true }) + 30;
  const words = narrow
    ? nameColumn + 36
    : Math.max(...tree.ends.map((end) => textWidth(wordsOf(end), { bold: true }) + 56));
  const right = room - Math.min(words + 16, room * 0.55);
  const height = top + tree.rows * rowHeight + 30;
  const loss = scaleLinear()
    .domain([0, greatest(tree) * 1.06])
    .range([left, right]);
  const y = (row: number) => top + row * rowHeight + rowHeight / 2;
  const frame: Frame = { loss, y, right, room, narrow, show };
  const bottom = top + tree.rows * rowHeight;
  return (
    <svg
      class="drawing tree"
      width={room}
      height={height}
      viewBox={`0 0 ${room} ${height}`}
      aria-hidden="true"
    >
      {loss.ticks(narrow ? 4 : 8).map((tick) => (
        <g key={tick}>
          <path class="hair" d={`M${loss(tick)} ${top}V${bottom}`} />
          <text class="quiet" x={loss(tick)} y={bottom + 16} text-anchor="middle">
            {tick === 0 ? '0 dB' : tick}
          </text>
        </g>
      ))}
      <Bounds tree={tree} frame={frame} left={left} bottom={bottom} />
      {narrow || !tree.root.name ? null : (
        <>
          <text class="mono" x={left - 20} y={y(tree.root.row) + 4} text-anchor="end">
            {tree.root.name}
          </text>
          <SignShape sign="pair" x={left - 8} y={y(tree.root.row)} />
        </>
      )}
      {tree.stems.map((stem, index) => (
        <Stem key={index} stem={stem} frame={frame} />
      ))}
      {tree.lines.map(({ row, from, to, split }, index) => (
        <path
          key={index}
          class={split ? 'split-loss' : 'fibre'}
          d={`M${loss(from)} ${y(row)}H${loss(to)}`}
        />
      ))}
      {tree.stems.map(({ at, row }, index) => (
        <path key={index} class="sign" d={wedge(loss(at), y(row))} />
      ))}
      {tree.ends.map((end) => (
        <End key={end.row} end={end} bounds={tree.bounds} frame={frame} />
      ))}
    </svg>
  );
}

interface BoundsProps {
  readonly tree: TreeDrawing;
  readonly frame: Frame;
  readonly left: number;
  readonly bottom: number;
}

/** Limits that all ends share, through all of them: the least named at its left, the greatest at its right. */
function Bounds({ tree, frame: { loss, right, room }, left, bottom }: BoundsProps) {
  return (
    <>
      {tree.bounds.map(({ what, name, loss: at, figure }) => {
        const words = `${what} ${figure}`;
        const width = textWidth(words);
        const before = what === 'least' ? loss(at) - width > 0 : loss(at) + width > room;
        return (
          <g key={what}>
            <title>{name}</title>
            <rect
              class="over"
              x={what === 'limit' ? loss(at) : left}
              y={top}
              width={what === 'limit' ? right - loss(at) : loss(at) - left}
              height={bottom - top}
            />
            <path class="gauge-limit" d={`M${loss(at)} ${top - 6}V${bottom}`} />
            <text x={loss(at)} y={top - 12} text-anchor={before ? 'end' : 'start'}>
              {words}
            </text>
          </g>
        );
      })}
    </>
  );
}

interface StemProps {
  readonly stem: TreeDrawing['stems'][number];
  readonly frame: Frame;
}

/** Where a path parts, with the ratio over the wedge. */
function Stem({ stem, frame: { loss, y, show } }: StemProps) {
  const { at, row, first, last, name, ratio, place } = stem;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the list of ends is the way for the keyboard
    <g
      class={place && show ? 'clickable' : ''}
      onClick={place && show ? () => show(place) : undefined}
    >
      <title>{name}</title>
      <path class="stem" d={`M${loss(at)} ${y(first)}V${y(last)}`} />
      <text class="quiet" x={loss(at) - 4} y={y(row) - 9} text-anchor="end">
        {ratio}
      </text>
    </g>
  );
}

interface EndProps {
  readonly end: TreeDrawing['ends'][number];
  readonly bounds: TreeDrawing['bounds'];
  readonly frame: Frame;
}

function wordsOf({ name, alike, verdict, readings }: EndProps['end']): string {
  return [
    name,
    alike > 0 ? `×${alike + 1} alike` : '',
    verdict === 'pass' || readings.length === 0 ? '' : lookOf(verdict).word,
  ]
    .filter(Boolean)
    .join(' ');
}

/** The most allowed as the end of its line, the limit of the end as a short bar, readings as strokes. */
function End({ end, bounds, frame }: EndProps) {
  const { loss, right, room, narrow, show } = frame;
  const { tone } = lookOf(end.verdict);
  const { place } = end;
  const y = frame.y(end.row);
  const own = bounds.some(({ what }) => what === 'limit') ? undefined : end.limit;
  const face = { mono: true, bold: tone !== 'ink' };
  const figureWidth = textWidth(end.figure, { bold: tone !== 'ink' });
  const outermost = Math.max(
    end.loss ?? 0,
    own?.loss ?? 0,
    ...end.readings.map((reading) => reading.loss),
  );
  const words = narrow ? shortWords(end) : wordsOf(end);
  const whole = figureWidth + 8 + textWidth(words, face);
  const behind = behindOf(loss(outermost) + 8, narrow ? figureWidth : whole, bounds, loss);
  const nameX = narrow ? right + 44 : behind + figureWidth + 8;
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the list of ends is the way for the keyboard
    <g
      class={place && show ? 'clickable' : ''}
      onClick={place && show ? () => show(place) : undefined}
    >
      <title>
        {[wordsOf(end), end.length, end.limit ? `limit ${end.limit.figure} dB` : '']
          .filter(Boolean)
          .join(', ')}
      </title>
      {end.loss === undefined ? null : <path class="end" d={`M${loss(end.loss)} ${y - 5}v10`} />}
      {own ? <path class="gauge-limit" d={`M${loss(own.loss)} ${y - 8}v16`} /> : null}
      {end.readings.map(({ loss: value, side, verdict }, index) => {
        const [from, to] = side === 'up' ? [-7, 0] : side === 'down' ? [0, 7] : [-7, 7];
        return (
          <path
            key={index}
            class={`gauge-reading ${verdict === 'pass' ? 'tone-ink' : `marked tone-${lookOf(verdict).tone}`}`}
            d={`M${loss(value)} ${y + from}V${y + to}`}
          />
        );
      })}
      <text class={tone === 'ink' ? '' : `text-${tone}`} x={behind} y={y + 4}>
        {end.figure}
      </text>
      <text class={tone === 'ink' ? 'mono' : `mono text-${tone}`} x={nameX} y={y + 4}>
        {cutTo(words, room - nameX, face)}
      </text>
    </g>
  );
}

/** Words never lie over a limit line: where one is in the way they stand behind it. */
function behindOf(
  from: number,
  width: number,
  bounds: TreeDrawing['bounds'],
  loss: Frame['loss'],
): number {
  return bounds.reduce((x, { loss: at }) => {
    const line = loss(at);
    return x - 4 < line && line < x + width + 4 ? line + 8 : x;
  }, from);
}

/** The last part of a port, for a narrow page: `KIOSK-01 ×16`. */
function shortWords({ name, alike }: EndProps['end']): string {
  const short = name.split('/').at(-1) ?? name;
  return alike > 0 ? `${short} ×${alike + 1}` : short;
}

/** A wedge, its point at the input. */
const wedge = (x: number, y: number): string => `M${x - 9} ${y}L${x} ${y - 6}V${y + 6}Z`;

function greatest({ ends, bounds }: TreeDrawing): number {
  return Math.max(
    0.1,
    ...bounds.map(({ loss }) => loss),
    ...ends.flatMap(({ loss = 0, limit, readings }) => [
      loss,
      limit?.loss ?? 0,
      ...readings.map((each) => each.loss),
    ]),
  );
}
