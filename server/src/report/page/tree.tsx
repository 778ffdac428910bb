/**
 * A splitter tree over its loss: one row an end, fibre solid, a splitter's loss
 * dotted, limits that all ends share as lines through them.
 */
import { scaleLinear } from 'd3-scale';
import type { TreeDrawing } from '../tree.ts';
import { lookOf } from '../verdicts.ts';
import type { TextPlace } from '../view.ts';

const rowHeight = 22;
const top = 34;
const left = 12;
/** Room for values and names at the right, px; in a narrow page for short names alone. */
const nameRoom = { wide: 300, narrow: 116 };

interface TreeProps {
  readonly tree: TreeDrawing;
  readonly width: number;
  readonly narrow: boolean;
  readonly show?: (place: TextPlace) => void;
}

export function TreeView({ tree, width, narrow, show }: TreeProps) {
  const room = Math.max(width, narrow ? 320 : 640);
  const right = room - (narrow ? nameRoom.narrow : nameRoom.wide);
  const height = top + tree.rows * rowHeight + 30;
  const loss = scaleLinear()
    .domain([0, greatest(tree) * 1.06])
    .range([left, right]);
  const y = (row: number) => top + row * rowHeight + rowHeight / 2;
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
      {tree.bounds.map(({ what, loss: at, figure }) => (
        <g key={what}>
          <rect
            class="over"
            x={what === 'limit' ? loss(at) : left}
            y={top}
            width={what === 'limit' ? right - loss(at) : loss(at) - left}
            height={bottom - top}
          />
          <path class="gauge-limit" d={`M${loss(at)} ${top - 6}V${bottom}`} />
          <text x={loss(at)} y={top - 12} text-anchor={what === 'limit' ? 'end' : 'start'}>
            {`${what} ${figure}`}
          </text>
        </g>
      ))}
      {tree.stems.map((stem, index) => (
        <g key={index} class={stem.place && show ? 'clickable' : ''}>
          {/* biome-ignore lint/a11y/noStaticElementInteractions: the list of ends is the way for the keyboard */}
          <path
            class="stem"
            d={`M${loss(stem.at)} ${y(stem.first)}V${y(stem.last)}`}
            onClick={stem.place && show ? () => show(stem.place as TextPlace) : undefined}
          />
          <path class="sign filled" d={wedge(loss(stem.at), y(stem.first))} />
          {narrow ? null : (
            <text class="quiet" x={loss(stem.at) + 4} y={y(stem.first) - 7}>
              {stem.name}
            </text>
          )}
        </g>
      ))}
      {tree.lines.map(({ row, from, to, split }, index) => (
        <path
          key={index}
          class={split ? 'split-loss' : 'fibre'}
          d={`M${loss(from)} ${y(row)}H${loss(to)}`}
        />
      ))}
      {tree.ends.map((end) => (
        <End
          key={end.row}
          end={end}
          y={y(end.row)}
          loss={loss}
          right={right}
          narrow={narrow}
          show={show}
        />
      ))}
    </svg>
  );
}

interface EndProps {
  readonly end: TreeDrawing['ends'][number];
  readonly y: number;
  readonly loss: (value: number) => number;
  readonly right: number;
  readonly narrow: boolean;
  readonly show: TreeProps['show'];
}

/** The most allowed as a short bar, the limit of the end as a longer one, readings as strokes. */
function End({ end, y, loss, right, narrow, show }: EndProps) {
  const { tone, word } = lookOf(end.verdict);
  const { place } = end;
  const words = [
    end.name,
    end.alike > 0 ? `×${end.alike + 1} alike` : '',
    end.verdict === 'pass' || end.readings.length === 0 ? '' : word,
  ];
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the list of ends is the way for the keyboard
    <g
      class={place && show ? 'clickable' : ''}
      onClick={place && show ? () => show(place) : undefined}
    >
      <title>
        {[end.name, end.length, end.limit ? `limit ${end.limit.figure} dB` : '']
          .filter(Boolean)
          .join(', ')}
      </title>
      {end.limit ? <path class="gauge-limit" d={`M${loss(end.limit.loss)} ${y - 8}v16`} /> : null}
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
      {narrow ? null : (
        <text class={`tone-figure${tone === 'ink' ? '' : ` text-${tone}`}`} x={right + 8} y={y + 4}>
          {end.figure}
        </text>
      )}
      <text
        class={tone === 'ink' ? 'mono' : `mono text-${tone}`}
        x={right + (narrow ? 8 : 52)}
        y={y + 4}
      >
        {words.filter(Boolean).join(' ')}
      </text>
    </g>
  );
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
