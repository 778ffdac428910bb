/**
 * Ends of a tree and ways round a ring, whole: which is the worst, what is told of
 * all of them at once, how far ends lie apart (differential optical path loss,
 * ITU-T G.984.2 and G.9807.1). Fibre of 3.0 dB/km, at least 1.0 dB/km; pairs of
 * 0.75 dB: an end of 100 m loses 1.8 dB at most and 0.1 dB at least.
 */
import { describe, expect, it } from 'vitest';
import { exactDb, ratePerKm } from '../../grammar/src/quantity/index.ts';
import { alikeWays } from '../../server/src/evaluate/alike.ts';
import type {
  ApplicationRow,
  ApplicationType,
  FibreType,
  LinkModel,
  PathElement,
  SplitterType,
  Terms,
  Way,
} from '../../server/src/model/types.ts';
import {
  application,
  carried,
  cell,
  db,
  evaluate,
  evidence,
  fibre,
  limitsSet,
  link,
  mated,
  metres,
  nm,
  place,
  setup,
  stretch,
} from '../support/build.ts';

const glass: FibreType = {
  ...fibre,
  attenuation: [
    { wavelength: nm(850), min: ratePerKm(1_000_000), max: ratePerKm(3_000_000) },
    { wavelength: nm(1300), min: ratePerKm(500_000), max: ratePerKm(1_500_000) },
  ],
};
const piece = (length: number): PathElement =>
  ({ ...stretch(length), fibre: glass }) as PathElement;
const path = (length: number): PathElement[] => [mated(), piece(length), mated()];
const way = (
  name: string,
  fibreNumber: number | undefined,
  length: number,
  kind: Way['kind'] = 'branch',
): Way =>
  ({
    kind,
    name,
    ...(fibreNumber !== undefined && { fibre: fibreNumber }),
    path: path(length),
    place: place(),
  }) as unknown as Way;

const service = (row: Partial<ApplicationRow>, more: Partial<ApplicationType> = {}) =>
  carried({
    ...application([]),
    count: 1,
    rows: [{ fibre: 'GLASS', place: place(), ...row }],
    ...more,
  });

function judged(
  lengths: readonly number[],
  terms: Partial<Terms> = {},
  readings: ReturnType<typeof cell>[] = [],
) {
  const ways = lengths.map((length, at) => way(`E-${at + 1}`, at + 1, length));
  const model: LinkModel = { ...link(path(1), terms, lengths.length), ways };
  return evaluate(model, evidence({ readings }), setup());
}
const told = (...asked: Parameters<typeof judged>) =>
  judged(...asked)
    .doubts.filter(({ name }) => name !== 'readings-missing')
    .map(({ name, details }): Record<string, unknown> => ({ name, ...details }));

describe('ends of a tree', () => {
  it('have each their own length, loss and light', () => {
    const { ways, worstWay, length, ...result } = judged([100, 300, 200]);
    expect(
      ways.map(({ name, length: own, wavelengths }) => [name, own, wavelengths[0]?.worst]),
    ).toEqual([
      ['E-1', metres(100), exactDb(db(1.8))],
      ['E-2', metres(300), exactDb(db(2.4))],
      ['E-3', metres(200), exactDb(db(2.1))],
    ]);
    expect([worstWay, length]).toEqual(['E-2', metres(300)]);
    expect(result.wavelengths[0]?.worst).toEqual(exactDb(db(2.4)));
    expect(ways.map(({ kind }) => kind)).toEqual(['branch', 'branch', 'branch']);
    expect(result.fibres.map(({ end }) => end)).toEqual(['E-1', 'E-2', 'E-3']);
    expect(judged([100, 100]).worstWay).toBe('E-1');
  });

  it('are told of at once, by the one that fails most', () => {
    const carries = [service({ reach: metres(150), loss: db(9) })];
    expect(told([100, 300, 200], { carries })).toEqual([
      {
        name: 'reach-exceeded',
        application: 'SERVICE',
        because: 'E-2 and 1 more: 300 m is longer than its reach',
        row: 'GLASS, 150 m, 9 dB',
        way: 'E-2 and 1 more',
        length: 300,
        reach: 150,
        over: 150,
      },
    ]);
    expect(told([100, 200], { carries })).toMatchObject([
      { way: 'E-2', because: 'E-2: 200 m is longer than its reach' },
    ]);
    expect(told([100, 150], { carries })).toEqual([]);
  });

  it('fail by loss and by too little, each where it is most', () => {
    const loss = { carries: [service({ reach: metres(900), loss: db(2) })] };
    expect(
      told([100, 300, 200], loss).filter(({ name }) => name === 'application-loss-exceeded'),
    ).toMatchObject([
      {
        way: 'E-2 and 1 more',
        because: 'E-2 and 1 more: 2.40 dB at the greatest figures is more than its loss',
        loss: 2.4,
        over: 0.4,
      },
    ]);
    const least = { carries: [service({ reach: metres(900), loss: db(9), min: db(0.25) })] };
    expect(told([200, 100, 300], least)).toMatchObject([
      {
        name: 'application-loss-too-low',
        way: 'E-2 and 1 more',
        because: 'E-2 and 1 more: it may lose too little, 0.10 dB at the least',
        least: 0.1,
        under: 0.15,
      },
    ]);
    const joints = { carries: [service({ reach: metres(900), loss: db(9), connections: db(1) })] };
    expect(told([100, 300], joints)).toMatchObject([
      { name: 'application-loss-exceeded', way: 'E-2 and 1 more' },
    ]);
    const other = { carries: [service({ fibre: 'OTHER', loss: db(9) })] };
    expect(told([100, 300], other)).toMatchObject([
      { name: 'application-fibre-unsuited', way: 'E-1 and 1 more' },
    ]);
  });

  it('lie apart by the most of one less the least of another', () => {
    const carries = (differential: number) => [
      service({ reach: metres(900), loss: db(9), differential: db(differential) } as never),
    ];
    // 3.0 dB of E-2 at 500 m less 0.1 dB of E-1.
    expect(judged([100, 500, 300], { carries: carries(2.9) }).applications).toMatchObject([
      {
        support: 'by design',
        differential: {
          value: exactDb(db(2.9)),
          highest: 'E-2',
          lowest: 'E-1',
          wavelength: nm(850),
          limit: db(2.9),
        },
      },
    ]);
    expect(told([100, 500, 300], { carries: carries(2.9) })).toEqual([]);
    const over = judged([100, 500, 300], { carries: carries(2.8) });
    expect(over.applications).toMatchObject([
      {
        support: 'not supported',
        because: 'E-2 and E-1 may lie 2.9 dB apart, and 2.8 dB is allowed',
      },
    ]);
    expect(told([100, 500, 300], { carries: carries(2.8) })).toEqual([
      {
        name: 'differential-exceeded',
        application: 'SERVICE',
        differential: 2.9,
        limit: 2.8,
        over: 0.1,
        highest: 'E-2',
        lowest: 'E-1',
        wavelength: 850,
      },
    ]);
    // Of two alike the one that loses most may itself lose least: it is met by another.
    expect(judged([100, 100], { carries: carries(9) }).applications).toMatchObject([
      { differential: { value: exactDb(db(1.7)), highest: 'E-1', lowest: 'E-2' } },
    ]);
    expect(judged([100], { carries: carries(9) }).applications[0]).not.toHaveProperty(
      'differential',
    );
    expect(judged([100, 500], { carries: [service({ loss: db(9) })] }).applications).toMatchObject([
      { support: 'by design', differential: { limit: undefined } },
    ]);
  });

  it('are carried to where they are named', () => {
    const carries = [{ ...service({ reach: metres(150), loss: db(9) }), fibres: [1] }];
    expect(told([100, 300], { carries })).toEqual([]);
    const { applications, ways } = judged([100, 300], { carries });
    expect(applications).toMatchObject([
      {
        support: 'by design',
        way: 'E-1',
        because: 'E-1: 1.80 dB at the greatest figures of all parts',
      },
    ]);
    expect(ways.length).toBe(2);
  });

  it('take what was read of each', () => {
    const carries = [service({ reach: metres(900), loss: db(2) })];
    const readings = [1, 2].flatMap((end) => [
      cell(end, 1.1, 'A>B', 500),
      cell(end, 1.2, 'B>A', 500),
    ]);
    const { applications } = judged([100, 300], { carries }, readings);
    expect(applications[0]).toMatchObject({ support: 'predicted', way: 'E-1' });
    const over = judged([100, 300], { carries }, [
      ...readings.slice(0, 3),
      cell(2, 2.5, 'B>A', 500),
    ]);
    expect(over.applications[0]).toMatchObject({
      support: 'not supported',
      way: 'E-2',
      because: 'E-2: E-2 B>A would lose 2.50 dB',
    });
  });

  it('are the worst where least is left to the limit', () => {
    const tight = limitsSet('TIGHT', 0.75, 3);
    const ways = judged([100, 300], { limits: [tight] });
    expect(ways.worstWay).toBe('E-2');
    const carries = [service({ loss: db(2.5) })];
    expect(judged([300, 100], { limits: [], carries }).worstWay).toBe('E-1');
  });
});

describe('ways round a ring', () => {
  const ring = (ways: readonly Way[], more: Partial<LinkModel> = {}, terms: Partial<Terms> = {}) =>
    evaluate(
      { ...link(path(1), { measure: [], ...terms }, 2), kind: 'ring', ways, ...more },
      evidence(),
    );

  it('are judged at what their links measure and what is sent', () => {
    const one: LinkModel = { ...link(path(1), { measure: [nm(1300)] }), name: 'S-1' };
    const crossing: PathElement = {
      kind: 'link',
      name: 'S-1',
      link: one,
      turned: false,
      place: place(),
    };
    const at = (terms: Partial<Terms> = {}) =>
      ring(
        [way('A to B', undefined, 100, 'span')],
        { path: [crossing] },
        terms,
      ).ways[0]?.wavelengths.map(({ wavelength }) => wavelength);
    expect(at()).toEqual([nm(1300)]);
    expect(at({ carries: [service({ loss: db(9) })] })).toEqual([nm(850), nm(1300)]);
    expect(at({ measure: [nm(850)] })).toEqual([nm(850)]);
  });

  it('are the worst where the long way loses most', () => {
    const ways = [
      way('A to B', undefined, 900, 'span'),
      way('B to A, the long way', undefined, 100, 'long-way'),
      way('C to A, the long way', undefined, 200, 'long-way'),
    ];
    const terms = { measure: [nm(850)] };
    expect(ring(ways, {}, terms).worstWay).toBe('C to A, the long way');
    expect(ring(ways.slice(0, 2), {}, terms).worstWay).toBe('B to A, the long way');
    expect(
      ring(
        [way('A to B', undefined, 100, 'span'), way('B to C', undefined, 900, 'span')],
        {},
        terms,
      ).worstWay,
    ).toBe('B to C');
    expect(ring(ways, {}, terms).ways.map(({ kind }) => kind)).toEqual([
      'span',
      'long-way',
      'long-way',
    ]);
  });
});

it('ways of the same parts are one, and outputs that are stated alike', () => {
  const [trunk, drop] = [piece(100), piece(10)];
  const type = (...outs: readonly (readonly number[] | undefined)[]) =>
    ({
      loss: outs.map((out) => ({ max: db(7), ...(out && { out }) })),
    }) as unknown as SplitterType;
  const output = (
    out: number | undefined,
    of: SplitterType | undefined,
    splitter = 'FOURTH',
  ): PathElement => ({
    kind: 'split',
    name: 'SP',
    splitter,
    ...(of && { type: of }),
    ...(out !== undefined && { out }),
    place: place(),
  });
  const numbers = (...paths: readonly (readonly PathElement[])[]) => {
    const ways = paths.map((each) => ({ path: each }) as unknown as Way);
    const alike = alikeWays(ways);
    return ways.map((one) => alike.get(one));
  };
  const even = type(undefined);
  expect(numbers([trunk, output(1, even), drop], [trunk, output(2, even), drop])).toEqual([0, 0]);
  expect(numbers([trunk, output(1, even), drop], [trunk, output(2, even), piece(10)])).toEqual([
    0, 1,
  ]);
  const uneven = type([1], [2, 3]);
  expect(
    numbers([output(1, uneven)], [output(2, uneven)], [output(3, uneven)], [output(4, uneven)]),
  ).toEqual([0, 1, 1, 2]);
  expect(numbers([output(1, even)], [output(1, even, 'EIGHTH')])).toEqual([0, 1]);
  expect(numbers([output(undefined, even)], [output(1, even)])).toEqual([0, 1]);
  expect(numbers([output(1, undefined)], [output(2, undefined)])).toEqual([0, 1]);
});
