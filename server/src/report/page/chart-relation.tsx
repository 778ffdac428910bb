/** The longer wavelength up, the shorter across, on equal scales, with the band in which both usually lie. */
import { scaleLinear } from 'd3-scale';
import type { Relation } from '../charts.ts';
import { lookOf } from '../verdicts.ts';
import { ChartFrame, type Drawn, domainOf, plotHeight } from './chart-frame.tsx';
import type { ChartActions } from './charts.tsx';
import { pushApart } from './placing.ts';
import { textWidth } from './text-width.ts';

const left = 34;
const axis = 22;
/** Fibres that are named; the others are filled too, and in the table. */
const mostNamed = 3;

export function RelationChart({
  relation,
  width,
  point,
  go,
}: ChartActions & { readonly relation: Relation; readonly width: number }) {
  const { short, long, points, usual, limits } = relation;
  const bottom = plotHeight - axis;
  const domain = domainOf([
    ...points.flatMap(({ loss, across }) => [loss, across]),
    ...[limits.short, limits.long].flatMap((each) => (each ? [each.loss] : [])),
  ]);
  const x = scaleLinear(domain, [left, width]);
  const y = scaleLinear(domain, [bottom, 4]);
  const drawn = points.map(
    (each): Drawn<(typeof points)[number]> => ({
      point: each,
      x: x(each.across),
      y: y(each.loss),
    }),
  );
  const outside = drawn.filter(({ point: { outside: words } }) => words !== '');
  const named = pushApart(
    [...new Map(outside.map((each) => [each.point.fibre, each])).values()]
      .slice(0, mostNamed)
      .map((each) => ({ ...each, y: each.y + 4, own: each.y })),
    26,
    bottom - 16,
  );
  return (
    <ChartFrame
      title="Wavelength against wavelength"
      note={`${long.replace(' nm', '')} up, ${short} across`}
      says={`${points.length} readings, ${outside.length} outside of what is usual.`}
      width={width}
      drawn={drawn}
      point={point}
      go={go}
      table={{
        heads: ['fibre', 'direction', `${short}, dB`, `${long}, dB`, 'beside what is usual'],
        rows: () =>
          points.map(({ place, direction, acrossFigure, figure, outside: words }) => [
            place,
            direction,
            acrossFigure,
            figure,
            words,
          ]),
      }}
    >
      {/* A picture in the picture cuts off what stands beyond the axes. */}
      <svg x={left} y="4" width={width - left} height={bottom - 4} aria-hidden="true">
        {limits.long ? (
          <rect
            class="over"
            x="0"
            y="0"
            width={width}
            height={Math.max(0, y(limits.long.loss) - 4)}
          />
        ) : null}
        {limits.short ? (
          <rect
            class="over"
            x={x(limits.short.loss) - left}
            y="0"
            width={width}
            height={plotHeight}
          />
        ) : null}
        {usual ? (
          <path
            class="usual-band"
            d={bandOf(
              usual,
              domain,
              (value) => x(value) - left,
              (value) => y(value) - 4,
            )}
          />
        ) : null}
      </svg>
      {x.ticks(4).map((tick) => (
        <text
          key={tick}
          class="quiet"
          x={Math.max(left + 8, Math.min(width - 10, x(tick)))}
          y={plotHeight - 5}
          text-anchor="middle"
        >
          {x.tickFormat(4)(tick)}
        </text>
      ))}
      {y.ticks(4).map((tick) => (
        <text key={tick} class="quiet" x={left - 6} y={y(tick) + 4} text-anchor="end">
          {y.tickFormat(4)(tick)}
        </text>
      ))}
      <path class="hair" d={`M${left} 4V${bottom}H${width}`} />
      {limits.long ? (
        <path class="chart-limit" d={`M${left} ${y(limits.long.loss)}H${width}`} />
      ) : null}
      {limits.short ? (
        <path class="chart-limit" d={`M${x(limits.short.loss)} 4V${bottom}`} />
      ) : null}
      {limits.long ? (
        <text x={left + 4} y={y(limits.long.loss) + 13}>
          limit {limits.long.figure}
        </text>
      ) : null}
      {limits.short ? (
        <text x={x(limits.short.loss) - 4} y={bottom - 4} text-anchor="end">
          limit {limits.short.figure}
        </text>
      ) : null}
      {drawn.map(({ x: across, y: up, point: { verdict, outside: words } }, index) => (
        <rect
          key={index}
          class={`chart-point${words ? ' outside' : ''}${verdict === 'pass' ? '' : ` tone-${lookOf(verdict).tone}`}`}
          x={across - 2.5}
          y={up - 2.5}
          width="5"
          height="5"
        />
      ))}
      {named.map(({ point: { place, outside: words, fibre }, x: at, at: up }) => {
        const room = width - at - 10;
        const toRight = textWidth(words) < room;
        const place_ = {
          x: toRight ? at + 8 : at - 8,
          'text-anchor': toRight ? 'start' : 'end',
        } as const;
        return (
          <g key={fibre}>
            <text class="strong" {...place_} y={up}>
              {place}
            </text>
            <text class="quiet" {...place_} y={up + 12}>
              {words}
            </text>
          </g>
        );
      })}
    </ChartFrame>
  );
}

/** Between two parallels: what is lost less at the longer wavelength, and as far from it as is usual still. */
function bandOf(
  { less, half }: NonNullable<Relation['usual']>,
  [from, to]: readonly [number, number],
  x: (value: number) => number,
  y: (value: number) => number,
): string {
  const upper = (value: number) => value - less + half;
  const lower = (value: number) => value - less - half;
  return `M${x(from)} ${y(upper(from))}L${x(to)} ${y(upper(to))}L${x(to)} ${y(lower(to))}L${x(from)} ${y(lower(from))}z`;
}
