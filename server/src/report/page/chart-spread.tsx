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
            {expected ? (
              <path class="stair expected" d={`M${x(expected.loss)} ${base - band + 4}V${base}`} />
            ) : null}
            {limit ? (
              <path class="chart-limit" d={`M${x(limit.loss)} ${base - band + 4}V${base}`} />
            ) : null}
            <Names
              wavelength={wavelength}
              top={base - band}
              width={width}
              limit={limit && { x: x(limit.loss), text: `limit ${limit.figure}` }}
              expected={expected && { x: x(expected.loss), text: `expected ${expected.figure}` }}
            />
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

interface NamesProps {
  readonly wavelength: string;
  readonly top: number;
  readonly width: number;
  readonly limit: { readonly x: number; readonly text: string } | undefined;
  readonly expected: { readonly x: number; readonly text: string } | undefined;
}

/** The wavelength at the left, the others beside their lines; two that would meet stand in two rows. */
function Names({ wavelength, top, width, limit, expected }: NamesProps) {
  const boxes: { readonly from: number; readonly to: number; readonly row: number }[] = [
    { from: 0, to: textWidth(wavelength, { bold: true }) + 6, row: 0 },
  ];
  const place = (line: { readonly x: number; readonly text: string }, left: boolean) => {
    const wide = textWidth(line.text) + 4;
    const sides = left ? [line.x - 4 - wide, line.x + 4] : [line.x + 4, line.x - 4 - wide];
    for (const row of [0, 1]) {
      for (const from of sides) {
        const to = from + wide;
        if (from < 0 || to > width) continue;
        if (boxes.some((box) => box.row === row && from < box.to && box.from < to)) continue;
        boxes.push({ from, to, row });
        return { x: from, y: top + 14 + row * 13 };
      }
    }
    return undefined;
  };
  const ofLimit = limit && place(limit, true);
  const ofExpected = expected && place(expected, false);
  return (
    <>
      <text class="strong" x="0" y={top + 14}>
        {wavelength}
      </text>
      {limit && ofLimit ? <text {...ofLimit}>{limit.text}</text> : null}
      {expected && ofExpected ? (
        <text class="quiet" {...ofExpected}>
          {expected.text}
        </text>
      ) : null}
    </>
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
