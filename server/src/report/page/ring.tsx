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

const left = 56;
const top = 30;
const bottom = 190;
const height = 250;
const labelWidth = 96;

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

function Stairs({ ring, width }: Pick<RingProps, 'ring' | 'width'>) {
  const room = Math.max(width, ring.stations.length * 64, 320);
  const right = room - 72;
  const x = scaleLinear()
    .domain([0, Math.max(1e-9, ring.metres)])
    .range([left, right]);
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
  let free = -Infinity;
  let low = false;
  return (
    <svg
      class="drawing ring"
      width={room}
      height={height}
      viewBox={`0 0 ${room} ${height}`}
      aria-hidden="true"
    >
      <text class="quiet" x="0" y={top - 14}>
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
          <text x={right + 6} y={loss(ring.limit.loss) + 4}>{`limit ${ring.limit.figure}`}</text>
        </>
      ) : null}
      <path class="stair allowed" d={stair(({ there }) => there)} />
      <path class="stair expected" d={stair(({ back }) => back)} />
      {ring.stations.map(({ name, at }, index) => {
        const here = x(at);
        low = here < free ? !low : false;
        free = here + labelWidth;
        return (
          <g key={index}>
            <path class="leader" d={`M${here} ${bottom}v${low ? 26 : 8}`} />
            <circle class="station" cx={here} cy={bottom} r="3.5" />
            <text
              x={here}
              y={bottom + (low ? 40 : 22)}
              text-anchor={
                index === 0 ? 'start' : index === ring.stations.length - 1 ? 'end' : 'middle'
              }
            >
              {name}
            </text>
          </g>
        );
      })}
    </svg>
  );
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
            <td class="figure">{working}</td>
            <td>{long ? long.length : 'none: a node on it does not let light by'}</td>
            <td class={long?.over ? 'figure text-fail' : 'figure'}>
              {long ? `${long.figure}${long.over ? ', over' : ''}` : ''}
            </td>
            <td class="figure quiet">{long?.limit ?? ''}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
