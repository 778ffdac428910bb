/** Losses of one wavelength in the order of the fibres: strokes left for A>B, right for B>A, and their running median. */
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Course } from '../charts.ts';
import { lookOf } from '../verdicts.ts';
import { ChartFrame, type Drawn, domainOf, plotHeight } from './chart-frame.tsx';
import type { ChartActions } from './charts.tsx';

const left = 34;
const axis = 22;
const stroke = 6;

export function CourseChart({
  course,
  width,
  point,
  go,
}: ChartActions & { readonly course: Course; readonly width: number }) {
  const { wavelength, fibres, points, limit, expected, median, changes, slope } = course;
  const bottom = plotHeight - axis;
  const lines = [limit, expected].flatMap((each) => (each ? [each.loss] : []));
  const y = scaleLinear(domainOf([...points.map(({ loss }) => loss), ...lines]), [bottom, 4]);
  const order = new Map(fibres.map((fibre, index) => [fibre, index]));
  const x = scaleLinear([0, Math.max(1, fibres.length - 1)], [left + 12, width - 12]);
  const across = (fibre: number) => x(order.get(fibre) ?? 0);
  const drawn = points.map((each): Drawn => {
    const way = each.side === 'up' ? -stroke / 2 : each.side === 'down' ? stroke / 2 : 0;
    return { point: each, x: across(each.fibre) + way, y: y(each.loss) };
  });
  const last = fibres.length - 1;
  // Numbers as far apart as they are wide.
  const apart = [1, 2, 6, 12, 24, 48, 96, 144, 288].find((each) => x(each) - x(0) >= 24) ?? 288;
  const numbered = fibres.filter(
    (_, index) =>
      index === 0 ||
      index === last ||
      ((index + 1) % apart === 0 && x(index) - x(0) > 20 && x(last) - x(index) > 20),
  );
  // The name of the expected loss stands on the side of its line where fewer readings are.
  const besideLine =
    expected && (!limit || Math.abs(y(limit.loss) - y(expected.loss)) > 16)
      ? emptier(
          drawn.filter(({ x: at }) => at > width - 100),
          y(expected.loss),
          bottom,
        )
      : undefined;
  const limitUp = !limit || !expected || limit.loss >= expected.loss;
  return (
    <ChartFrame
      title="In the order of fibres"
      note={`${wavelength}, dB by fibre${median.length > 0 ? ', line: median of 5' : ''}`}
      says={[
        `${wavelength}, ${points.length} readings of ${fibres.length} fibres`,
        limit ? `limit ${limit.figure}` : '',
        expected ? `expected ${expected.figure}` : '',
        slope,
        ...changes.map(({ fibre, words }) => `another reference from fibre ${fibre} on, ${words}`),
      ]
        .filter(Boolean)
        .join(', ')
        .concat('.')}
      width={width}
      drawn={drawn}
      point={point}
      go={go}
      table={{
        heads: ['fibre', 'reading', 'loss dB', 'verdict'],
        rows: () =>
          points.map(({ place, what, figure, verdict }) => [
            place,
            what,
            figure,
            lookOf(verdict).word,
          ]),
      }}
    >
      {limit ? (
        <rect
          class="over"
          x={left}
          y="4"
          width={width - left}
          height={Math.max(0, y(limit.loss) - 4)}
        />
      ) : null}
      {y.ticks(4).map((tick) => (
        <g key={tick}>
          <path class="hair" d={`M${left} ${y(tick)}H${width}`} />
          <text class="quiet" x={left - 6} y={y(tick) + 4} text-anchor="end">
            {y.tickFormat(4)(tick)}
          </text>
        </g>
      ))}
      {changes.map(({ fibre, words }) => (
        <g key={fibre}>
          <path
            class="hair reference-line"
            d={`M${(across(fibre) + x((order.get(fibre) ?? 1) - 1)) / 2} 4V${bottom}`}
          >
            <title>{`another reference, ${words}`}</title>
          </path>
        </g>
      ))}
      {expected ? (
        <path class="stair expected" d={`M${left} ${y(expected.loss)}H${width}`} />
      ) : null}
      {limit ? <path class="chart-limit" d={`M${left} ${y(limit.loss)}H${width}`} /> : null}
      <path
        class="chart-median"
        d={line()(median.map(({ fibre, loss }) => [across(fibre), y(loss)])) ?? ''}
      />
      {drawn.map(({ point: { side, verdict }, x: at, y: up }, index) => (
        <path
          key={index}
          class={
            verdict === 'pass' ? 'chart-stroke' : `chart-stroke marked tone-${lookOf(verdict).tone}`
          }
          d={`M${at - stroke / 2} ${up}h${side === 'both' ? stroke * 1.5 : stroke - 1}`}
        />
      ))}
      {limit ? (
        <text x={left + 4} y={y(limit.loss) + (limitUp ? 13 : -4)}>
          limit {limit.figure}
        </text>
      ) : null}
      {expected && besideLine !== undefined ? (
        <text class="quiet" x={width - 4} y={besideLine} text-anchor="end">
          expected {expected.figure}
        </text>
      ) : null}
      {slope ? (
        <text x={width / 2} y={y(limit?.loss ?? y.domain()[1] ?? 0) + 26} text-anchor="middle">
          {slope}
        </text>
      ) : null}
      {numbered.map((fibre) => (
        <text key={fibre} class="quiet" x={across(fibre)} y={plotHeight - 5} text-anchor="middle">
          {fibre}
        </text>
      ))}
    </ChartFrame>
  );
}

function emptier(near: readonly Drawn[], line: number, bottom: number): number {
  const above = near.filter(({ y }) => y > line - 16 && y <= line).length;
  const below = near.filter(({ y }) => y >= line && y < line + 18).length;
  return above < below || line + 14 > bottom ? line - 4 : line + 13;
}
