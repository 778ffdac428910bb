/**
 * Figures of the parts themselves, at a wavelength before at all, and when a limits set
 * stands in for them. Which figure counts follows from the help of each word; numbers
 * are ours.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import {
  meets,
  onLine,
  ownFigures,
  ownLoss,
  ownRate,
  splitLoss,
} from '../../server/src/evaluate/figures.ts';
import type { Attenuation, FibreType } from '../../server/src/model/types.ts';
import { connector, db, fibre, limitsSet, nm } from '../support/build.ts';
import { each, part, split, weld } from './pieces.ts';

describe('figures of the parts themselves', () => {
  const glass = (...attenuation: readonly Attenuation[]): FibreType => ({ ...fibre, attenuation });
  const at = (wavelength: number, more: Partial<Attenuation>): Attenuation => ({
    wavelength: nm(wavelength),
    ...more,
  });

  it('of fibre are at the wavelength itself, or for a plan at the nearest of its window', () => {
    const type = glass(
      at(1310, { max: ratePerKm(400_000) }),
      at(1300, { max: ratePerKm(500_000) }),
      at(1550, { min: ratePerKm(180_000) }),
    );
    const own = (wavelength: number, window = false) =>
      ownRate(type, nm(wavelength), 'max', window)?.each;
    expect([own(1310), own(1300), own(1307), own(1550)]).toEqual([
      400_000,
      500_000,
      undefined,
      undefined,
    ]);
    expect([own(1307, true), own(1301, true), own(1341, true), own(1340, true)]).toEqual([
      400_000,
      500_000,
      undefined,
      400_000,
    ]);
    expect(ownRate(type, nm(1550), 'min')).toEqual({
      each: 180_000,
      source: 'fibre GLASS at 1550 nm, least',
      trust: undefined,
      place: fibre.place,
    });
    expect(ownRate(undefined, nm(1310), 'max')).toBeUndefined();
  });

  it('of two lights at one wavelength judge more strictly', () => {
    const both = glass(
      at(850, { min: ratePerKm(2_000_000), max: ratePerKm(3_000_000), trust: 'read' }),
      at(850, { min: ratePerKm(1_900_000), max: ratePerKm(3_500_000), trust: 'recalled' }),
    );
    expect(ownRate(both, nm(850), 'max')).toMatchObject({ each: 3_500_000, trust: 'recalled' });
    expect(ownRate(both, nm(850), 'min')).toMatchObject({ each: 1_900_000, trust: 'recalled' });
  });

  it('of a part are of a wavelength before those of all', () => {
    const losses = [
      { max: db(1), typ: db(0.5) },
      { wavelength: nm(850), max: db(2), trust: 'recalled' as const },
    ];
    expect(ownLoss(connector, losses, nm(850), 'max')).toEqual({
      each: db(2),
      source: 'PAIR, greatest',
      trust: 'recalled',
      place: connector.place,
    });
    expect(each(ownLoss(connector, losses, nm(1300), 'max'))).toBe(1);
    expect(ownLoss(connector, losses, nm(850), 'typ')).toMatchObject({
      each: db(0.5),
      source: 'PAIR, typical',
    });
    expect(ownLoss(connector, losses, nm(850), 'min')).toBeUndefined();
    // A figure for one light says nothing of another.
    expect(
      ownLoss(connector, [{ wavelength: nm(1310), max: db(2) }], nm(850), 'max'),
    ).toBeUndefined();
    expect(ownLoss(undefined, losses, nm(850), 'max')).toBeUndefined();
    expect(ownLoss(connector, undefined, nm(850), 'max')).toBeUndefined();
  });

  it('of a splitter are of the output that light takes before those of all', () => {
    const losses = [{ max: db(7) }, { max: db(7.5), out: [2, 3] }];
    const of = (out?: number) => each(splitLoss(split(losses, out), nm(850), 'max'));
    expect([of(1), of(2), of(3), of()]).toEqual([7, 7.5, 7.5, undefined]);
    expect(splitLoss({ ...split(losses, 1), type: undefined }, nm(850), 'max')).toBeUndefined();
  });

  it('fall back on a set for what is greatest, and never for what is usual', () => {
    const sets = [
      limitsSet('BARE', 0.75, 3, { connector: [], fibre: [], splice: [] }),
      limitsSet('SET', 0.75, 3),
    ];
    const figures = (which: 'typ' | 'max') => ownFigures(sets, nm(850), 'multimode', which);
    const nobody = { ...connector, loss: [] };
    expect(figures('max').name).toBe('the parts');
    expect(each(figures('max').pair('PAIR', nobody, 'installed'))).toBe(0.75);
    expect(figures('typ').pair('PAIR', nobody, 'installed')).toBeUndefined();
    expect(figures('max').rate('GLASS', { ...fibre, attenuation: [] })?.source).toBe(
      'SET, fibre GLASS at 850 nm',
    );
    expect(figures('typ').rate('GLASS', { ...fibre, attenuation: [] })).toBeUndefined();
    expect(each(figures('max').splice({ ...weld, type: undefined }))).toBe(0.3);
    expect(each(figures('max').spliceAlone({ ...weld, type: undefined }))).toBe(0.3);
    expect(figures('max').part(part([]))).toBeUndefined();
    expect(each(figures('max').part(part([{ max: db(1) }])))).toBe(1);
    expect(each(figures('max').split(split([{ max: db(7) }], 1)))).toBe(7);
    expect(figures('max').step(fibre, fibre)).toBeUndefined();
  });

  it('of pairs with test cords are what a set grants, and as a rule no more than is usual', () => {
    const typical = (typ: number) => ({ ...connector, loss: [{ typ: db(typ), max: db(0.75) }] });
    const sets = [limitsSet('SET', 0.75, 3)];
    const asked = (which: 'typ' | 'max', typ: number) =>
      each(ownFigures(sets, nm(850), 'multimode', which).pair('PAIR', typical(typ), 'end'));
    // The set grants 0.45 dB.
    expect([asked('max', 0.3), asked('typ', 0.3), asked('typ', 0.5)]).toEqual([0.45, 0.3, 0.45]);
    expect(
      ownFigures([], nm(850), 'multimode', 'typ').pair('PAIR', typical(0.3), 'end'),
    ).toMatchObject({ each: db(0.3) });
    expect(
      ownFigures([], nm(850), 'multimode', 'max').pair('PAIR', typical(0.3), 'end'),
    ).toBeUndefined();
  });

  it('meet a name that is theirs or that they meet; a line has its light in its own window', () => {
    expect(meets(fibre, 'GLASS')).toBe(true);
    expect(meets({ ...fibre, meets: ['B'] }, 'B')).toBe(true);
    expect(meets(fibre, 'B')).toBe(false);
    expect(meets(undefined, 'GLASS')).toBe(false);
    expect(onLine({ wavelength: nm(1551) }, nm(1550))).toBe(nm(1551));
    expect(onLine({ wavelength: nm(1581) }, nm(1550))).toBe(nm(1550));
    expect(onLine({}, nm(1550))).toBe(nm(1550));
  });
});
