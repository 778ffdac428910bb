/** A path from above to below, for a narrow page: one element a row, with the staircase beside it. */
import { line } from 'd3-shape';
import type { Drawing, DrawnElement } from '../drawing.ts';
import { lookOf } from '../verdicts.ts';
import type { TextPlace } from '../view.ts';
import { isFibre } from './placing.ts';
import { lossScale } from './profile.tsx';
import { SignShape } from './sign.tsx';

const railX = 24;
const wordsX = 44;
const stairWidth = 124;
const headHeight = 24;
const jointHeight = 34;
const fibreHeight = 44;
const lastHeight = 48;

interface DownProps {
  readonly drawing: Drawing;
  readonly width: number;
  readonly show?: (place: TextPlace) => void;
}

interface Stop {
  readonly element: DrawnElement;
  readonly top: number;
  readonly height: number;
}

export function PathDown({ drawing, width, show }: DownProps) {
  const stops: Stop[] = [];
  let top = headHeight;
  for (const element of drawing.elements) {
    const height = isFibre(element) ? fibreHeight : jointHeight;
    stops.push({ element, top, height });
    top += height;
  }
  const end = top;
  const height = end + lastHeight;
  const stairX = width - stairWidth;
  const loss = lossScale(drawing).range([stairX, width - 4]);
  const shifts = drawing.lines === 2 ? [-2, 2] : [0];
  const figuresX = stairX - 14;
  return (
    <svg
      class="drawing"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      aria-hidden="true"
    >
      <text class="quiet" x={wordsX} y="12">
        from A to B
      </text>
      <text class="quiet" x={figuresX} y="12" text-anchor="end">
        dB
      </text>
      {loss.ticks(3).map((tick) => (
        <g key={tick}>
          <path class="hair" d={`M${loss(tick)} ${headHeight - 6}V${end}`} />
          <text class="quiet" x={loss(tick)} y="12" text-anchor="middle">
            {tick}
          </text>
        </g>
      ))}
      {shifts.map((shift) => (
        <path key={shift} class="fibre" d={`M${railX + shift} ${headHeight + 8}V${end - 8}`} />
      ))}
      <path class="bracket-side" d={`M${railX - 12} ${headHeight + 10}h-6V${end - 10}h6`} />
      {stops.map(({ element, top: y, height: tall }, index) => {
        const { place, name, kind } = element;
        const middle = y + tall / 2;
        return (
          // biome-ignore lint/a11y/noStaticElementInteractions: the list of elements is the way for the keyboard
          <g
            key={index}
            class={place && show ? 'clickable' : ''}
            onClick={place && show ? () => show(place) : undefined}
          >
            <title>{[name, kind].filter(Boolean).join(', ')}</title>
            <SignShape sign={element.sign} x={railX} y={middle} />
            <text class="mono" x={wordsX} y={name ? middle - 3 : middle + 4}>
              {shortened(name || kind, figuresX - wordsX - 36)}
            </text>
            <text class="quiet" x={wordsX} y={middle + 11}>
              {name ? shortened(kind, figuresX - wordsX - 36) : ''}
            </text>
            <text
              class={element.counted ? '' : 'quiet'}
              x={figuresX}
              y={middle + 4}
              text-anchor="end"
            >
              {element.counted ? element.allowed?.text : 'not in it'}
            </text>
          </g>
        );
      })}
      <path class="stair expected" d={stair(stops, loss, ({ expected }) => expected?.upTo, end)} />
      <path class="stair allowed" d={stair(stops, loss, ({ allowed }) => allowed?.upTo, end)} />
      <Measured drawing={drawing} loss={loss} top={end} width={width} figuresX={figuresX} />
    </svg>
  );
}

type LossScale = (loss: number) => number;

function stair(
  stops: readonly Stop[],
  loss: LossScale,
  pick: (element: DrawnElement) => number | undefined,
  end: number,
): string {
  const points: [number, number][] = [[loss(0), headHeight]];
  let last = 0;
  for (const { element, top, height } of stops) {
    if (!element.counted) continue;
    const upTo = pick(element);
    if (upTo === undefined) return '';
    const from = isFibre(element) ? top : top + height / 2;
    const to = isFibre(element) ? top + height : from;
    points.push([loss(last), from], [loss(upTo), to]);
    last = upTo;
  }
  points.push([loss(last), end + lastHeight]);
  return line()(points) ?? '';
}

interface MeasuredProps {
  readonly drawing: Drawing;
  readonly loss: LossScale;
  readonly top: number;
  readonly width: number;
  readonly figuresX: number;
}

/** The last row: the readings against the limit. */
function Measured({ drawing, loss, top, width, figuresX }: MeasuredProps) {
  const { limit, readings } = drawing;
  const middle = top + lastHeight / 2;
  return (
    <g class="gauge">
      {limit ? (
        <>
          <rect
            class="over"
            x={loss(limit.loss)}
            y={top}
            width={width - loss(limit.loss)}
            height={lastHeight}
          />
          <path class="gauge-limit" d={`M${loss(limit.loss)} ${top}v${lastHeight}`} />
        </>
      ) : null}
      {readings.map(({ loss: value, side, verdict }, index) => (
        <path
          key={index}
          class={`gauge-reading ${verdict === 'pass' ? 'tone-ink' : `marked tone-${lookOf(verdict).tone}`}`}
          d={`M${loss(value)} ${side === 'down' ? middle : middle - 10}V${side === 'up' ? middle : middle + 10}`}
        />
      ))}
      <text x={wordsX} y={middle - 3}>
        measured at B
      </text>
      <text class="quiet" x={wordsX} y={middle + 11}>
        A&gt;B up, B&gt;A down
      </text>
      <text x={figuresX} y={middle + 4} text-anchor="end">
        {limit ? limit.figure : ''}
      </text>
    </g>
  );
}

function shortened(text: string, room: number): string {
  const most = Math.max(4, Math.floor(room / 6.4));
  return text.length <= most ? text : `${text.slice(0, most - 1)}…`;
}
