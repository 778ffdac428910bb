/** Rows of one reading each, brought into a plan: matched, laid out, known again, listed where they do not fit. */
import { createHash } from 'node:crypto';
import { describe, expect, it, vi } from 'vitest';
import { appended } from '../../server/src/import/index.ts';
import { decodeFile } from '../../server/src/project/index.ts';
import { judge, told } from '../support/judge.ts';
import { heads, imported, plan, rows, single, unread } from './berth-table.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

describe('rows with one reading each', () => {
  it('become a canonical block that says what it was made from', async () => {
    const { text, readings, blocks, left } = await imported(rows);
    const hash = createHash('sha256').update(rows).digest('hex');
    expect(left).toEqual([]);
    expect([readings, blocks]).toEqual([4, 1]);
    expect(text).toBe(`readings KQ-OPS-B3 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:07 by "R. Vale"
  values      loss in dB
  note        "Imported from berths.csv, rows 2 to 5, SHA-256 ${hash}"
  columns fibre, 850 nm A>B, 850 nm B>A, time,           remark
  1                0.97        0.99      09:05           -
  2                1.08      dark        09:07           "cleaned first"
}`);
  });

  it('are judged like typed ones, and stand in the plan without an error', async () => {
    const { text } = await imported(rows);
    const { plan: whole, findings } = judge(appended(plan, text));
    expect(told(unread(findings))).toEqual([]);
    const { readings } = whole.result.link('KQ-OPS-B3')!;
    const made = readings.filter(({ reading }) => reading);
    expect(made.map(({ reading }) => [reading!.fibre, reading!.direction, reading!.loss])).toEqual([
      [1, 'A>B', 970_000],
      [1, 'B>A', 990_000],
      [2, 'A>B', 1_080_000],
      [2, 'B>A', undefined],
    ]);
  });

  it('imported twice are duplicates, and nothing is written', async () => {
    const { text } = await imported(rows);
    const again = await imported(rows, single, appended(plan, text));
    expect(again).toMatchObject({ text: '', readings: 0, blocks: 0, left: [] });
    expect(again.duplicates).toHaveLength(4);
    expect(again.duplicates[0]).toEqual({
      row: 2,
      what: 'KQ-OPS-B3 fibre 1 at 850 nm A>B, 0.97, stands in the plan already.',
    });
  });

  it('twice in one table are shown too, and another value of the same time is not taken', async () => {
    const { duplicates, left, readings } = await imported(
      `${heads}
KQ-OPS-B3,1,850,A>B,0.97,2026-03-14,,
KQ-OPS-B3,1,850,A>B,0.970,2026-03-14,,
KQ-OPS-B3,1,850,A>B,0.95,2026-03-14,,`,
    );
    expect(readings).toBe(1);
    expect(duplicates.map(({ row }) => row)).toEqual([3]);
    expect(left).toEqual([
      { row: 4, what: expect.stringMatching(/another value of the same time stands in row 2/u) },
    ]);
  });

  it('that match nothing are listed by row, with the reason', async () => {
    const { left, readings } = await imported(`${heads}
KQ-OPS-B9,1,850,A>B,0.97,2026-03-14,,
KQ-OPS-B3,5,850,A>B,0.97,2026-03-14,,
KQ-OPS-B3,,850,A>B,0.97,2026-03-14,,
KQ-OPS-B3,1,blue,A>B,0.97,2026-03-14,,
KQ-OPS-B3,1,850,up,0.97,2026-03-14,,
KQ-OPS-B3,1,850,A>B,"0,97",2026-03-14,,
KQ-OPS-B3,1,850,A>B,=1+1,2026-03-14,,
KQ-OPS-B3,1,850,A>B,0.97,2026-02-30,,
KQ-OPS-B3,1,850,A>B,0.97,2026-03-14 25:00,,
KQ-OPS-B3,1,850,A>B,0.97 dBm,2026-03-14,,
KQ-OPS-B3,1,850,A>B,0.9712345,2026-03-14,,
KQ-OPS-B3,1,850,A>B,-,2026-03-14,,
`);
    expect(readings).toBe(0);
    expect(left.map(({ row, what }) => `${row} ${what}`)).toEqual([
      '2 the plan has no link "KQ-OPS-B9".',
      '3 KQ-OPS-B3 has no fibre "5".',
      '4 no fibre is named.',
      '5 "blue" is no wavelength.',
      '6 "up" is no direction.',
      '7 "0,97" is no reading.',
      '8 "=1+1" is no reading.',
      '9 "2026-02-30" is no date in the order year-month-day.',
      '10 "25:00" is no time of day.',
      '11 "dBm" is no unit of loss.',
      '12 "0.9712345" cannot be held: more decimals than a millionth of a decibel.',
      '13 no cell of it holds a reading.',
    ]);
  });

  it('keep names and words of any kind as texts', async () => {
    const remark = '=HYPERLINK(""http://x"")\n} readings X {\n# \\';
    const { text, left } = await imported(`${heads}
"KQ OPS, ""old"" #4",1,850,A>B,0.4,2026-03-14 09:05,"""} link X {",${`"${remark}"`}
KQ-OPS-B3,1,850,A>B,0.4,2026-03-14 09:05,"""} link X {",
`);
    expect(left).toEqual([]);
    const { plan: whole, findings } = judge(appended(plan, text));
    expect(told(unread(findings))).toEqual([]);
    expect(whole.result.order).toEqual(['KQ-OPS-B3', 'KQ OPS, "old" #4']);
    const [reading] = whole.evidence('KQ OPS, "old" #4').readings;
    expect(reading).toMatchObject({
      by: '"} link X {',
      remark: '=HYPERLINK("http://x") } readings X { # \\',
    });
  });
});

it('comes behind what stands in a file, with its line ends', () => {
  expect(appended('# A\r\n\r\n\r\n', 'readings A {\n}')).toBe('# A\r\n\r\nreadings A {\r\n}\r\n');
  expect(appended('', 'readings A {\n}')).toBe('readings A {\n}\n');
  expect(decodeFile(new TextEncoder().encode(appended('\uFEFF', 'x {\n}'))).text).toBe(
    '\uFEFFx {\n}\n',
  );
});
