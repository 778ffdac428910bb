/** Where the readings of a plan lie: how far from their limit, and how they went while they were made; by wavelength. */
import type { Picometres } from '../../../../grammar/src/quantity/index.ts';
import type { When } from '../../model/types.ts';
import { middleOf } from '../../optics/index.ts';
import { toDb, wavelength } from '../figures.ts';
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

/** Fewer readings have no course. */
const leastReadings = 20;
const steps = 60;

interface Made {
  readonly when: When;
  readonly order: number;
  /** Loss less what the parts typically lose, dB. */
  readonly beyond: number;
}

/**
 * What readings lost beyond the typical loss of their parts, in the order in which they were made:
 * of each stretch of them the least, the greatest and the middle one. A drift of source or meter
 * is a slope here, a changed cord or reference a step.
 */
export function courseChart(subject: Documented): readonly Block[] {
  const bands = madeByWavelength(subject);
  const all = bands.flatMap(({ made }) => made);
  if (all.length === 0) return [];
  const low = Math.min(0, ...bands.map(({ made }) => least(made)));
  const high = Math.max(0, ...bands.map(({ made }) => greatest(made)));
  const room = width - left;
  const height = bands.length * bandHeight + 14;
  const drawn = bands.map(({ label, made }, index) => {
    const base = (index + 1) * bandHeight;
    const at = (loss: number) =>
      fixed(base - ((loss - low) / (high - low || 1)) * (bandHeight - 10));
    const stretches = Math.min(steps, made.length);
    const bars = Array.from({ length: stretches }, (_, step) => {
      const from = Math.floor((step / stretches) * made.length);
      const part = made.slice(from, Math.floor(((step + 1) / stretches) * made.length));
      const x = fixed(left + ((step + 0.5) / stretches) * room);
      const middle = at(middleOf(part.map(({ beyond }) => beyond)));
      return `<path d="M${x} ${at(least(part))}V${at(greatest(part))}" stroke="#999999" stroke-width="2.2"/><path d="M${fixed(x - 2.6)} ${middle}H${fixed(x + 2.6)}" stroke="#000000" stroke-width="1.6"/>`;
    });
    return `<path d="M${left} ${at(0)}H${width}" stroke="#bbbbbb" stroke-width="0.6"/>${bars.join('')}<text x="0" y="${base - 12}" font-size="8" font-weight="bold">${escaped(label)}</text><text x="0" y="${base - 3}" font-size="7">${rangeOf(made)}</text>`;
  });
  const times = all.toSorted((a, b) => a.when.from - b.when.from).map(({ when }) => when.text);
  const [first = '', last = ''] = [times[0], times.at(-1)];
  return [
    {
      kind: 'picture',
      width,
      height,
      says: `What readings lost beyond the typical loss of their parts, in the order in which they were made, ${first} to ${last}: ${bands.map(({ label, made }) => `${label}, ${made.length} readings, ${rangeOf(made)} dB`).join('; ')}`,
      svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif" fill="#000000">${drawn.join('')}<text x="${left}" y="${height - 3}" font-size="7">${escaped(first)}</text><text x="${fixed(left + room / 2)}" y="${height - 3}" font-size="7" text-anchor="middle">loss less typical loss, dB, in the order of measuring</text><text x="${width}" y="${height - 3}" font-size="7" text-anchor="end">${escaped(last)}</text></svg>`,
    },
  ];
}

function madeByWavelength(
  subject: Documented,
): readonly { readonly label: string; readonly made: readonly Made[] }[] {
  const bands = new Map<Picometres, Made[]>();
  for (const { fibres } of resultsIn(subject)) {
    for (const { wavelength: at, reading, residual } of fibres.flatMap(({ current }) => current)) {
      if (!reading || residual === undefined) continue;
      const band = bands.get(at) ?? [];
      bands.set(at, band);
      band.push({ when: reading.at, order: reading.order, beyond: toDb(residual) });
    }
  }
  return [...bands]
    .filter(([, made]) => made.length >= leastReadings)
    .sort(([a], [b]) => a - b)
    .map(([at, made]) => ({
      label: wavelength(at),
      made: made.sort((a, b) => a.when.from - b.when.from || a.order - b.order),
    }));
}

function least(made: readonly Made[]): number {
  return made.reduce((sum, { beyond }) => Math.min(sum, beyond), Number.POSITIVE_INFINITY);
}

function greatest(made: readonly Made[]): number {
  return made.reduce((sum, { beyond }) => Math.max(sum, beyond), Number.NEGATIVE_INFINITY);
}

function rangeOf(made: readonly Made[]): string {
  const [low, high] = [least(made), greatest(made)].map((loss) =>
    loss.toFixed(2).replace('-', '−'),
  );
  return `${low} to ${high}`;
}

function fixed(value: number): number {
  return Math.round(value * 100) / 100;
}
