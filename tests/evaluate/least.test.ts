/**
 * The least that a light path can lose: fibre, components and splitters at their
 * least, joints and splices at nothing. An even split over n outputs takes
 * 10·log10 n (conservation of energy); of an uneven one only what is stated counts.
 */
import { describe, expect, it } from 'vitest';
import { printExactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import { leastLoss, uncountedIn } from '../../server/src/evaluate/least.ts';
import type { Piece } from '../../server/src/evaluate/path.ts';
import type { FibreType, PartLoss } from '../../server/src/model/types.ts';
import { connector, db, fibre, metres, nm, place, splice } from '../support/build.ts';

const least = (pieces: readonly Piece[], wavelength = 1310) =>
  printExactDb(leastLoss(pieces, nm(wavelength)));

const glass: FibreType = {
  ...fibre,
  attenuation: [
    { wavelength: nm(1310), min: ratePerKm(180_000), max: ratePerKm(350_000) },
    { wavelength: nm(1550), max: ratePerKm(250_000) },
  ],
};
const stretch = (length: number | undefined, type: FibreType | undefined = glass): Piece => ({
  kind: 'fibre',
  name: 'GLASS',
  type,
  length: length === undefined ? undefined : metres(length),
  cord: false,
  place: place(),
});
const declared = {
  place: place(),
  namePlace: place(),
  origin: 'plan' as const,
  basis: [],
  notes: [],
  shares: [],
  returnLoss: [],
};
const part = (...loss: PartLoss[]): Piece => ({
  kind: 'part',
  name: 'PAD',
  type: { ...declared, kind: 'component', name: 'PAD', loss },
  place: place(),
});
const split = (outputs: number, out: number | undefined, ...loss: PartLoss[]): Piece => ({
  kind: 'split',
  name: 'TREE',
  out,
  type: { ...declared, kind: 'splitter', name: 'TREE', inputs: 1, outputs, loss },
  place: place(),
});

describe('the least loss', () => {
  it('of fibre is at its least rate, in its window, and nothing where it states none', () => {
    expect(least([stretch(10_000)])).toBe('1.8');
    expect(least([stretch(10_000), stretch(5_000)])).toBe('2.7');
    expect(least([stretch(10_000)], 1300)).toBe('1.8');
    expect(least([stretch(10_000)], 1550)).toBe('0');
    expect(least([stretch(undefined)])).toBe('0');
    expect(least([])).toBe('0');
  });

  it('names the fibres that it leaves out, each once, and none that states it in its window', () => {
    const silent = (wavelength: number, ...pieces: Piece[]) => uncountedIn(pieces, nm(wavelength));
    expect(silent(1310, stretch(10_000))).toEqual([]);
    expect(silent(1300, stretch(10_000))).toEqual([]);
    expect(silent(1550, stretch(10_000), stretch(20))).toEqual(['GLASS']);
    // Of no length nothing is lost, whatever is stated.
    expect(silent(1550, stretch(undefined), stretch(0))).toEqual([]);
  });

  it('of joints and splices is nothing', () => {
    expect(
      least([
        { kind: 'pair', name: 'PAIR', type: connector, place: place() },
        { kind: 'splice', name: 'WELD', type: splice, place: place() },
        { kind: 'plug', name: 'PAIR', type: connector, place: place() },
      ]),
    ).toBe('0');
  });

  it('of a component is its least, of that wavelength before that of all', () => {
    expect(least([part({ min: db(9), max: db(11) })])).toBe('9');
    expect(least([part({ max: db(11) })])).toBe('0');
    const both = part({ min: db(9) }, { wavelength: nm(1550), min: db(8) });
    expect([least([both]), least([both], 1550)]).toEqual(['9', '8']);
  });

  it('of a splitter is what its maker states, of that output before that of all', () => {
    expect(least([split(4, 1, { min: db(6.4), max: db(7.4) })])).toBe('6.4');
    const own = split(4, 2, { min: db(6.4) }, { out: [2, 3], min: db(5.9) });
    expect(least([own])).toBe('5.9');
  });

  it('of an even splitter that states none is 10·log10 of its outputs', () => {
    expect(least([split(4, 1, { max: db(7.4) })])).toBe('6.0206');
    expect(least([split(8, 1)])).toBe('9.0309');
    expect(least([split(4, 1, { typ: db(6.9) })])).toBe('6.0206');
    expect(least([{ kind: 'split', name: 'TREE', out: 1, place: place() }])).toBe('0');
  });

  it('of an uneven splitter that states none is nothing', () => {
    // An output that may lose less than its even share shows that others take less.
    expect(least([split(2, 1, { out: [1], max: db(1.2) }, { out: [2], max: db(7.6) })])).toBe('0');
    expect(least([split(4, 1, { max: db(5) })])).toBe('0');
    expect(least([split(4, 1, { typ: db(5) })])).toBe('0');
    expect(least([split(4, 1, { max: db(6.0206) })])).toBe('6.0206');
  });
});
