/** Where the readings of a plan lie: how many stand how far from their limit, by wavelength. */
import type { Block } from '../paper/blocks.ts';
import { escaped } from '../paper/escaped.ts';
import type { Documented } from '../paper/plan.ts';
import { limitAt } from '../scale.ts';
import { countsAlong, marginsByWavelength } from '../spread.ts';
import type { ScaleView } from '../view.ts';
import { resultsIn } from './judged.ts';

const width = 510;
const left = 60;
const bandHeight = 46;
const bins = 65;

/** One band a wavelength on one scale of margins; nothing where nothing was read. */
export function marginChart(subject: Documented, scale: ScaleView): readonly Block[] {
  const bands = marginsByWavelength(resultsIn(subject).flatMap(({ fibres }) => fibres));
  if (bands.length === 0) return [];
  const room = width - left;
  const height = bands.length * bandHeight + 24;
  const limit = left + limitAt * room;
  const drawn = bands.map(({ label, margins }, index) => {
    const counts = countsAlong(margins, scale.reach, bins);
    const most = Math.max(1, ...counts);
    const base = (index + 1) * bandHeight;
    const bars = counts.map((count, bin) => {
      if (count === 0) return '';
      const tall = Math.max(1, (count / most) * (bandHeight - 12));
      return `<rect x="${fixed(left + (bin / bins) * room + 0.5)}" y="${fixed(base - tall)}" width="${fixed(room / bins - 1)}" height="${fixed(tall)}" fill="#000000"/>`;
    });
    return `${bars.join('')}<path d="M${left} ${base}H${width}" stroke="#bbbbbb" stroke-width="0.6"/><text x="0" y="${base - 12}" font-size="8" font-weight="bold">${escaped(label)}</text><text x="0" y="${base - 3}" font-size="7">${margins.length} read, up to ${most}</text>`;
  });
  const ticks = scale.ticks.map(
    ({ at, label }) =>
      `<text x="${fixed(left + at * room)}" y="${height - 10}" font-size="7" text-anchor="${at < 0.03 ? 'start' : 'middle'}">${escaped(label)}</text>`,
  );
  return [
    {
      kind: 'picture',
      width,
      height,
      says: `How many readings lie how far from their limit: ${bands.map(({ label, margins }) => `${label}, ${margins.length} readings, margins ${fixed(Math.min(...margins))} to ${fixed(Math.max(...margins))} dB`).join('; ')}`,
      svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif" fill="#000000"><rect x="${fixed(limit)}" y="0" width="${fixed(width - limit)}" height="${height - 20}" fill="#f2f2f2"/>${drawn.join('')}<path d="M${fixed(limit)} 0V${height - 20}" stroke="#000000" stroke-width="1.3"/>${ticks.join('')}<text x="${width}" y="${height - 1}" font-size="7" text-anchor="end">margin, dB: limit less loss</text></svg>`,
    },
  ];
}

function fixed(value: number): number {
  return Math.round(value * 100) / 100;
}
