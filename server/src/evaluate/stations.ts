/** Where along a path its joints lie, and what a reflectometer's distance comes to in it. */
import {
  addLengths,
  type Micrometres,
  micrometres,
  type PartsPerMillion,
  type Picometres,
} from '../../../grammar/src/quantity/index.ts';
import type { Setup } from '../model/types.ts';
import { fibresOf, lengthsOf, type Piece } from './path.ts';
import { lengthInWords } from './rows.ts';
import { sameWindow } from './thresholds.ts';

export type Joint = Exclude<Piece, { kind: 'fibre' }>;

/** A joint with its distance from end A along the fibre. */
export interface Station {
  readonly joint: Joint;
  readonly distance: Micrometres;
}

/** Joints in order; undefined where a length on the way is missing, since then no distance is known. */
export function stationsOf(pieces: readonly Piece[]): readonly Station[] | undefined {
  const stations: Station[] = [];
  let distance = micrometres(0);
  for (const piece of pieces) {
    if (piece.kind !== 'fibre') stations.push({ joint: piece, distance });
    else if (piece.along === undefined) return undefined;
    else distance = addLengths(distance, piece.along);
  }
  return stations;
}

/** A piece that a repair put into the path, at a distance along it. */
export interface Inserted {
  readonly at: Micrometres;
  readonly pieces: readonly Piece[];
}

/** Stations with what repairs put in where they say it lies; what lies behind moves on by its length. */
export function stationsWith(
  stations: readonly Station[],
  inserted: readonly Inserted[],
): readonly Station[] | undefined {
  let all = stations;
  for (const { at, pieces } of inserted) {
    const put = stationsOf(pieces);
    const { along: length } = lengthsOf(pieces);
    if (!put || length === undefined) return undefined;
    const moved = (station: Station, by: Micrometres): Station => ({
      ...station,
      distance: addLengths(station.distance, by),
    });
    all = [
      ...all.filter(({ distance }) => distance <= at),
      ...put.map((station) => moved(station, at)),
      ...all.filter(({ distance }) => distance > at).map((station) => moved(station, length)),
    ];
  }
  return all;
}

/** `splice fusion at CL-1`, `pair LC`. */
export function jointInWords(joint: Joint): string {
  const at = 'at' in joint && joint.at !== undefined ? ` at ${joint.at}` : '';
  switch (joint.kind) {
    case 'pair':
      return `pair ${joint.name}${at}`;
    case 'plug':
      return `plug ${joint.name}`;
    case 'splice':
      return joint.name ? `splice ${joint.name}${at}` : `splice${at}`;
    case 'part':
      return joint.name;
    case 'split':
      return `splitter ${joint.name}`;
  }
}

/** Between which joints a distance lies: `between pair LC at 0 m and splice fusion at 4.21 km`. */
export function whereInWords(stations: readonly Station[], distance: Micrometres): string {
  const before = stations.findLast((station) => station.distance <= distance);
  const after = stations.find((station) => station.distance > distance);
  const say = ({ joint, distance: at }: Station) => `${jointInWords(joint)}, ${lengthInWords(at)}`;
  if (before && after) return `between ${say(before)} and ${say(after)}`;
  if (before) return `behind ${say(before)}`;
  return after ? `before ${say(after)}` : 'on a path without joints';
}

/** What an instrument was set to and what the glass has. */
export interface Indices {
  readonly set: number;
  readonly glass: number;
}

/**
 * Group index that the set-up states and that of the path's fibres, weighted by
 * their lengths; undefined where either is not known, and nothing is converted.
 * A length read for itself has no wavelength: the only one the set-up states an
 * index for is taken.
 */
export function indicesOf(
  setup: Setup | undefined,
  pieces: readonly Piece[],
  wavelength: Picometres | undefined,
): Indices | undefined {
  const entries = setup?.index ?? [];
  const only = entries.length === 1 ? entries[0]?.wavelength : undefined;
  const light = wavelength ?? only;
  if (light === undefined) return undefined;
  const set = indexAt(entries, light)?.value;
  let weight = 0;
  let sum = 0;
  for (const { type, along } of fibresOf(pieces)) {
    const index = indexAt(type?.index ?? [], light)?.value;
    if (index === undefined || along === undefined) return undefined;
    weight += along;
    sum += along * index;
  }
  if (set === undefined || weight === 0) return undefined;
  const glass = sum / weight;
  return { set, glass };
}

/** Of the wavelength itself, else of the nearest in its nominal window. */
export function indexAt<Entry extends { readonly wavelength: Picometres }>(
  entries: readonly Entry[],
  wavelength: Picometres,
): Entry | undefined {
  return entries
    .filter((entry) => sameWindow(entry.wavelength, wavelength))
    .sort((a, b) => Math.abs(a.wavelength - wavelength) - Math.abs(b.wavelength - wavelength))[0];
}

/**
 * A distance as it is in the glass: the instrument timed the light there and
 * back and divided by the index it was set to, l = c·t ÷ (2·n). Rounded once to
 * a micrometre.
 */
export function inGlass(shown: Micrometres, indices: Indices | undefined): Micrometres {
  if (!indices) return shown;
  return micrometres(Math.round((shown * indices.set) / indices.glass));
}

/** Whether two lengths are further apart than a share of the second and than a least length. */
export function isAway(
  a: Micrometres,
  b: Micrometres,
  allowed: { readonly share: PartsPerMillion; readonly least: Micrometres },
): boolean {
  const apart = Math.abs(a - b);
  if (apart <= allowed.least) return false;
  return BigInt(apart) * 1_000_000n > BigInt(Math.abs(b)) * BigInt(allowed.share);
}

/** Percent that a length is over another, two decimals: `1.06`. */
export function percentOver(length: Micrometres, other: Micrometres): number {
  return other === 0 ? 0 : Math.round(((length - other) / other) * 10_000) / 100;
}
