/** Tables with a column for each wavelength and direction, and with lengths and ports beside the readings. */
import { describe, expect, it, vi } from 'vitest';
import { appended } from '../../server/src/import/index.ts';
import { judge, told } from '../support/judge.ts';
import { heads, imported, plan, problems, single, unread } from './berth-table.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

describe('a column for each wavelength and direction', () => {
  const wide = {
    separator: ';',
    decimal: ',',
    dates: 'day-month-year',
    values: { what: 'loss', unit: 'dB', sign: 'negative' },
    untested: ['n/a'],
    columns: {
      link: { always: 'KQ-OPS-B3' },
      fibre: 'core no.',
      setup: { always: 'MM-1' },
      tested: { at: 2 },
      time: { at: 3 },
      readings: [
        { column: '1300 out', wavelength: 1300, direction: 'A>B' },
        { column: '850 out', wavelength: 850, direction: 'A>B' },
        { column: 'refl', wavelength: 850, direction: 'A>B', what: 'reflectance' },
      ],
    },
  };

  it('is read with decimal commas, other dates and negative losses', async () => {
    const { text, left } = await imported(
      '\uFEFFCore No.;Date;Time;850 out;1300  Out;Refl\r\n01;14.3.2026;9:05:31;-0,97;n/a;-41,5\r\n02;14.3.2026;9:05 am;-1,02;-,61;\r\n',
      wide,
    );
    expect(left).toEqual([]);
    expect(text.replace(/note .*/u, 'note')).toBe(`readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:05
  values      loss in dB sign negative
  values      reflectance in dB
  note
  columns fibre, 850 nm A>B, 1300 nm A>B, 850 nm A>B reflectance
  1               -0.97        -          -41.5
  2               -1.02       -0.61         -
}`);
    const { plan: whole } = judge(appended(plan, text));
    const [first] = whole.evidence('KQ-OPS-B3').readings;
    expect(first!.loss).toBe(970_000);
    expect(
      await imported(
        'Core No.;Date;Time;850 out;1300 Out;Refl\n1;14.3.2026;9:05;-0,97;;',
        wide,
        appended(plan, text),
      ),
    ).toMatchObject({ readings: 0, duplicates: [{ row: 2 }] });
  });
});

describe('lengths and ports beside readings', () => {
  const wide = {
    values: { what: 'loss', unit: 'dB', sign: 'positive' },
    lengths: 'm',
    columns: {
      link: { always: 'KQ-OPS-B3' },
      fibre: 'Fibre',
      setup: { always: 'MM-1' },
      tested: { always: '2026-03-14 09:05' },
      length: 'Length',
      seen: 'Seen at',
      readings: [
        { column: 'out', wavelength: 850, direction: 'A>B' },
        { column: 'back', wavelength: 850, direction: 'B>A' },
      ],
    },
  };
  const table = `Fibre,Length,Seen at,out,back
1,181.2,B3/R1/A:01,0.97,0.99
2,594.5 ft,B3/R1/A:02,1.08,1.05
3,181.0,,,
4,long,B3/R1/A:04,,0.96
`;

  it('are written into columns of their own', async () => {
    const { text, left, readings } = await imported(table, wide);
    expect(text).toContain(`  columns fibre, length in m, seen,           850 nm A>B, 850 nm B>A
  1              181.2        B3/R1/A:01        0.97        0.99
  2              594.5 ft     B3/R1/A:02        1.08        1.05
  3              181.0        -                 -           -
  4                -          -                 -           0.96
`);
    expect(readings).toBe(5);
    expect(left).toEqual([
      { row: 5, what: '"long" is no length.' },
      {
        row: 5,
        what: 'the port "B3/R1/A:04" is not taken, since the row brings no reading from A to B.',
      },
    ]);
    const { plan: whole, findings } = judge(appended(plan, text));
    expect(told(unread(findings))).toEqual([]);
    const { lengths, seen } = whole.evidence('KQ-OPS-B3');
    // 594.5 ft of exactly 0.3048 m each
    expect(lengths.map(({ length }) => length)).toEqual([181_200_000, 181_203_600, 181_000_000]);
    expect(seen.map(({ fibre, port, side }) => [fibre, port, side])).toEqual([
      [1, 'B3/R1/A:01', 'B'],
      [2, 'B3/R1/A:02', 'B'],
    ]);
  });

  it('are written once, however often they are imported', async () => {
    const { text } = await imported(table, wide);
    const again = await imported(table, wide, appended(plan, text));
    expect(again).toMatchObject({ text: '', readings: 0, blocks: 0 });
  });

  it('of light from B stand in a block without light from A, where a row holds one reading', async () => {
    const { text, blocks } = await imported(
      `${heads},Length,Port
KQ-OPS-B3,1,850,A>B,0.97,2026-03-14 09:05,,,181,B3/R1/A:01
KQ-OPS-B3,1,1300,A>B,0.66,2026-03-14 09:05,,,181,B3/R1/A:01
KQ-OPS-B3,1,850,B>A,0.99,2026-03-14 09:05,,,181,OPS/R2/A:01
`,
      {
        ...single,
        lengths: 'm',
        columns: { ...single.columns, length: 'Length', seen: 'Port' },
      },
    );
    expect(blocks).toBe(2);
    const { plan: whole, findings } = judge(appended(plan, text));
    expect(told(unread(findings))).toEqual([]);
    const { seen, readings } = whole.evidence('KQ-OPS-B3');
    expect(seen.map(({ port, side }) => [port, side])).toEqual([
      ['B3/R1/A:01', 'B'],
      ['OPS/R2/A:01', 'A'],
    ]);
    expect(readings).toHaveLength(3);
    expect(text.match(/181/gu)).toHaveLength(2);
  });

  it('want their unit, which nothing is assumed of', async () => {
    const { lengths: _, ...without } = wide;
    expect(await problems(table, without)).toEqual([
      expect.stringMatching(/lengths: the unit of the column of lengths is wanted: "m", "km"/u),
    ]);
  });
});
