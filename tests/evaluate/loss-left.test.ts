/**
 * The loss that a design leaves at its planned length, and the pairs it would bear,
 * worked out by hand. Fibre of 3.0 dB/km at 850 nm and 1.5 dB/km at 1300 nm, pairs of
 * 0.75 dB (TIA-568.3-E): a path of two pairs and 100 m loses 1.5 + 0.3 dB. A row's
 * terms hold together (IEEE 802.3).
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import { marginWanted } from '../../server/src/evaluate/room.ts';
import type { ConnectorType, PathElement } from '../../server/src/model/types.ts';
import { connector, db, nm, place, stretch } from '../support/build.ts';
import { limitedBy, room } from './service-room.ts';

describe('what is left at the planned length', () => {
  const pair = (name: string, loss: number): PathElement => {
    const type: ConnectorType = { ...connector, name, loss: [{ max: db(loss) }] };
    return { kind: 'connector', name, type, place: place() };
  };
  const left = (loss: number, options: Parameters<typeof room>[1] = {}, more = {}) =>
    room([{ ...limitedBy(undefined, loss), ...more }], options)?.left;

  it('may be less than nothing, and then no pair goes into it', () => {
    expect(left(1.7)).toMatchObject({ loss: exactDb(db(-0.1)), pairs: { more: 0 } });
    expect(left(1.8)).toMatchObject({ loss: 0n, pairs: { more: 0 } });
    expect(left(2.549999)?.pairs?.more).toBe(0);
    expect(left(2.55)?.pairs?.more).toBe(1);
    expect(left(3.3)?.pairs?.more).toBe(2);
  });

  it('bears no pair more than the connections may take', () => {
    const joints = (connections: number) =>
      left(9, {}, { connections: db(connections) })?.pairs?.more;
    expect([joints(1.5), joints(2.24), joints(2.25), joints(3)]).toEqual([0, 0, 1, 2]);
    // The loss itself may end it sooner.
    expect(left(2.55, {}, { connections: db(9) })?.pairs?.more).toBe(1);
  });

  it('is counted in the pair that is there most often', () => {
    const named = (...names: readonly string[]) => {
      const along = [
        ...names.map((name) => pair(name, name === 'WIDE' ? 0.5 : 0.25)),
        stretch(100),
      ];
      return left(9, { along, terms: { limits: [] } })?.pairs;
    };
    // 9 − 0.5 − 2 × 0.25 − 0.3 = 7.7 dB: 30 times 0.25.
    expect(named('WIDE', 'FINE', 'FINE')).toEqual({ name: 'FINE', each: db(0.25), more: 30 });
    expect(named('FINE', 'WIDE', 'FINE')).toEqual({ name: 'FINE', each: db(0.25), more: 30 });
    expect(named('WIDE', 'FINE')?.name).toBe('WIDE');
    expect(left(9, { along: [stretch(100)] })).toEqual({
      wavelength: nm(850),
      loss: exactDb(db(8.7)),
      wanted: exactDb(db(0.3)),
    });
    expect(left(9, { along: [pair('NONE', 0), stretch(100)] })).not.toHaveProperty('pairs');
  });

  it('is the least of all light, and pairs are counted by that which bears fewest', () => {
    const wavelengths = [{ wavelength: nm(1300) }, { wavelength: nm(850) }];
    // 0.15 dB at 1300 nm, 0.3 dB at 850 nm: 2.4 − 1.5 leaves 0.75 and 0.6 dB.
    expect(left(2.4, { wavelengths })).toMatchObject({
      wavelength: nm(850),
      loss: exactDb(db(0.6)),
      pairs: { more: 0 },
    });
    expect(left(2.4, { wavelengths: [wavelengths[1]!, wavelengths[0]!] })).toMatchObject({
      wavelength: nm(850),
      pairs: { more: 0 },
    });
  });

  it('should be what the plan wants, else a tenth and at most 0.3 dB', () => {
    expect(marginWanted(db(2.6), undefined)).toBe(exactDb(db(0.26)));
    expect(marginWanted(db(3), undefined)).toBe(exactDb(db(0.3)));
    expect(marginWanted(db(9), undefined)).toBe(exactDb(db(0.3)));
    expect(marginWanted(db(2.6), db(1))).toBe(exactDb(db(1)));
    expect(left(2.6, { terms: { margin: db(0.5) } })?.wanted).toBe(exactDb(db(0.5)));
  });
});
