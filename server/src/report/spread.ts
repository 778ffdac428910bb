/** Where many margins lie on the scale of a table: counted by bins, by wavelength. */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult } from '../evaluate/result.ts';
import { toDb, wavelength } from './figures.ts';
import { placeOf } from './scale.ts';

/** How many margins (dB) fall into each of so many equal bins along the scale; those beyond its ends count in the last. */
export function countsAlong(
  margins: Iterable<number>,
  reach: number,
  bins: number,
): readonly number[] {
  const counts = new Array<number>(bins).fill(0);
  for (const margin of margins) {
    const bin = Math.floor(placeOf(margin, reach) * bins);
    const inside = Math.min(bins - 1, Math.max(0, bin));
    counts[inside] = (counts[inside] ?? 0) + 1;
  }
  return counts;
}

export interface MarginBand {
  readonly label: string;
  /** Limit less loss of every reading that stands, dB. */
  readonly margins: readonly number[];
}

/** Shortest wavelength first. */
export function marginsByWavelength(
  fibres: Iterable<LinkResult['fibres'][number]>,
): readonly MarginBand[] {
  const bands = new Map<Picometres, number[]>();
  for (const { current } of fibres) {
    for (const { margin, wavelength: at } of current) {
      if (margin === undefined) continue;
      const band = bands.get(at);
      if (band) band.push(toDb(margin));
      else bands.set(at, [toDb(margin)]);
    }
  }
  return [...bands]
    .sort(([a], [b]) => a - b)
    .map(([at, margins]) => ({ label: wavelength(at), margins }));
}
