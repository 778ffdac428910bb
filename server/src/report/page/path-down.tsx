/** A path from above to below, for a narrow page: one element a row, with the staircase beside it. */
import { line } from 'd3-shape';
import type { Drawing } from '../drawing.ts';
import type { DrawnElement } from '../elements.ts';
import { lookOf } from '../verdicts.ts';
import type { TextPlace } from '../view.ts';
import { isFibre } from './placing.ts';
import { diamond, lossScale } from './profile.tsx';
import { SignShape } from './sign.tsx';
import { cutTo, textWidth } from './text-width.ts';

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
  const { allowed, expected, limit, readings } = drawing;
  const sums = allowed !== undefined || expected !== undefined;
  const measured = limit !== undefined || readings.length > 0;
  const height = measured ? end + lastHeight : end;
  const stairX = sums || measured ? width - stairWidth : width;
  const loss = lossScale(drawing).range([stairX, width - 4]);
  const figuresX = stairX - 14;
  return (
    <>
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
        {sums || measured ? <LossAxis loss={loss} x={figuresX} right={width} end={end} /> : null}
        <Rail drawing={drawing} stops={stops} end={end} />
        {stops.map((stop, index) => (
          <StopRow
            key={index}
            stop={stop}
            traced={drawing.traced.find(({ element }) => element === index)?.figure}
            figuresX={sums ? figuresX : width}
            show={show}
          />
        ))}
        <path
          class="stair expected"
          d={stair(stops, loss, (each) => each.expected?.upTo, height, expected?.loss)}
        />
        <path
          class="stair allowed"
          d={stair(stops, loss, (each) => each.allowed?.upTo, height, allowed?.loss)}
        />
        <Diamonds drawing={drawing} stops={stops} loss={loss} />
        {measured ? (
          <Measured drawing={drawing} loss={loss} top={end} width={width} figuresX={figuresX} />
        ) : null}
      </svg>
      <p class="small quiet drawing-key">{keyOf(drawing)}</p>
    </>
  );
}

/** What the lines are, for there is no room to name them where they run. */
function keyOf({ brackets, allowed, expected, setup, traced }: Drawing): string {
  const [outer] = brackets;
  return [
    outer ? `bracket at the left: ${outer.what} ${outer.name}, ${outer.length}` : '',
    allowed ? `solid line: ${allowed.kind === undefined ? 'greatest' : 'most allowed'}` : '',
    expected ? 'dashed: expected' : '',
    traced.some(({ upTo }) => upTo.length > 0) ? 'diamonds: as traced' : '',
    setup?.sentence ?? '',
  ]
    .filter(Boolean)
    .join(' · ');
}

interface LossAxisProps {
  readonly loss: ReturnType<typeof lossScale>;
  /** Where figures end. */
  readonly x: number;
  readonly right: number;
  readonly end: number;
}

function LossAxis({ loss, x, right, end }: LossAxisProps) {
  return (
    <>
      <text class="quiet" x={x} y="12" text-anchor="end">
        dB
      </text>
      {loss.ticks(3).map((tick) => {
        const half = textWidth(String(tick)) / 2;
        return (
          <g key={tick}>
            <path class="hair" d={`M${loss(tick)} ${headHeight - 6}V${end}`} />
            <text class="quiet" x={Math.min(loss(tick), right - half)} y="12" text-anchor="middle">
              {tick}
            </text>
          </g>
        );
      })}
    </>
  );
}

/** The fibre, dashed where it is a cord, with the bracket of what is drawn beside it. */
function Rail({ drawing, stops, end }: { drawing: Drawing; stops: readonly Stop[]; end: number }) {
  const shifts = drawing.lines === 2 ? [-2, 2] : [0];
  const middleOf = ({ element, top, height }: Stop) => (isFibre(element) ? top : top + height / 2);
  return (
    <>
      {shifts.map((shift) =>
        stops.map((stop, index) => {
          const next = stops[index + 1];
          const to = next ? middleOf(next) : isFibre(stop.element) ? end : middleOf(stop);
          const cord = stop.element.sign === 'cord' || next?.element.sign === 'cord';
          return (
            <path
              key={`${shift} ${index}`}
              class={cord && !isJointToFibre(stop, next) ? 'outside' : 'fibre'}
              d={`M${railX + shift} ${middleOf(stop)}V${to}`}
            />
          );
        }),
      )}
      <path class="bracket-side" d={`M${railX - 12} ${headHeight + 10}h-6V${end - 10}h6`} />
    </>
  );
}

const isJointToFibre = (stop: Stop, next: Stop | undefined): boolean =>
  stop.element.sign !== 'cord' && next?.element.sign === 'segment';

interface StopRowProps {
  readonly stop: Stop;
  readonly traced: string | undefined;
  readonly figuresX: number;
  readonly show: DownProps['show'];
}

/** Sign, name, kind and dB of one element. */
function StopRow({ stop, traced, figuresX, show }: StopRowProps) {
  const { element, top, height } = stop;
  const { place, name, kind, mark, severity } = element;
  const middle = top + height / 2;
  const figure = element.counted ? (element.allowed?.text ?? '') : 'not in it';
  const room = figuresX - wordsX - textWidth(figure) - 8;
  const [first, second] = name ? [name, kind] : [kind, ''];
  const more = [second, mark, traced === undefined ? '' : `traced ${traced}`, severity ?? '']
    .filter(Boolean)
    .join(', ');
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the list of elements is the way for the keyboard
    <g
      class={place && show ? 'clickable' : ''}
      onClick={place && show ? () => show(place) : undefined}
    >
      <title>{[name, kind, element.what].filter(Boolean).join(', ')}</title>
      <SignShape sign={element.sign} x={railX} y={middle} />
      <text class={name ? 'mono' : ''} x={wordsX} y={more ? middle - 3 : middle + 4}>
        {cutTo(first, room, { mono: name !== '' })}
      </text>
      {more ? (
        <text class={severity ? `severity-${severity}` : 'quiet'} x={wordsX} y={middle + 11}>
          {cutTo(more, room, { bold: severity !== undefined })}
        </text>
      ) : null}
      <text class={element.counted ? '' : 'quiet'} x={figuresX} y={middle + 4} text-anchor="end">
        {figure}
      </text>
    </g>
  );
}

interface DiamondsProps {
  readonly drawing: Drawing;
  readonly stops: readonly Stop[];
  readonly loss: LossScale;
}

/** What traces saw of the joints, at the loss that each fibre has come to. */
function Diamonds({ drawing: { traced }, stops, loss }: DiamondsProps) {
  return (
    <>
      {traced.flatMap(({ element, at, upTo }) => {
        const stop = element === undefined ? stopAt(stops, at) : stops[element];
        if (!stop) return [];
        const { top, height } = stop;
        const share = (at - stop.element.at) / Math.max(1e-9, stop.element.length);
        const y = top + height * (element === undefined ? Math.min(1, share) : 0.5);
        return upTo.map(({ loss: sum, verdict }, index) => (
          <path
            key={`${at} ${index}`}
            class={`traced${verdict === 'pass' ? '' : ` tone-${lookOf(verdict).tone}`}`}
            d={diamond(loss(sum), y)}
          />
        ));
      })}
    </>
  );
}

function stopAt(stops: readonly Stop[], metres: number): Stop | undefined {
  return stops.find(({ element }) => isFibre(element) && metres <= element.at + element.length);
}

type LossScale = (loss: number) => number;

function stair(
  stops: readonly Stop[],
  loss: LossScale,
  pick: (element: DrawnElement) => number | undefined,
  end: number,
  whole: number | undefined,
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
  const foot = stops.at(-1);
  if (foot && whole !== undefined && Math.abs(whole - last) > 1e-6) {
    const y = foot.top + foot.height;
    points.push([loss(last), y], [loss(whole), y]);
    last = whole;
  }
  points.push([loss(last), end]);
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
