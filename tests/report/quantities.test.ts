/**
 * What a plan takes, counted here by hand from the examples' texts; which fibre
 * does what, by the order of colours of TIA-598 (12 colours, tubes of 12); and
 * the texts of labels.
 */
import { describe, expect, test } from 'vitest';
import { fleetTable, type TableName, writtenTable } from '../../server/src/report/fleet/index.ts';
import { openExample } from '../examples/open.ts';
import { fleetOf } from '../support/fleet.ts';
import { judge } from '../support/judge.ts';

type Row = Readonly<Record<string, string | number | boolean | null>>;

function rowsOf(name: TableName, fleet: ReturnType<typeof fleetOf>): readonly Row[] {
  const { columns, rows } = fleetTable(name, [fleet]);
  return rows.map((row) =>
    Object.fromEntries(columns.map((each, index) => [each.name, row[index] ?? null])),
  );
}

function example(name: string): ReturnType<typeof fleetOf> {
  const [plan] = openExample(name).plans;
  return fleetOf(plan ?? expect.fail('no plan'));
}

const outside = example('outside-plant');
const tree = example('splitter-network');

describe('the bill of quantities', () => {
  const bill = rowsOf('quantities', outside);
  const line = (item: string, what: string) =>
    bill.find((row) => row.item === item && row.what === what);

  test('has each cable once, as long as its reels and its slack, however many links take it', () => {
    // 4210 + 4185 + 4190 + 4205 + 13.6 kft (4145.28) + 4200 + 4195 + 4180 + 1460 + slack 15 + 15 + 20.
    expect(line('cable', 'G.652.D, 96 fibres in 8 tubes')).toMatchObject({
      each_m: 35020.28,
      count: 1,
      total_m: 35020.28,
      // 4 + 8 + 4 + 4 of 96 are needed: the spares of KQ-OUTER-2 are not.
      spare_fibres: 76,
    });
    expect(bill.filter(({ item }) => item === 'reel')).toHaveLength(9);
  });

  test('counts a splice between reels once for each fibre of the cable, and links’ own beside it', () => {
    // 8 closures × 96, pigtails 2 × (4 + 12 + 4 + 4 + 4), three cut-outs × 4, the repair 2 × 2.
    expect(line('fibre splice', 'fusion')?.count).toBe(8 * 96 + 2 * 28 + 3 * 4 + 4);
    expect(line('mated pair', 'SC-APC')?.count).toBe(2 * 28);
  });

  test('has a closure once, whoever is spliced there, and says how many splices name no place', () => {
    const places = bill.filter(({ item }) => item === 'place of splices');
    expect(places.map(({ what, count }) => [what, count])).toEqual([
      ...Array.from({ length: 8 }, (_, index) => [`CL-${index + 1}`, 1]),
      ['not said', 2 * 28 + 4],
    ]);
    expect(places.at(-1)?.not_known).toBe(60);
  });

  test('has what the ends of a tree share once', () => {
    const splitters = rowsOf('quantities', tree).filter(({ item }) => item === 'splitter');
    expect(splitters.map(({ what, count }) => [what, count])).toEqual([
      ['PLC-1x4', 1],
      ['PLC-1x8', 2],
      ['PLC-1x8', 1],
      ['TAP-10', 1],
      ['TAP-20', 1],
      ['TAP-40', 1],
      ['TAP-50', 1],
    ]);
  });

  test('takes a pair at a port that two links share once, and says which lengths are not known', () => {
    const { plan } = judge(`plan "Two in a row" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
}

link KQ-1 {
  from        OPS/R1/A:01..02
  to          B1/R1/A:01..02
  connector   LC
  segment     180 m OM4
  connector   LC
}

link KQ-2 {
  from        B1/R1/A:01..02
  to          B2/R1/A:01..02
  connector   LC
  segment     unknown OM4
  connector   LC
}
`);
    const found = rowsOf('quantities', fleetOf(plan));
    expect(found.find(({ item }) => item === 'mated pair')?.count).toBe(6);
    const stretches = found.filter(({ item }) => item === 'cable without a name');
    expect(stretches.map((row) => [row.each_m, row.total_m, row.not_known])).toEqual([
      [180, 180, 0],
      [null, null, 1],
    ]);
  });
});

describe('the table of assignments', () => {
  const rows = rowsOf('assignments', outside);
  const of = (cable: string, number: number) =>
    rows.filter((row) => row.cable === cable && row.cable_fibre === number);

  test('has every fibre of every cable, in order', () => {
    for (const [cable, count] of [
      ['OSP-1', 96],
      ['OSP-2', 12],
      ['OSP-3', 24],
    ] as const) {
      const numbers = rows.flatMap((row) => (row.cable === cable ? [row.cable_fibre] : []));
      expect([...new Set(numbers)]).toEqual(Array.from({ length: count }, (_, index) => index + 1));
    }
  });

  test('says tube and colour, what takes a fibre, and what is kept, dead or free', () => {
    expect(of('OSP-1', 37)).toMatchObject([
      {
        tube: 4,
        tube_colour: 'brown',
        position: 1,
        colour: 'blue',
        state: 'used',
        object: 'KQ-OUTER-2',
        fibre: 37,
        port_a: 'CORE/P2:01',
        port_b: 'OUTER/P2:01',
      },
    ]);
    expect(of('OSP-1', 44)[0]).toMatchObject({ state: 'dead', because: expect.any(String) });
    expect(of('OSP-1', 45)[0]).toMatchObject({ state: 'spare' });
    expect(of('OSP-1', 96)[0]).toMatchObject({ state: 'free', object: null, colour: 'aqua' });
  });

  test('has two rows for a fibre that two links take on different reels', () => {
    expect(of('OSP-1', 49).map(({ object, reels }) => [object, reels])).toEqual([
      ['KQ-NORTH-1', 'R-01; R-02'],
      ['KQ-NORTH-2', 'R-03; R-04; R-05; R-06; R-07; R-08; R-09'],
    ]);
  });

  test('has a row for each end of a tree in each cable that its light takes', () => {
    const ends = rowsOf('assignments', tree).filter((row) => row.object === 'HALL-1');
    expect(ends.every(({ end }) => typeof end === 'string')).toBe(true);
    expect(new Set(ends.map(({ cable }) => cable))).toContain('C-500');
  });
});

test('labels say a name and where the other end is, once for each end', () => {
  const labels = rowsOf('labels', outside);
  const told = labels.map((row) => [row.on, row.side, row.line_1, row.line_2]);
  expect(told).toContainEqual(['cable', 'A', 'OSP-1', 'to Outer lighthouse, cellar']);
  expect(told).toContainEqual(['link', 'B', 'KQ-OUTER-1', 'to CORE/P1:01 … CORE/P1:04']);
  expect(told).toContainEqual(['port', 'A', 'CORE/P1:01', 'to OUTER/P1:01']);
  expect(new Set(told.map((row) => row.join())).size).toBe(told.length);
});

test.each(['quantities', 'assignments', 'labels'] as const)(
  '%s can be had as a workbook',
  async (name) => {
    const bytes = await writtenTable(fleetTable(name, [outside]), 'xlsx', 'linkwright test');
    expect(
      Buffer.from(bytes as Uint8Array)
        .subarray(0, 2)
        .toString(),
    ).toBe('PK');
  },
);
