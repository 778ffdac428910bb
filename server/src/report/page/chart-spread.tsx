/** How loss is spread: a brick a reading, one band a wavelength, one axis for all. */
import { scaleLinear } from 'd3-scale';
import type { LossBin, LossSpread, Point } from '../charts.ts';
import { counted } from '../figures.ts';
import { lookOf } from '../verdicts.ts';
import { ChartFrame, type Drawn, domainOf, plotHeight } from './chart-frame.tsx';
import type { ChartActions } from './charts.tsx';
import { textWidth } from './text-width.ts';

interface SpreadProps extends ChartActions {
  readonly spread: LossSpread;
  /** All wavelengths, each in the order of its fibres. */
  readonly points: readonly Point[];
  readonly width: number;
}

const axis = 20;
const least = 76;
/** Over the bricks of a band: what the lines are. */
const words = 30;
/** More readings in a bin are a bar. */
const mostBricks = 200;

export function LossSpreadChart({ spread, points, width, point, go }: SpreadProps) {
  const { bands, bin } = spread;
  const band = Math.max(least, (plotHeight - axis) / bands.length);
  const height = band * bands.length + axis;
  const x = scaleLinear(
    domainOf(
      bands.flatMap(({ limit, expected, bins }) => [
        ...bins.flatMap(({ from }) => [from, from + bin]),
        ...[limit, expected].flatMap((each) => (each ? [each.loss] : [])),
      ]),
    ),
    [0, width],
  );
  const most = Math.max(...bands.flatMap(({ bins }) => bins.map(sizeOf)));
  const brick = Math.min(6, (band - words) / most);
  const drawn = points.map((each): Drawn => {
    const index = bands.findIndex(({ wavelength }) => each.what.startsWith(wavelength));
    return { point: each, x: x(each.loss), y: (index + 1) * band - 3 };
  });
  return (
    <ChartFrame
      title="How loss is spread"
      note={`readings per ${bin.toFixed(2)} dB`}
      says={bands
        .map(
          ({ wavelength, bins, limit, expected }) =>
            `${wavelength}: ${counted(
              bins.reduce((sum, each) => sum + sizeOf(each), 0),
              'reading',
            )}${limit ? `, limit ${limit.figure}` : ''}${expected ? `, expected ${expected.figure}` : ''}`,
        )
        .join('; ')
        .concat('.')}
      width={width}
      height={height}
      drawn={drawn}
      point={point}
      go={go}
      table={{
        heads: ['wavelength', 'from dB', 'readings', 'not pass'],
        rows: () =>
          bands.flatMap(({ wavelength, bins }) =>
            bins.map((each) => [
              wavelength,
              each.from.toFixed(2),
              String(sizeOf(each)),
              each.others.map((verdict) => lookOf(verdict).word).join(', '),
            ]),
          ),
      }}
    >
      {bands.map(({ wavelength, limit, expected, bins }, index) => {
        const base = (index + 1) * band;
        const names = namesOf({
          wavelength,
          width,
          limit: limit && { x: x(limit.loss), text: `limit ${limit.figure}` },
          expected: expected && { x: x(expected.loss), text: `expected ${expected.figure}` },
        });
        const line = ({ x, rows }: NamedLine) => `M${x} ${base - band + 4 + rows * row}V${base}`;
        return (
          <g key={wavelength}>
            {limit ? (
              <rect
                class="over"
                x={x(limit.loss)}
                y={base - band + 4}
                width={Math.max(0, width - x(limit.loss))}
                height={band - 4}
              />
            ) : null}
            {bins.map((each) => (
              <Bricks
                key={each.from}
                bin={each}
                x={x(each.from)}
                wide={x(bin) - x(0)}
                base={base}
                brick={brick}
              />
            ))}
            <path class="hair" d={`M0 ${base}H${width}`} />
            {names.expected ? <path class="stair expected" d={line(names.expected)} /> : null}
            {names.limit ? <path class="chart-limit" d={line(names.limit)} /> : null}
            <text class="strong" x="0" y={base - band + 14}>
              {wavelength}
            </text>
            <Name of={names.limit} top={base - band} />
            <Name of={names.expected} top={base - band} quiet={true} />
          </g>
        );
      })}
      {x.ticks(5).map((tick) => (
        <text
          key={tick}
          class="quiet"
          x={Math.min(width - 10, Math.max(10, x(tick)))}
          y={height - 5}
          text-anchor="middle"
        >
          {x.tickFormat(5)(tick)}
        </text>
      ))}
    </ChartFrame>
  );
}

/** Height of a row of words. */
const row = 13;

interface Line {
  readonly x: number;
  readonly text: string;
}

interface NamedLine extends Line {
  /** Where its words begin and in which row; undefined where there is no room for them. */
  readonly at?: { readonly from: number; readonly row: number };
  /** Rows of words that it begins below. */
  readonly rows: number;
}

interface Named {
  readonly limit: NamedLine | undefined;
  readonly expected: NamedLine | undefined;
}

/**
 * The wavelength stands at the left, the others beside their lines: in the first or second of two
 * rows, and where no word meets another. A line that would go through words begins below them.
 */
export function namesOf(of: {
  readonly wavelength: string;
  readonly width: number;
  readonly limit: Line | undefined;
  readonly expected: Line | undefined;
}): Named {
  const { wavelength, width, limit, expected } = of;
  const lines = [limit, expected].flatMap((line) => (line ? [line.x] : []));
  const boxes: { readonly from: number; readonly to: number; readonly row: number }[] = [
    { from: 0, to: textWidth(wavelength, { bold: true }) + 6, row: 0 },
  ];
  const place = ({ x, text }: Line, left: boolean): NamedLine['at'] => {
    const wide = textWidth(text) + 4;
    const sides = left ? [x - 4 - wide, x + 4] : [x + 4, x - 4 - wide];
    const places = [0, 1].flatMap((row) => sides.map((from) => ({ from, to: from + wide, row })));
    const free = places.filter(
      ({ from, to, row }) =>
        from >= 0 &&
        to <= width &&
        !boxes.some((box) => box.row === row && from < box.to && box.from < to),
    );
    const best = free.find(({ from, to }) => !lines.some((at) => isIn(at, from, to))) ?? free[0];
    if (best) boxes.push(best);
    return best && { from: best.from, row: best.row };
  };
  const [limitAt, expectedAt] = [limit && place(limit, true), expected && place(expected, false)];
  const named = (line: Line, at: NamedLine['at']): NamedLine => ({
    ...line,
    ...(at && { at }),
    rows: Math.max(
      0,
      ...boxes.filter(({ from, to }) => isIn(line.x, from, to)).map(({ row }) => row + 1),
    ),
  });
  return {
    limit: limit && named(limit, limitAt),
    expected: expected && named(expected, expectedAt),
  };
}

function isIn(x: number, from: number, to: number): boolean {
  return from - 2 < x && x < to + 2;
}

interface NameProps {
  readonly of: NamedLine | undefined;
  readonly top: number;
  readonly quiet?: boolean;
}

function Name({ of, top, quiet = false }: NameProps) {
  if (!of?.at) return null;
  return (
    <text class={quiet ? 'quiet' : undefined} x={of.at.from} y={top + 14 + of.at.row * row}>
      {of.text}
    </text>
  );
}

interface BricksProps {
  readonly bin: LossBin;
  readonly x: number;
  readonly wide: number;
  readonly base: number;
  readonly brick: number;
}

function Bricks({ bin: { passes, others }, x, wide, base, brick }: BricksProps) {
  const inside = Math.max(1, wide - 1);
  const bar = brick < 2 || passes + others.length > mostBricks;
  const gap = bar ? 0 : 1;
  const full = bar
    ? passes > 0
      ? `M${x} ${base}v${-passes * brick}h${inside}V${base}z`
      : ''
    : Array.from(
        { length: passes },
        (_, index) => `M${x} ${base - index * brick}h${inside}v${-(brick - gap)}h${-inside}z`,
      ).join('');
  return (
    <>
      {full ? <path class="brick" d={full} /> : null}
      {others.map((verdict, index) => (
        <rect
          key={index}
          class={`open-brick tone-${lookOf(verdict).tone}`}
          x={x + 0.5}
          y={base - (passes + index + 1) * brick + gap + 0.5}
          width={Math.max(1, inside - 1)}
          height={Math.max(1, brick - gap - 1)}
        />
      ))}
    </>
  );
}

function sizeOf({ passes, others }: LossBin): number {
  return passes + others.length;
}
