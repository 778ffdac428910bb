/**
 * What readings say together, whole: every number that is handed on. Expectations
 * are worked out by hand beside each case or by another library of statistics;
 * the bounds themselves are common practice, no source, and stand in `doubts`.
 */
import { sampleCorrelation, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import { type FewReadings, highTogether } from '../../server/src/evaluate/index.ts';
import type {
  Direction,
  FibreType,
  LimitsSet,
  LinkModel,
  PathElement,
  ReadingCell,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  cell,
  connector,
  db,
  evaluate,
  evidence,
  fibre,
  limitsSet,
  link,
  nm,
  place,
  settings,
  setup,
  taken,
  when,
} from '../support/build.ts';

const rate = (wavelength: number, typ: number, max: number) => ({
  wavelength: nm(wavelength),
  typ: ratePerKm(Math.round(typ * 1e6)),
  max: ratePerKm(Math.round(max * 1e6)),
});
/** 2.5 and 0.6 dB/km as a rule on multimode, 0.35 and 0.20 dB/km on single-mode; pairs of 0.3 dB. */
const glass: FibreType = { ...fibre, attenuation: [rate(850, 2.5, 3), rate(1300, 0.6, 1.5)] };
const fine: FibreType = {
  ...fibre,
  name: 'FINE',
  mode: 'single-mode',
  core: nm(9_000),
  attenuation: [rate(1310, 0.35, 0.4), rate(1550, 0.2, 0.3)],
};
const pair = (): PathElement => ({
  kind: 'connector',
  name: 'PAIR',
  type: { ...connector, loss: [{ typ: db(0.3), max: db(0.75) }] },
  place: place(),
});
const piece = (length: number, type: FibreType = glass): PathElement => ({
  kind: 'segment',
  length: (length * 1e6) as never,
  deliberate: false,
  fibre: type,
  fibreName: type.name,
  place: place(),
});

interface Asked {
  readonly elements?: readonly PathElement[];
  readonly terms?: Partial<Terms>;
  readonly model?: Partial<LinkModel>;
  readonly using?: Setup;
  readonly by?: Parameters<typeof settings>[0];
  readonly work?: readonly object[];
}
const everywhere = [850, 1300, 1310, 1550].map((wavelength) => taken(480, -20, wavelength));

function judged(readings: readonly ReadingCell[], asked: Asked = {}) {
  const { elements = [pair(), piece(1000), pair()], terms, model, using, by, work = [] } = asked;
  const most = Math.max(...readings.map((one) => one.fibre));
  const whole = { ...link(elements, { limits: [], ...terms }, most), ...model };
  const cords = setup().cords.map((cord) => ({ ...cord, fibreType: undefined }));
  return evaluate(
    whole,
    evidence({ readings, work } as never),
    using ?? setup({ cords }, everywhere),
    settings(by),
  );
}
const told = (name: string, ...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.filter((one) => one.name === name);
const said = (name: string, ...asked: Parameters<typeof judged>) => told(name, ...asked).length > 0;

/** One reading of each fibre, a minute apart. */
const column = (losses: readonly number[], direction: Direction = 'A>B', wavelength = 850) =>
  losses.map((loss, at) => cell(at + 1, loss, direction, 500 + at, wavelength));
const many = (count: number, loss: number | ((at: number) => number)) =>
  Array.from({ length: count }, (_, at) => (typeof loss === 'number' ? loss : loss(at)));
const round = (value: number, places: number) => Number(value.toFixed(places));

describe('a pass that stands out', () => {
  const usual = [0.6, 0.62, 0.58, 0.61, 0.6, 0.63, 0.59];
  const wide = { limits: [limitsSet('SET', 0.75, 3)] };

  it('lies 0.2 dB above the median of its mates', () => {
    const readings = column([...usual, 1.2]);
    // Sorted: 0.58 0.59 0.60 0.60 0.61 0.62 0.63 1.20; deviations from 0.605: 0.005 three times, 0.015 twice.
    expect(told('pass-but-outlier', readings, { terms: wide })).toEqual([
      {
        name: 'pass-but-outlier',
        place: readings[7]?.place,
        details: {
          fibre: 8,
          wavelength: 850,
          direction: 'A>B',
          loss: 1.2,
          median: 0.605,
          deviation: 0.015,
          bound: 0.805,
          mates: 8,
        },
      },
    ]);
    expect(said('pass-but-outlier', column([...usual, 0.805]), { terms: wide })).toBe(false);
    expect(said('pass-but-outlier', column([...usual, 0.805001]), { terms: wide })).toBe(true);
  });

  it('and so many deviations of the mates, without the two greatest', () => {
    const mates = [0.6, 0.7, 0.8, 0.9, 1, 1.1];
    const scatter = (4.7 + 350 / 64) * sampleStandardDeviation(mates);
    const bound = round(0.95 + scatter, 6);
    expect(bound).toBeCloseTo(2.852, 3);
    const last = (loss: number) =>
      told('pass-but-outlier', column([...mates, 1.2, loss]), { terms: wide });
    expect(last(bound)).toEqual([]);
    expect(last(round(bound + 1e-6, 6))).toMatchObject([{ details: { bound, median: 0.95 } }]);
  });

  it('passes, has eight mates, and those of its own path, light and direction', () => {
    expect(said('pass-but-outlier', column([...usual, 4.4]), { terms: wide })).toBe(false);
    expect(said('pass-but-outlier', column([...usual.slice(1), 1.2]), { terms: wide })).toBe(false);
    expect(
      said('pass-but-outlier', column([...usual.slice(1), 1.2]), {
        terms: wide,
        by: { doubts: { outlierMates: 7 } },
      }),
    ).toBe(true);
    const apart = (change: Partial<ReadingCell>) => {
      const readings = column([...usual, 1.2]);
      return [...readings.slice(1), { ...readings[0]!, ...change }];
    };
    expect(said('pass-but-outlier', apart({ direction: 'B>A' }), { terms: wide })).toBe(false);
    const repaired = {
      name: 'REP-1',
      fibres: [1],
      on: when(100),
      path: [piece(1)],
      place: place(),
    };
    expect(
      said('pass-but-outlier', apart({}), { terms: wide, model: { repairs: [repaired] } }),
    ).toBe(false);
    expect(said('pass-but-outlier', apart({}), { terms: wide })).toBe(true);
  });
});

describe('an attempt beside the one before', () => {
  const twice = (...losses: readonly number[]) =>
    losses.map((loss, at) => cell(1, loss, 'A>B', 500 + at));

  it('differs by no more than both uncertainties allow', () => {
    const readings = twice(1.12, 1.62);
    expect(told('not-repeatable', readings)).toEqual([
      {
        name: 'not-repeatable',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the attempt before' }],
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'A>B',
          loss: 1.62,
          before: 1.12,
          difference: 0.5,
          bound: 0.2121,
          uncertainty: 0.15,
        },
      },
    ]);
    // 0.15 · √2 = 0.2121320…
    expect(said('not-repeatable', twice(1, 1.212132))).toBe(false);
    expect(said('not-repeatable', twice(1, 1.212133))).toBe(true);
    expect(said('not-repeatable', twice(1.212133, 1))).toBe(true);
    expect(said('not-repeatable', twice(1, 3), { by: { uncertainty: [] } })).toBe(false);
  });

  it('is compared with the last valid one that no work came after', () => {
    expect(said('not-repeatable', twice(1, 1.6, 1.61))).toBe(false);
    expect(told('not-repeatable', twice(1, 1.6, 46, 1.1))).toMatchObject([
      { details: { before: 1.6 } },
    ]);
    const work = [{ object: 'KQ-1', done: 'cleaned', on: when(500), place: place() }];
    expect(said('not-repeatable', twice(1, 1.6), { work })).toBe(false);
    const late = [{ object: 'KQ-1', done: 'cleaned', on: when(900), place: place() }];
    expect(said('not-repeatable', twice(1, 1.6), { work: late })).toBe(false);
  });
});

it('another number of cords than was wanted is said once for a set-up', () => {
  const using = setup({ reference: 'three-cord' });
  const readings = column([0.4, 0.5]);
  const terms = { limits: [limitsSet('SET', 0.75, 3)] };
  expect(told('method-limit-mismatch', readings, { using, terms })).toEqual([
    {
      name: 'method-limit-mismatch',
      place: readings[0]?.place,
      details: {
        setup: 'ONE',
        wanted: 'one-cord',
        used: 'three-cord',
        readings: 2,
        fibres: '1..2',
        // 3.0 dB/km, two pairs of 0.75 dB in the path and two in the reference.
        limit: 3,
      },
    },
  ]);
  expect(told('method-limit-mismatch', readings, { using })[0]?.details).not.toHaveProperty(
    'limit',
  );
  expect(
    said('method-limit-mismatch', readings, {
      using,
      terms: { ...terms, reference: 'three-cord' },
    }),
  ).toBe(false);
  expect(
    said('method-limit-mismatch', readings, { using, terms: { ...terms, reference: undefined } }),
  ).toBe(false);
});

describe('the level of a batch', () => {
  it('is low below what the parts make likely', () => {
    const readings = column(many(4, 2));
    // As a rule 2.5 + 2 × 0.3; at least 0.8 × 2.5 + 0.35 × 0.6.
    expect(told('batch-too-low', readings)).toEqual([
      {
        name: 'batch-too-low',
        place: readings[0]?.place,
        details: {
          wavelength: 850,
          direction: 'A>B',
          setup: 'ONE',
          readings: 4,
          fibres: '1..4',
          median: 2,
          usual: 3.1,
          least: 2.21,
          away: 1.1,
          pair: 0.3,
          coreStep: 1,
        },
      },
    ]);
    expect(said('batch-too-low', column(many(4, 2.2)))).toBe(true);
    expect(said('batch-too-low', column(many(4, 2.22)))).toBe(false);
    expect(said('batch-too-low', column(many(3, 2)))).toBe(false);
  });

  it('is high above what they usually lose, a tenth of the fibre and 0.3 dB', () => {
    const short = { elements: [pair(), piece(100), pair()] };
    const readings = column(many(4, 1.18));
    // 0.25 + 0.6 dB as a rule, and at most 0.3 + 0.025 dB more.
    expect(told('batch-too-high', readings, short)).toEqual([
      {
        name: 'batch-too-high',
        place: readings[0]?.place,
        details: {
          wavelength: 850,
          direction: 'A>B',
          setup: 'ONE',
          readings: 4,
          fibres: '1..4',
          median: 1.18,
          usual: 0.85,
          least: 0.41,
          away: 0.33,
          pair: 0.3,
          // Away by about one pair.
          onePair: 1,
        },
      },
    ]);
    expect(said('batch-too-high', column(many(4, 1.17)), short)).toBe(false);
    const far = told('batch-too-high', column(many(4, 1.8)), short)[0]?.details;
    expect(far).toMatchObject({ away: 0.95, coreStep: 1 });
    expect(far).not.toHaveProperty('onePair');
    const single = { ...short, model: { mode: 'single-mode' as const } };
    expect(told('batch-too-high', column(many(4, 1.8)), single)[0]?.details).not.toHaveProperty(
      'coreStep',
    );
  });

  it('has an error of its own where its readings scatter', () => {
    const short = { elements: [pair(), piece(100), pair()] };
    // Three errors are 3 · 1.4826 · MAD ÷ √4: 0.11 dB for a MAD of 0.05 dB, 0.56 dB for one of 0.25 dB.
    expect(said('batch-too-high', column([1.3, 1.5, 1.4, 1.4]), short)).toBe(true);
    expect(said('batch-too-high', column([1.1, 1.7, 1.2, 1.6]), short)).toBe(false);
    expect(said('batch-too-low', column([0.3, 0.35, 0.3, 0.35]), short)).toBe(true);
    expect(said('batch-too-low', column([0.1, 0.6, 0.2, 0.5]), short)).toBe(false);
  });

  it('is told once for a set-up, where it is furthest away, of all that share it', () => {
    const readings = [...column(many(4, 2)), ...column(many(4, 0.5), 'A>B', 1300)];
    // At 1300 nm 0.8 × 0.6 + 0.35 × 0.6 = 0.69 dB at least: 0.19 dB short; at 850 nm 0.21 dB.
    const terms = { measure: [nm(850), nm(1300)] };
    expect(told('batch-too-low', readings, { terms })).toMatchObject([
      { place: readings[0]?.place, details: { wavelength: 850, readings: 8, least: 2.21 } },
    ]);
    const other = [...column(many(4, 2.1)), ...column(many(4, 0.4), 'A>B', 1300)];
    expect(told('batch-too-low', other, { terms })).toMatchObject([
      { place: other[4]?.place, details: { wavelength: 1300, median: 0.4, least: 0.69 } },
    ]);
  });

  it('is not asked where a core steps, upwards, or where a part has no usual figure', () => {
    const wide: FibreType = { ...glass, name: 'WIDE', core: nm(62_500) };
    const step = { elements: [pair(), piece(50), pair(), piece(50, wide), pair()] };
    expect(said('batch-too-high', column(many(4, 3)), step)).toBe(false);
    expect(said('batch-too-low', column(many(4, 0.3)), step)).toBe(true);
    const bare = { ...connector, loss: [{ max: db(0.75) }] };
    const unsaid = [{ ...pair(), type: bare } as PathElement, piece(100), pair()];
    expect(said('batch-too-high', column(many(4, 3)), { elements: unsaid })).toBe(false);
  });
});

describe('few readings of many objects', () => {
  const few = (object: string, excess: number, wavelength = 850): FewReadings => ({
    object,
    setup: 'ONE',
    wavelength: nm(wavelength),
    readings: 2,
    away: excess + 0.3,
    excess,
    place: place(),
  });

  it('are high together where their median surely is', () => {
    const four = [few('A', 0.2), few('B', 0.2), few('C', 0.2), few('D', 0.2)];
    expect(highTogether(four)).toEqual({ wavelength: nm(850), away: 0.5, of: four });
    expect(highTogether(four.slice(1))).toBeUndefined();
    expect(highTogether(four.map((one) => ({ ...one, excess: 0 })))).toBeUndefined();
    expect(highTogether(four.map((one) => ({ ...one, excess: -0.1 })))).toBeUndefined();
    const scattered = [-0.3, 0.7, 0.1, 0.3].map((excess, at) => few(`${at}`, excess));
    expect(highTogether(scattered)).toBeUndefined();
  });

  it('are told at the wavelength where they are furthest away, else at the shorter', () => {
    const at = (wavelength: number, excess: number) =>
      ['A', 'B', 'C', 'D'].map((object) => few(object, excess, wavelength));
    expect(highTogether([...at(850, 0.2), ...at(1300, 0.3)])?.wavelength).toBe(nm(1300));
    expect(highTogether([...at(1300, 0.2), ...at(850, 0.3)])?.wavelength).toBe(nm(850));
    expect(highTogether([...at(1300, 0.2), ...at(850, 0.2)])?.wavelength).toBe(nm(850));
    expect(highTogether([])).toBeUndefined();
  });
});

describe('the course of a batch', () => {
  const steps = (before: number, after: number, count = 12, at = 6) =>
    many(count, (index) => (index < at ? before : after));

  it('changes at one fibre and stays', () => {
    const readings = column(steps(1, 1.5));
    expect(told('level-changes', readings)).toEqual([
      {
        name: 'level-changes',
        place: readings[6]?.place,
        details: {
          readings: 12,
          wavelengths: '850',
          directions: 'A>B',
          setup: 'ONE',
          // 1.5 · √2 · 2 · 0.05 dB.
          bound: 0.2121,
          fibre: 7,
          before: 6,
          later: '7..12',
          size: 0.5,
          up: 1,
        },
      },
    ]);
    expect(told('level-changes', column(steps(1.5, 1)))).toMatchObject([
      { details: { size: 0.5, up: 0 } },
    ]);
    expect(told('level-changes', column(steps(1, 1.5, 12, 4)))).toMatchObject([
      { details: { fibre: 5, before: 4, later: '5..12' } },
    ]);
  });

  it('by more than two readings of one set-up do, over ten fibres', () => {
    expect(said('level-changes', column(steps(1, 1.22)))).toBe(true);
    expect(said('level-changes', column(steps(1, 1.21)))).toBe(false);
    const fibres = (count: number) => column(steps(1, 1.5, count, 5));
    expect(said('level-changes', fibres(10))).toBe(true);
    expect(said('level-changes', fibres(9))).toBe(false);
    const half = column(steps(1, 1.5)).map((one, at) => ({
      ...one,
      setup: at < 6 ? 'ONE' : 'TWO',
    }));
    expect(said('level-changes', half)).toBe(false);
  });

  it('rises or falls all along', () => {
    const readings = column(many(12, (at) => 1 + at * 0.05));
    expect(told('drift-while-testing', readings)).toEqual([
      {
        name: 'drift-while-testing',
        place: readings[0]?.place,
        details: {
          readings: 12,
          wavelengths: '850',
          directions: 'A>B',
          setup: 'ONE',
          bound: 0.2121,
          from: 1,
          to: 12,
          fibres: 12,
          // Eleven steps of 0.05 dB.
          size: 0.55,
          up: 1,
        },
      },
    ]);
    expect(said('level-changes', readings)).toBe(false);
    const falling = column(many(12, (at) => 2 - at * 0.05));
    expect(told('drift-while-testing', falling)).toMatchObject([
      { details: { size: 0.55, up: 0 } },
    ]);
    // Eleven steps of 0.019 dB are 0.209 dB, less than the bound; of 0.02 dB 0.22 dB.
    expect(said('drift-while-testing', column(many(12, (at) => 1 + at * 0.019)))).toBe(false);
    expect(said('drift-while-testing', column(many(12, (at) => 1 + at * 0.02)))).toBe(true);
  });

  it('is in the order of the readings, not of the fibres', () => {
    const reversed = column(many(12, (at) => 1 + at * 0.05)).map((one, at) => ({
      ...one,
      fibre: 12 - at,
    }));
    expect(told('drift-while-testing', reversed)).toMatchObject([
      { details: { from: 12, to: 1, up: 1 } },
    ]);
  });

  it('is looked for in all columns together, and told once', () => {
    const all = [
      ...column(steps(1, 1.5)),
      ...column(steps(1.1, 1.6), 'B>A'),
      ...column(steps(0.7, 1.2), 'A>B', 1300),
      ...column(steps(0.8, 1.3), 'B>A', 1300),
    ];
    const terms = { measure: [nm(850), nm(1300)] };
    expect(told('level-changes', all, { terms })).toMatchObject([
      {
        details: {
          readings: 48,
          wavelengths: '850 and 1300',
          directions: 'A>B and B>A',
          size: 0.5,
          fibre: 7,
        },
      },
    ]);
  });
});

describe('rows that repeat', () => {
  /** Rows of one block, one reading for each column. */
  const table = (...rows: readonly (readonly number[])[]) =>
    rows.flatMap((values, index) => {
      const row = { ...place(), block: 77 };
      return values.map((loss, at) => ({
        ...cell(index + 1, loss, 'A>B', 500, [850, 1300][at]),
        row,
        place: { ...place(), block: 77 },
      }));
    });
  const twice = (count: number, columns = 1) => {
    const once = many(count, (at) => 1 + ((at * 7) % 23) / 100).map((loss) =>
      [loss, loss - 0.3].slice(0, columns),
    );
    return table(...once, ...once);
  };

  it('are more than chance makes', () => {
    const readings = twice(8);
    // A row is like another by 16 ÷ (16 · 15); eight in a row of 16²/2 ways: 128 · 15^−8 = 5e−8.
    expect(told('rows-repeated', readings)).toEqual([
      {
        name: 'rows-repeated',
        place: readings[8]?.row,
        related: [{ place: readings[0]?.row, message: 'the same values' }],
        details: { rows: 8, fibres: '9..16', like: '1..8', readings: 1 },
      },
    ]);
    // Seven of 14: 98 · 13^−7 = 1.6e−6 is chance.
    expect(said('rows-repeated', twice(7))).toBe(false);
  });

  it('count another column by a quarter at least', () => {
    // Five of ten: 50 · (1/9 · 1/4)^5 = 8.3e−7; four of eight: 32 · (1/7 · 1/4)^4 = 5.2e−5.
    expect(told('rows-repeated', twice(5, 2))).toMatchObject([
      { details: { rows: 5, readings: 2 } },
    ]);
    expect(said('rows-repeated', twice(4, 2))).toBe(false);
    expect(said('rows-repeated', twice(5, 2), { by: { doubts: { repeated: 6 } } })).toBe(false);
  });

  it('stand apart from what they repeat, in one block', () => {
    expect(said('rows-repeated', table(...many(20, 1).map((loss) => [loss])))).toBe(false);
    const apart = twice(8).map((one, at) =>
      at < 8 ? one : { ...one, place: { ...one.place, block: 78 } },
    );
    expect(said('rows-repeated', apart)).toBe(false);
    const shifted = many(8, (at) => 1 + ((at * 7) % 23) / 100).map((loss) => [loss]);
    const between = [[3], ...shifted, [4], [5], ...shifted];
    expect(told('rows-repeated', table(...between))).toMatchObject([
      { details: { rows: 8, fibres: '12..19', like: '2..9' } },
    ]);
  });
});

describe('both directions of a fibre', () => {
  const both = (forward: number, back: number) => [
    cell(1, forward, 'A>B', 500),
    cell(1, back, 'B>A', 500),
  ];

  it('lie within 0.3 dB', () => {
    const readings = both(1, 1.4);
    expect(told('direction-asymmetry', readings)).toEqual([
      {
        name: 'direction-asymmetry',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the other direction' }],
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'B>A',
          forward: 1,
          back: 1.4,
          difference: 0.4,
          bound: 0.3,
        },
      },
    ]);
    const other = both(1.4, 1);
    expect(told('direction-asymmetry', other)).toMatchObject([
      {
        place: other[0]?.place,
        related: [{ place: other[1]?.place }],
        details: { direction: 'A>B', difference: 0.4 },
      },
    ]);
    expect(said('direction-asymmetry', both(1, 1.3))).toBe(false);
    expect(said('direction-asymmetry', both(1.3, 1))).toBe(false);
    expect(said('direction-asymmetry', both(1, 1.300001))).toBe(true);
    expect(said('direction-asymmetry', both(1.300001, 1))).toBe(true);
    const average = { wanted: ['A>B' as const, 'B>A' as const], average: true, within: db(0.1) };
    expect(said('direction-asymmetry', both(1, 1.2), { terms: { directions: average } })).toBe(
      true,
    );
    expect(
      said('direction-asymmetry', both(1, 1.2), {
        terms: { directions: { ...average, average: false } },
      }),
    ).toBe(false);
  });

  const wide: FibreType = { ...glass, name: 'WIDE', core: nm(62_500) };
  const down = [pair(), piece(50, wide), pair(), piece(50), pair()];
  const stepped = (loss: number): LimitsSet =>
    limitsSet('STEP', 0.75, 3, {
      fibre: ['GLASS', 'WIDE'].map((name) => ({
        fibre: name,
        wavelength: nm(850),
        rate: ratePerKm(3_000_000),
        place: place(),
      })),
      coreStep: [{ from: 'WIDE', to: 'GLASS', loss: db(loss), place: place() }] as never,
    });

  it('differ by what a step of cores may take, in its direction', () => {
    // 20 · log10(62.5 ÷ 50) = 1.938200 dB, all modes filled.
    const step = { coreStep: 'WIDE to GLASS', coreLoss: 1.9382 };
    expect(told('direction-asymmetry', both(2.6, 2), { elements: down })[0]?.details).toMatchObject(
      step,
    );
    expect(told('direction-asymmetry', both(2, 2.6), { elements: down })[0]?.details).toMatchObject(
      {
        coreStep: 'against the step',
      },
    );
    expect(
      told('direction-asymmetry', both(2, 2.6), { elements: [...down].reverse() })[0]?.details,
    ).toMatchObject(step);
    const allowed = { elements: down, terms: { limits: [stepped(1)] } };
    expect(said('direction-asymmetry', both(3.3, 2), allowed)).toBe(false);
    expect(told('direction-asymmetry', both(3.4, 2), allowed)[0]?.details).toMatchObject({
      allowed: 1,
      difference: 1.4,
    });
    expect(said('direction-asymmetry', both(2, 2.3), allowed)).toBe(false);
    const against = told('direction-asymmetry', both(2, 2.4), allowed)[0]?.details;
    expect(against).toMatchObject({ difference: 0.4 });
    expect(against).not.toHaveProperty('allowed');
  });

  it('are exchanged where every fibre loses more against the step', () => {
    const readings = (count: number, forward = 1, back = 2) => [
      ...column(many(count, forward)),
      ...column(many(count, back), 'B>A'),
    ];
    const four = readings(4);
    expect(told('directions-exchanged', four, { elements: down })).toEqual([
      {
        name: 'directions-exchanged',
        place: four[0]?.place,
        details: { fibres: '1..4', readings: 8, narrowing: 'A>B', less: 1, bound: 0.3 },
      },
    ]);
    expect(
      told('directions-exchanged', readings(4, 2, 1), { elements: [...down].reverse() }),
    ).toMatchObject([{ details: { narrowing: 'B>A', less: 1 } }]);
    expect(said('direction-asymmetry', four, { elements: down })).toBe(false);
    expect(said('directions-exchanged', readings(3), { elements: down })).toBe(false);
    expect(said('directions-exchanged', readings(4, 2, 1), { elements: down })).toBe(false);
    expect(said('directions-exchanged', four)).toBe(false);
    expect(said('directions-exchanged', readings(4, 1.7, 2), { elements: down })).toBe(true);
    expect(said('directions-exchanged', readings(4, 1.71, 2), { elements: down })).toBe(false);
    const level = [...readings(4), cell(5, 1, 'A>B', 500), cell(5, 1, 'B>A', 500)];
    expect(said('directions-exchanged', level, { elements: down })).toBe(false);
    const up = [...down.slice(0, -1), pair(), piece(10, wide), pair()];
    expect(said('directions-exchanged', four, { elements: up })).toBe(false);
  });

  it('are copied where more than five fibres have the same digits, and none has others', () => {
    const same = (count: number, ...more: ReadingCell[]) => {
      const losses = many(count, (at) => 1 + at / 100);
      return [...column(losses), ...column(losses, 'B>A'), ...more];
    };
    const six = same(6);
    expect(told('direction-fake', six)).toEqual([
      {
        name: 'direction-fake',
        place: six[0]?.place,
        details: { wavelength: 850, fibres: '1..6', readings: 6 },
      },
    ]);
    expect(said('direction-fake', same(5))).toBe(false);
    expect(said('direction-fake', same(6, cell(7, 1, 'A>B', 500), cell(7, 1.01, 'B>A', 500)))).toBe(
      false,
    );
    expect(said('direction-fake', same(6, cell(7, 1, 'A>B', 500)))).toBe(true);
  });
});

describe('two wavelengths of a fibre', () => {
  const terms = { measure: [nm(850), nm(1300)] };
  const two = (short: number, long: number) => [
    cell(1, short, 'A>B', 500),
    cell(1, long, 'A>B', 500, 1300),
  ];

  it('are the wrong way round on multimode where the longer loses more', () => {
    const readings = two(1, 1.3);
    expect(told('bend-or-swap-mm', readings, { terms })).toEqual([
      {
        name: 'bend-or-swap-mm',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the shorter wavelength' }],
        details: {
          fibre: 1,
          wavelength: 1300,
          direction: 'A>B',
          short: 850,
          long: 1300,
          lossShort: 1,
          lossLong: 1.3,
          difference: 0.3,
          bound: 0.1,
        },
      },
    ]);
    // Two readings of one set-up differ by 2 · √2 · 0.05 = 0.141421… dB.
    expect(said('bend-or-swap-mm', two(1, 1.141421), { terms })).toBe(false);
    expect(said('bend-or-swap-mm', two(1, 1.141422), { terms })).toBe(true);
    const bound = { terms, by: { doubts: { inversion: db(0.3) } } };
    expect(said('bend-or-swap-mm', two(1, 1.3), bound)).toBe(false);
    expect(said('bend-or-swap-mm', two(1, 1.300001), bound)).toBe(true);
  });

  it('are exchanged where a batch has about the slope of its fibre, the other way', () => {
    const table = (more: number, count = 4) => [
      ...column(many(count, 1)),
      ...column(many(count, 1 + more), 'A>B', 1300),
    ];
    const readings = table(1.5);
    // (2.5 − 0.6) dB/km over 1 km.
    expect(told('wavelengths-exchanged', readings, { terms })).toEqual([
      {
        name: 'wavelengths-exchanged',
        place: readings[4]?.place,
        related: [{ place: readings[0]?.place, message: 'the shorter wavelength' }],
        details: {
          short: 850,
          long: 1300,
          direction: 'A>B',
          fibres: '1..4',
          readings: 8,
          more: 1.5,
          slope: 1.9,
        },
      },
    ]);
    expect(said('bend-or-swap-mm', readings, { terms })).toBe(false);
    expect(said('wavelengths-exchanged', table(1.5, 3), { terms })).toBe(false);
    expect(said('wavelengths-exchanged', table(0.14), { terms })).toBe(false);
    expect(said('wavelengths-exchanged', table(0.15), { terms })).toBe(true);
    // At most 1.6 times the slope: 3.04 dB.
    expect(said('wavelengths-exchanged', table(3.03), { terms })).toBe(true);
    expect(said('wavelengths-exchanged', table(3.05), { terms })).toBe(false);
    const back = readings.map((one, at) => (at < 4 ? one : { ...one, direction: 'B>A' as const }));
    expect(said('wavelengths-exchanged', back, { terms })).toBe(false);
  });
});

describe('a long wavelength on single-mode', () => {
  const elements = [pair(), piece(10_000, fine), pair()];
  const asked: Asked = {
    elements,
    terms: { measure: [nm(1310), nm(1550)] },
    model: { mode: 'single-mode' },
  };
  const two = (short: number, long: number, number = 1) => [
    cell(number, short, 'A>B', 500, 1310),
    cell(number, long, 'A>B', 500, 1550),
  ];

  it('loses more than the slope of its fibre has it: a bend', () => {
    const readings = two(4, 3.2);
    // (0.35 − 0.20) · 10 km = 1.5 dB less was due; 0.2 dB and a fifth of 1.5 dB are left open.
    expect(told('bend-signature-sm', readings, asked)).toEqual([
      {
        name: 'bend-signature-sm',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the shorter wavelength' }],
        details: {
          fibre: 1,
          wavelength: 1550,
          direction: 'A>B',
          short: 1310,
          long: 1550,
          lossShort: 4,
          lossLong: 3.2,
          excess: 0.7,
          slope: 1.5,
          length: 10_000,
          bound: 0.5,
        },
      },
    ]);
    expect(said('bend-signature-sm', two(4, 3), asked)).toBe(false);
    expect(said('bend-signature-sm', two(4, 3.000001), asked)).toBe(true);
  });

  it('is held to the usual slope where the fibre says none, and to none at other wavelengths', () => {
    const silent: FibreType = { ...fine, attenuation: [] };
    const unsaid = { ...asked, elements: [pair(), piece(10_000, silent), pair()] };
    expect(told('bend-signature-sm', two(4, 3.2), unsaid)[0]?.details).toMatchObject({
      slope: 1.5,
      excess: 0.7,
    });
    const other = two(4, 9).map((one) =>
      one.wavelength === nm(1550) ? { ...one, wavelength: nm(1625) } : one,
    );
    const using = setup(
      { cords: setup().cords.map((cord) => ({ ...cord, fibreType: undefined })) },
      [...everywhere, taken(480, -20, 1625)],
    );
    expect(said('bend-signature-sm', other, { ...unsaid, using })).toBe(false);
  });

  it('stands out from its mates by what it has alone', () => {
    const mates = (share: number, own: number) =>
      many(8, (at) => (at === 7 ? own : share)).flatMap((excess, at) =>
        two(4, round(2.5 + excess, 6), at + 1),
      );
    // All exceed the slope by 0.4 dB, one by 0.5 dB more: 0.2 dB beyond the rest is a bend.
    expect(told('bend-signature-sm', mates(0.4, 0.9), asked)).toMatchObject([
      { details: { fibre: 8, excess: 0.9, bound: 0.2 } },
    ]);
    expect(said('bend-signature-sm', mates(0.4, 0.6), asked)).toBe(false);
    expect(said('bend-signature-sm', mates(0.4, 0.61), asked)).toBe(true);
    // What all of them have beyond what is left open is no slope of the cable.
    expect(told('bend-signature-sm', mates(0.6, 0.6), asked).length).toBe(8);
  });

  it('loses as much more as the shorter: a joint', () => {
    const readings = two(4.5, 3);
    // As a rule 3.5 + 0.6 and 2.0 + 0.6 dB.
    expect(told('joint-signature', readings, asked)).toEqual([
      {
        name: 'joint-signature',
        place: readings[0]?.place,
        related: [{ place: readings[1]?.place, message: 'the longer wavelength' }],
        details: {
          fibre: 1,
          wavelength: 1550,
          direction: 'A>B',
          short: 1310,
          long: 1550,
          lossShort: 4.5,
          lossLong: 3,
          excess: 0,
          slope: 1.5,
          length: 10_000,
          residual: 0.4,
          residualLong: 0.4,
        },
      },
    ]);
    expect(said('joint-signature', two(4.4, 2.9), asked)).toBe(false);
    expect(said('joint-signature', two(4.400001, 2.900001), asked)).toBe(true);
    expect(said('joint-signature', two(4.400001, 2.9), asked)).toBe(false);
    // Alike within 0.141421… dB.
    expect(said('joint-signature', two(4.5, 3.141421), asked)).toBe(true);
    expect(said('joint-signature', two(4.5, 3.141422), asked)).toBe(false);
    expect(said('joint-signature', two(4.641422, 3), asked)).toBe(false);
  });

  it('says nothing of other fibre', () => {
    expect(said('bend-signature-sm', two(4, 3.2), { ...asked, model: { mode: 'plastic' } })).toBe(
      false,
    );
    expect(said('bend-signature-sm', two(4, 3.2), { ...asked, model: { mode: undefined } })).toBe(
      false,
    );
  });
});

describe('numbers', () => {
  const own = many(16, (at) => 1 + (((at * 17 + 5) * (at + 3)) % 61) / 200);
  const column2 = (values: readonly number[], minute = 500) =>
    values.map((loss, at) => cell(at + 1, round(loss, 6), 'B>A', minute + at));

  it('of one direction fit those of the other one number on', () => {
    const shifted = [...own.slice(1), 1.15];
    const readings = [...column(own.map((loss) => round(loss, 6))), ...column2(shifted)];
    expect(told('numbers-shifted', readings)).toEqual([
      {
        name: 'numbers-shifted',
        place: readings[16]?.place,
        details: {
          what: 'B>A',
          against: 'A>B',
          shift: 'one number on',
          fibres: 16,
          own: round(sampleCorrelation(shifted, own), 4),
          other: 1,
        },
      },
    ]);
    expect(said('numbers-shifted', [...column(own), ...column2(own)])).toBe(false);
    expect(said('numbers-shifted', readings, { by: { doubts: { numbered: 17 } } })).toBe(false);
  });

  it('of a later table fit those before', () => {
    const later = [...own.slice(1), 1.15].map((loss, at) =>
      cell(at + 1, round(loss, 6), 'A>B', 700 + at),
    );
    const readings = [...column(own.map((loss) => round(loss, 6))), ...later];
    expect(told('numbers-shifted', readings)).toMatchObject([
      {
        place: later[0]?.place,
        details: { what: 'these readings', against: 'those before', shift: 'one number on' },
      },
    ]);
  });

  it('of another wavelength fit those of the first', () => {
    const shifted = [...own.slice(1), 1.15].map((loss) => round(loss, 6));
    const readings = [
      ...column(own.map((loss) => round(loss, 6))),
      ...column(shifted, 'A>B', 1300),
    ];
    expect(
      told('numbers-shifted', readings, { terms: { measure: [nm(850), nm(1300)] } }),
    ).toMatchObject([
      { details: { what: '1300 nm', against: '850 nm', shift: 'one number on', other: 1 } },
    ]);
  });
});
