/** How far the readings of many links lie from their limits: one band a wavelength on the table's own scale. */
import type { MarginSpread } from '../charts.ts';
import { count } from '../figures.ts';
import { limitAt } from '../scale.ts';
import { ChartFrame, plotHeight } from './chart-frame.tsx';

const left = 108;
const axis = 34;
const least = 46;

export function MarginSpreadChart({
  margins,
  width,
}: {
  readonly margins: MarginSpread;
  readonly width: number;
}) {
  const { bands, scale } = margins;
  const room = width - left;
  const band = Math.max(least, Math.min(80, (plotHeight - axis) / bands.length));
  const height = band * bands.length + axis;
  const limit = left + limitAt * room;
  return (
    <ChartFrame
      title="How margins are spread"
      note="limit less loss, dB"
      says={bands
        .map(
          ({ wavelength, read, least: low, most }) =>
            `${wavelength}: ${count(read)} readings, margins ${low} to ${most} dB`,
        )
        .join('; ')
        .concat('.')}
      width={width}
      height={height}
      drawn={[]}
    >
      <rect class="over" x={limit} y="0" width={width - limit} height={height - axis} />
      {bands.map(({ wavelength, read, least: low, most, counts }, index) => {
        const base = (index + 1) * band;
        const greatest = Math.max(1, ...counts);
        const bars = counts
          .map((each, bin) => {
            if (each === 0) return '';
            const tall = Math.max(1, (each / greatest) * (band - 14));
            const x = left + (bin / counts.length) * room;
            return `M${x + 0.5} ${base}v${-tall}h${room / counts.length - 1}V${base}z`;
          })
          .join('');
        return (
          <g key={wavelength}>
            <path class="brick" d={bars} />
            <path class="hair" d={`M0 ${base}H${width}`} />
            <text class="strong" x="0" y={base - 28}>
              {wavelength}
            </text>
            <text class="quiet" x="0" y={base - 16}>
              {count(read)} read
            </text>
            <text class="quiet" x="0" y={base - 4}>
              {low} to {most}
            </text>
          </g>
        );
      })}
      <path class="chart-limit" d={`M${limit} 0V${height - axis}`} />
      {scale.ticks.map(({ at, label }) => (
        <text
          key={label}
          class={label === 'limit' ? '' : 'quiet'}
          x={left + at * room}
          y={height - 18}
          text-anchor={at < 0.03 ? 'start' : 'middle'}
        >
          {label}
        </text>
      ))}
    </ChartFrame>
  );
}
