/**
 * A block whose every value is impossible as it is headed: what it is likely of, and
 * which loss that would make. A power of p µW has a level of 10·log10(p ÷ 1000) dBm;
 * a loss is the reference less the power. The path usually loses 0.25 + 2 × 0.3 dB.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type { FibreType, PathElement, ReadingCell } from '../../server/src/model/types.ts';
import {
  cell,
  connector,
  db,
  dbm,
  evaluate,
  evidence,
  fibre,
  link,
  nm,
  place,
  settings,
  setup,
  stretch,
} from '../support/build.ts';

const glass: FibreType = {
  ...fibre,
  attenuation: [{ wavelength: nm(850), typ: ratePerKm(2_500_000), max: ratePerKm(3_000_000) }],
};
const pair = (): PathElement => ({
  kind: 'connector',
  name: 'PAIR',
  type: { ...connector, loss: [{ typ: db(0.3), max: db(0.75) }] },
  place: place(),
});
const elements = [pair(), { ...stretch(100), fibre: glass } as PathElement, pair()];

/** What is said of a block of values; the reference is −20 dBm. */
function said(readings: readonly ReadingCell[], more: object = {}) {
  const model = link(
    elements,
    { directions: { wanted: ['A>B'], average: false } },
    readings.length,
  );
  const block = readings.map((one) => ({ ...one, place: { ...place(), block: 7 } }));
  const result = evaluate(model, evidence({ readings: block, ...more }), setup(), settings());
  return result.doubts
    .filter(({ name }) => name === 'unit-suspect')
    .map(({ place: at, ...one }) => {
      expect(at).toBe(block.find(({ fibre: number }) => number === one.details.fibre)?.place);
      return one;
    });
}
const losses = (...values: readonly number[]) =>
  values.map((value, at) => cell(at + 1, value, 'A>B', 500));
const powers = (...values: readonly number[]): ReadingCell[] =>
  values.map((value, at) => ({
    ...cell(at + 1, 1, 'A>B', 500),
    quantity: 'power',
    typed: { digits: String(value), unit: 'dBm' },
    loss: undefined,
    power: dbm(value),
  }));
const meant = (readings: readonly ReadingCell[], more = {}) => {
  const [one] = said(readings, more);
  return one && [one.details.likely, one.details.as];
};

describe('a block under the wrong heading', () => {
  it('is one doubt, with what it would come to', () => {
    expect(said(losses(-20.9, -20.8, -21.1))).toEqual([
      {
        name: 'unit-suspect',
        related: [],
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'A>B',
          likely: 'powers',
          typed: 'loss',
          readings: 3,
          // −20 + 20.9 dB is the middle one.
          as: 0.9,
          usual: 0.85,
          because:
            'every value of this block is impossible as it is headed, and likely as one of powers',
          fibres: '1..3',
        },
      },
    ]);
  });

  it('of powers may be losses, microwatts, or powers without their sign', () => {
    expect(meant(powers(0.9, 0.8, 1.1))).toEqual(['losses', 0.9]);
    const microwatts = [-20.9, -20.8, -21.1].map((level) =>
      Number((1000 * 10 ** (level / 10)).toFixed(6)),
    );
    expect(meant(powers(...microwatts))).toEqual(['microwatts', 0.9]);
    expect(meant(powers(20.9, 20.8, 21.1))).toEqual(['powers with their sign left out', 0.9]);
  });

  it('is three values at least, all impossible, none of them taken back', () => {
    expect(meant(powers(0.9, 0.8))).toBeUndefined();
    expect(meant(powers(0.9, 0.8, -21))).toBeUndefined();
    const withdrawals = [
      { object: 'KQ-1', fibres: [3], because: 'slip', by: 'R. Vale', place: place() },
    ];
    expect(meant(powers(0.9, 0.8, 1.1), { withdrawals })).toBeUndefined();
    expect(
      meant([...powers(0.9, 0.8, 1.1), ...losses(1).map((one) => ({ ...one, fibre: 4 }))]),
    ).toEqual(['losses', 0.9]);
  });

  it('of which only the sign is doubted has a finding of its own', () => {
    expect(said(losses(-0.9, -0.8, -1.1))).toEqual([]);
  });
});
