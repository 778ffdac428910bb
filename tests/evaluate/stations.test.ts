/**
 * Joints along a path: where each lies in the glass, how a place is said by its
 * neighbours, and how a trace's distance is converted. A reflectometer's distance is
 * c·t ÷ (2·n), so that it is converted by the ratio of two indices.
 */
import { describe, expect, it } from 'vitest';
import { micrometres, partsPerMillion } from '../../grammar/src/quantity/index.ts';
import type { Piece } from '../../server/src/evaluate/path.ts';
import {
  indexAt,
  indicesOf,
  inGlass,
  isAway,
  jointInWords,
  percentOver,
  stationsOf,
  stationsWith,
  whereInWords,
} from '../../server/src/evaluate/stations.ts';
import type { FibreType, Setup } from '../../server/src/model/types.ts';
import { fibre, metres, nm, place, setup } from '../support/build.ts';
import { pairAt, part, split, weldAt } from './pieces.ts';

const glass = (length: number | undefined, type: FibreType = fibre): Piece => ({
  kind: 'fibre',
  name: type.name,
  type,
  length: length === undefined ? undefined : metres(length),
  along: length === undefined ? undefined : metres(length),
  cord: false,
  place: place(),
});

describe('where a joint lies', () => {
  const [near, weld, far] = [pairAt('panel 1'), weldAt('pit 4'), pairAt()];
  const pieces = [near, glass(2000), weld, glass(3000), far];

  it('is what fibre lies before it', () => {
    expect(stationsOf(pieces)).toEqual([
      { joint: near, distance: metres(0) },
      { joint: weld, distance: metres(2000) },
      { joint: far, distance: metres(5000) },
    ]);
    expect(stationsOf([near, glass(undefined), weld])).toBeUndefined();
  });

  it('moves on behind what a repair put in', () => {
    const stations = stationsOf(pieces)!;
    const [one, two] = [weldAt(), weldAt()];
    const at = (where: number) =>
      stationsWith(stations, [{ at: metres(where), pieces: [one, glass(200), two] }])?.map(
        ({ joint, distance }) => [jointInWords(joint), distance / 1e6],
      );
    expect(at(3000)).toEqual([
      ['pair PAIR at panel 1', 0],
      ['splice WELD at pit 4', 2000],
      ['splice WELD', 3000],
      ['splice WELD', 3200],
      ['pair PAIR', 5200],
    ]);
    // What lies just there comes before it.
    expect(at(2000)?.map(([, distance]) => distance)).toEqual([0, 2000, 2000, 2200, 5200]);
    expect(stationsWith(stations, [{ at: metres(1), pieces: [glass(undefined)] }])).toBeUndefined();
    expect(stationsWith(stations, [])).toEqual(stations);
  });

  it('is said by its neighbours', () => {
    const stations = stationsOf(pieces)!;
    expect(whereInWords(stations, metres(2500))).toBe(
      'between splice WELD at pit 4, 2 km and pair PAIR, 5 km',
    );
    // At a joint itself it lies behind it.
    expect(whereInWords(stations, metres(2000))).toBe(
      'between splice WELD at pit 4, 2 km and pair PAIR, 5 km',
    );
    expect(whereInWords(stations, metres(6000))).toBe('behind pair PAIR, 5 km');
    expect(whereInWords(stations.slice(1), metres(10))).toBe('before splice WELD at pit 4, 2 km');
    expect(whereInWords([], metres(10))).toBe('on a path without joints');
  });

  it('is named by its kind and place', () => {
    expect(jointInWords({ kind: 'plug', name: 'PAIR', place: place() })).toBe('plug PAIR');
    expect(jointInWords(weldAt('pit 4', ''))).toBe('splice at pit 4');
    expect(jointInWords(weldAt(undefined, ''))).toBe('splice');
    expect(jointInWords(part([]))).toBe('PAD');
    expect(jointInWords(split([]))).toBe('splitter FOURTH');
  });

  it('is away by a share, and by some metres at least', () => {
    const allowed = { share: partsPerMillion(30_000), least: metres(15) };
    const away = (a: number, b: number) => isAway(metres(a), metres(b), allowed);
    expect([away(115, 100), away(115.000001, 100)]).toEqual([false, true]);
    expect([away(85, 100), away(84.999999, 100)]).toEqual([false, true]);
    expect([away(1030, 1000), away(1030.000001, 1000)]).toEqual([false, true]);
    expect(percentOver(metres(1010.6), metres(1000))).toBe(1.06);
    expect(percentOver(metres(990), metres(1000))).toBe(-1);
    expect(percentOver(metres(5), metres(0))).toBe(0);
  });
});

describe('a distance in the glass', () => {
  const indexed = (index: number, name = 'GLASS'): FibreType =>
    ({ ...fibre, name, index: [{ wavelength: nm(1550), value: index }] }) as never;
  const set = (...entries: readonly (readonly [number, number])[]): Setup =>
    setup({
      index: entries.map(([wavelength, value]) => ({ wavelength: nm(wavelength), value })) as never,
    });

  it('is converted by the index that was set and that of the fibres, by their lengths', () => {
    const indices = indicesOf(
      set([1550, 1.46]),
      [glass(1000, indexed(1.468)), glass(3000, indexed(1.472, 'B'))],
      nm(1550),
    );
    expect(indices?.set).toBe(1.46);
    expect(indices?.glass).toBeCloseTo(1.471, 12);
    // 8.15 km · 1.46 ÷ 1.468, to a micrometre.
    expect(inGlass(metres(8150), { set: 1.46, glass: 1.468 })).toBe(micrometres(8_105_585_831));
    expect(inGlass(metres(8150), { set: 1.468, glass: 1.468 })).toBe(metres(8150));
    expect(inGlass(metres(8150), undefined)).toBe(metres(8150));
  });

  it('stands as it was shown where an index, a length or the light is not known', () => {
    const pieces = [glass(1000, indexed(1.468))];
    expect(indicesOf(undefined, pieces, nm(1550))).toBeUndefined();
    expect(indicesOf(set(), pieces, nm(1550))).toBeUndefined();
    expect(indicesOf(set([1310, 1.46]), pieces, nm(1550))).toBeUndefined();
    expect(indicesOf(set([1550, 1.46]), [...pieces, glass(1000)], nm(1550))).toBeUndefined();
    expect(
      indicesOf(set([1550, 1.46]), [glass(undefined, indexed(1.468))], nm(1550)),
    ).toBeUndefined();
    expect(indicesOf(set([1550, 1.46]), [], nm(1550))).toBeUndefined();
    // Of a length without its light: the only index that was set.
    expect(indicesOf(set([1550, 1.46]), pieces, undefined)).toEqual({ set: 1.46, glass: 1.468 });
    expect(indicesOf(set([1550, 1.46], [1310, 1.466]), pieces, undefined)).toBeUndefined();
  });

  it('takes the figure of the nearest light in its window', () => {
    const at = (...wavelengths: readonly number[]) =>
      indexAt(
        wavelengths.map((wavelength) => ({ wavelength: nm(wavelength) })),
        nm(1550),
      )?.wavelength;
    expect(at(1530, 1545, 1560)).toBe(nm(1545));
    expect(at(1581)).toBeUndefined();
    expect(at(1580)).toBe(nm(1580));
  });
});
