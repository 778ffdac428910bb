/**
 * A ring cut open at its first node, which stands at both ends: loss summed
 * going round one way, solid, and the other way, dashed. Below, what each cut
 * leaves: the long way, in figures.
 */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { RingDrawing } from '../ring.ts';
import type { TextPlace } from '../view.ts';
import { GoTo } from './go-to.tsx';
import { pushApart } from './placing.ts';
import { SignShape } from './sign.tsx';
import { textWidth } from './text-width.ts';

const plotHeight = 150;
const rowOfNames = 16;

interface RingProps {
  readonly ring: RingDrawing;
  readonly width: number;
  readonly show?: (place: TextPlace) => void;
}

export function RingView({ ring, width, show }: RingProps) {
  return (
    <>
      <Stairs ring={ring} width={width} />
      <Cuts ring={ring} show={show} />
    </>
  );
}

/** One way round as the text has it, and the other. */
const ways = ['as written', 'the other way'] as const;
/** Room for the names of the rows of figures, and half of the first of them, px. */
const left = textWidth(ways[1]) + 32;

function Stairs({ ring, width }: Pick<RingProps, 'ring' | 'width'>) {
  const room = Math.max(width, ring.stations.length * 64, 320);
  const right = room - textWidth(ways[1]) - 16;
  const x = scaleLinear()
    .domain([0, Math.max(1e-9, ring.metres)])
    .range([left, right]);
  const names = placeNames(
    ring.stations.map(({ name, at }) => ({ name, x: x(at) })),
    room,
  );
  const pathY = (Math.max(...names.map(({ row }) => row)) + 1) * rowOfNames + 18;
  const top = pathY + 42;
  const bottom = top + plotHeight;
  const losses = ring.stations.flatMap(({ there = 0, back = 0 }) => [there, back]);
  const loss = scaleLinear()
    .domain([0, Math.max(0.1, ring.limit?.loss ?? 0, ...losses) * 1.1])
    .range([bottom, top]);
  const stair = (pick: (station: RingDrawing['stations'][number]) => number | undefined) =>
    line()(
      ring.stations.flatMap((station): [number, number][] => {
        const sum = pick(station);
        return sum === undefined ? [] : [[x(station.at), loss(sum)]];
      }),
    ) ?? '';
  const labels = pushApart(labelsOf(ring, loss), 13, bottom);
  const height = bottom + 62;
  return (
    <svg
      class="drawing ring"
      width={room}
      height={height}
      viewBox={`0 0 ${room} ${height}`}
      aria-hidden="true"
    >
      <path class="fibre" d={`M${left} ${pathY}H${right}`} />
      {names.map(({ name, x: at, row }, index) => (
        <g key={index}>
          {row === 0 ? null : (
            <path
              class="leader"
              d={`M${x(ring.stations[index]?.at ?? 0)} ${pathY - 16 - (row - 1) * rowOfNames}V${pathY - 8}`}
            />
          )}
          <text x={at} y={pathY - 13 - row * rowOfNames} text-anchor="middle">
            {name}
          </text>
          <SignShape sign="pair" x={x(ring.stations[index]?.at ?? 0)} y={pathY} />
        </g>
      ))}
      <text class="quiet" x="0" y={top - 10}>
        loss going round, dB
      </text>
      {loss.ticks(4).map((tick) => (
        <g key={tick}>
          <path class="hair" d={`M${left} ${loss(tick)}H${right}`} />
          <text class="quiet" x={left - 8} y={loss(tick) + 4} text-anchor="end">
            {tick}
          </text>
        </g>
      ))}
      {ring.limit ? (
        <>
          <rect
            class="over"
            x={left}
            y={top}
            width={right - left}
            height={loss(ring.limit.loss) - top}
          />
          <path class="gauge-limit" d={`M${left} ${loss(ring.limit.loss)}H${right}`} />
        </>
      ) : null}
      <path class="stair allowed" d={stair(({ there }) => there)} />
      <path class="stair expected" d={stair(({ back }) => back)} />
      {labels.map(({ text, quiet, at }) => (
        <text key={text} class={quiet ? 'quiet' : ''} x={right + 8} y={at}>
          {text}
        </text>
      ))}
      <StationFigures ring={ring} x={x} y={bottom + 16} />
    </svg>
  );
}

interface PlacedName {
  readonly name: string;
  readonly x: number;
  /** 0 beside the station; above it a line leads down. */
  readonly row: number;
}

/** Names over their stations, each in the lowest row where it meets no other and no line from above. */
function placeNames(
  stations: readonly { readonly name: string; readonly x: number }[],
  room: number,
): readonly PlacedName[] {
  const ends: number[] = [];
  const leaders: { readonly x: number; readonly row: number }[] = [];
  return stations.map(({ name, x }): PlacedName => {
    const half = textWidth(name) / 2;
    const middle = Math.max(half, Math.min(x, room - half));
    const from = middle - half - 4;
    const free = (row: number) =>
      (ends[row] ?? -8) + 4 <= from &&
      leaders.every((leader) => leader.row <= row || leader.x < from) &&
      ends.slice(0, row).every((end) => end + 4 < x);
    let row = 0;
    while (row < ends.length && !free(row)) row += 1;
    ends[row] = middle + half;
    if (row > 0) leaders.push({ x, row });
    return { name, x: middle, row };
  });
}

function labelsOf({ stations, limit }: RingDrawing, loss: (sum: number) => number) {
  const last = stations.at(-1);
  return [
    ...(last?.there === undefined
      ? []
      : [{ text: ways[0] as string, quiet: false, y: loss(last.there) + 4 }]),
    ...(last?.back === undefined
      ? []
      : [{ text: ways[1] as string, quiet: true, y: loss(last.back) + 4 }]),
    ...(limit ? [{ text: `limit ${limit.figure}`, quiet: false, y: loss(limit.loss) + 4 }] : []),
  ];
}

interface FiguresProps {
  readonly ring: RingDrawing;
  readonly x: (metres: number) => number;
  readonly y: number;
}

/** Below each station how far it is, and the loss up to it either way; the first stands at both ends. */
function StationFigures({ ring: { stations }, x, y }: FiguresProps) {
  const taken: { from: number; to: number }[] = [];
  const shown = [0, stations.length - 1, ...stations.keys()].filter((index, place, all) => {
    const station = stations[index];
    if (!station || all.indexOf(index) !== place) return false;
    const half = Math.max(...textsAt(station).map((text) => textWidth(text))) / 2;
    const at = { from: x(station.at) - half, to: x(station.at) + half };
    if (taken.some((other) => at.from < other.to + 6 && other.from < at.to + 6)) return false;
    taken.push(at);
    return true;
  });
  return (
    <>
      {ways.map((way, row) => (
        <text key={way} class="quiet" x="0" y={y + (row + 1) * 17}>
          {way}
        </text>
      ))}
      {shown.map((index) =>
        textsAt(stations[index]!).map((text, row) => (
          <text
            key={`${index} ${row}`}
            class={row === 1 ? '' : 'quiet'}
            x={x(stations[index]!.at)}
            y={y + row * 17}
            text-anchor="middle"
          >
            {text}
          </text>
        )),
      )}
    </>
  );
}

/** Distance, loss as written, loss the other way. */
function textsAt({ at, there, back }: RingDrawing['stations'][number]): readonly string[] {
  const figure = (sum: number | undefined) => (sum === undefined ? '' : sum.toFixed(2));
  return [`${Number((at / 1000).toFixed(2))} km`, figure(there), figure(back)];
}

/** One row a span: what it loses, and what light loses going the long way when it is cut. */
function Cuts({ ring, show }: Pick<RingProps, 'ring' | 'show'>) {
  return (
    <table class="cuts small">
      <thead>
        <tr>
          <th scope="col">span</th>
          <th scope="col">most allowed, dB</th>
          <th scope="col">when it is cut: the long way</th>
          <th scope="col">most allowed, dB</th>
          <th scope="col">limit, dB</th>
        </tr>
      </thead>
      <tbody>
        {ring.cuts.map(({ span, working, long, place }) => (
          <tr key={span}>
            <th scope="row">
              <GoTo place={place} show={show}>
                {span}
              </GoTo>
            </th>
            <td class="figure" data-head="most allowed">
              {working}
            </td>
            <td data-head="when cut, the long way">
              {long ? long.length : 'none: a node on it does not let light by'}
            </td>
            <td
              class={long?.over ? 'figure text-fail' : 'figure'}
              data-head={long ? 'most allowed' : undefined}
            >
              {long ? `${long.figure}${long.over ? ', over' : ''}` : ''}
            </td>
            <td class="figure quiet" data-head={long?.limit ? 'limit' : undefined}>
              {long?.limit ?? ''}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
