/** Tables of readings brought into a plan: matched, laid out, shown where they do not fit. */
import { createHash } from 'node:crypto';
import { Ajv } from 'ajv';
import { zipSync } from 'fflate';
import { describe, expect, it, vi } from 'vitest';
import writeWorkbook from 'write-excel-file/universal';
import type { Finding } from '../../server/src/checks/finding.ts';
import {
  appended,
  Cancelled,
  type Imported,
  importReadings,
  type Work,
} from '../../server/src/import/index.ts';
import { mappingJsonSchema } from '../../server/src/import/mapping.ts';
import { decodeFile } from '../../server/src/project/index.ts';
import { judge, told } from '../support/judge.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

const plan = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm, 1300 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20
}

link KQ-OPS-B3 {
  from        OPS/R2/A:01..04
  to          B3/R1/A:01..04
  connector   LC
  segment     180 m OM4
  connector   LC
}

link "KQ OPS, \\"old\\" #4" {
  from        OPS/R2/B:01..02
  to          B4/R1/A:01..02
  connector   LC
  segment     60 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.07 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:12 1300 nm -20.31 dBm
}
`;

const single = {
  values: { what: 'loss', unit: 'dB', sign: 'positive' },
  columns: {
    link: 'Link',
    fibre: 'Fibre',
    setup: { always: 'MM-1' },
    tested: 'Tested',
    by: 'Tester',
    remark: 'Remark',
    wavelength: 'Wavelength',
    direction: 'Direction',
    value: 'Loss',
  },
};
const heads = 'Link,Fibre,Wavelength,Direction,Loss,Tested,Tester,Remark';

const quiet: Work = { cancelled: false, report: () => undefined };

function run(table: string | Uint8Array, mapping: unknown = single, text = plan, work = quiet) {
  const bytes = typeof table === 'string' ? new TextEncoder().encode(table) : table;
  return importReadings(
    {
      plan: judge(text).plan,
      name: 'berths.csv',
      bytes,
      mapping: typeof mapping === 'string' ? mapping : JSON.stringify(mapping, null, 2),
    },
    work,
  );
}

async function imported(...words: Parameters<typeof run>): Promise<Imported> {
  const answer = await run(...words);
  if ('problems' in answer) throw new Error(answer.problems.join('\n'));
  return answer;
}

async function problems(...words: Parameters<typeof run>): Promise<readonly string[]> {
  const answer = await run(...words);
  return 'problems' in answer ? answer.problems : ['none'];
}

/** Errors of the text, those of what was measured left out. */
const unread = (findings: readonly Finding[]) =>
  findings.filter(({ severity, name }) => severity === 'error' && name !== 'over-limit');

const rows = `${heads}
KQ-OPS-B3,1,850,A>B,0.97,2026-03-14 09:05,R. Vale,
KQ-OPS-B3,1,850,B>A,0.99,2026-03-14 09:05,R. Vale,
KQ-OPS-B3,2,850,A>B,1.08,2026-03-14 09:07,R. Vale,cleaned first
KQ-OPS-B3,2,850,B>A,dark,2026-03-14 09:07,R. Vale,cleaned first
`;

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

describe('a workbook', () => {
  const sheetOf = async () => {
    const data = [
      ['Berths, 2026'],
      ['Link', 'Fibre', 'Wavelength', 'Direction', 'Loss', 'Tested', 'Tester', 'Remark'],
      [
        'KQ-OPS-B3',
        1,
        850,
        'A>B',
        0.1 + 0.2,
        new Date(Date.UTC(2026, 2, 14, 9, 5)),
        'R. Vale',
        '=1+1',
      ],
      ['KQ-OPS-B3', '02', '850 nm', 'A - B', '0.98', '2026-03-14 09:05', 'R. Vale', null],
    ].map((row) =>
      row.map((value) =>
        value instanceof Date
          ? { value, format: 'yyyy-mm-dd hh:mm' }
          : { value: value ?? undefined },
      ),
    );
    const blob = await writeWorkbook([
      { sheet: 'Notes', data: [[{ value: 'nothing' }]] },
      { sheet: 'Loss', data },
    ]).toBlob();
    return new Uint8Array(await blob.arrayBuffer());
  };

  it('gives numbers as they are shown, dates to the minute, formulas as texts', async () => {
    const { text, left } = await imported(await sheetOf(), {
      ...single,
      sheet: 'Loss',
      heading: 2,
    });
    expect(left).toEqual([]);
    expect(text).toContain('tested      2026-03-14 09:05 by "R. Vale"');
    expect(text).toMatch(/^ {2}1 +0\.3 +"=1\+1"$/mu);
    expect(text).toMatch(/^ {2}2 +0\.98 +-$/mu);
  });

  it('is left before its rows are matched, where somebody stops it', async () => {
    const told: number[] = [];
    const work = {
      cancelled: false,
      report(done: number) {
        told.push(done);
        this.cancelled = true;
      },
    };
    const bytes = await sheetOf();
    await expect(run(bytes, { ...single, sheet: 'Loss', heading: 2 }, plan, work)).rejects.toThrow(
      Cancelled,
    );
    // Three of a hundred: unpacked, not read.
    expect(told).toEqual([3]);
  });

  it('with decimal commas in its texts is read with its numbers', async () => {
    const data = [
      ['Link', 'Fibre', 'Wavelength', 'Direction', 'Loss', 'Tested'],
      ['KQ-OPS-B3', 1, 850, 'A>B', 0.97, '2026-03-14'],
      ['KQ-OPS-B3', 2, 850, 'A>B', '0,98', '2026-03-14'],
      ['KQ-OPS-B3', 3, 850, 'A>B', '0.99', '2026-03-14'],
    ].map((row) => row.map((value) => ({ value })));
    const blob = await writeWorkbook([{ sheet: 'Loss', data }]).toBlob();
    const { by: _, remark: __, ...columns } = single.columns;
    const { text, left } = await imported(new Uint8Array(await blob.arrayBuffer()), {
      ...single,
      decimal: ',',
      columns,
    });
    expect(left).toEqual([{ row: 4, what: '"0.99" is no reading.' }]);
    expect(text).toMatch(/^ {2}1 +0\.97\n {2}2 +0\.98$/mu);
  });

  it('that would unpack without end is refused', async () => {
    const bomb = Buffer.from(zipSync({ 'xl/workbook.xml': new Uint8Array(1000) }));
    // What the directory at its end says of the size once unpacked.
    bomb.writeUInt32LE(300 << 20, bomb.indexOf('PK\u0001\u0002') + 24);
    expect((await problems(bomb))[0]).toMatch(/holds more than 256 MB unpacked/u);
  });

  it('says which sheets there are', async () => {
    const mapping = JSON.stringify({ ...single, sheet: 'Los' }, null, 2);
    expect(await problems(await sheetOf(), mapping)).toEqual([
      'line 20, column 12, sheet: there is no sheet Los in this workbook; it has Notes, Loss.',
    ]);
  });
});

describe('a mapping that is wrong', () => {
  it.each([
    ['{ "values": ', /^line 1, column 13: this is no JSON/u],
    [
      { ...single, colour: 'red' },
      /^line 20, column 13, colour: nothing is called so here; known are/u,
    ],
    [{ ...single, decimal: ';' }, /^line 20, column 14, decimal: one of "\.", "," is wanted/u],
    [
      { ...single, values: { ...single.values, unit: 'dBm' } },
      /^line 4, column 13, values\.unit: loss is said in dB/u,
    ],
    [
      { ...single, columns: { ...single.columns, fibre: undefined } },
      /^line 7, column 14, columns: either fibre or end/u,
    ],
    [
      { ...single, columns: { ...single.columns, setup: undefined } },
      /^line 7, column 14, columns\.setup: .*is (?:wanted|missing)/u,
    ],
    [
      { ...single, columns: { ...single.columns, value: 'loss at 850' } },
      /^line \d+, column \d+, columns\.value: no column is headed "loss at 850"; there are "Link", "Fibre"/u,
    ],
    [
      { ...single, columns: { ...single.columns, value: { at: 12 } } },
      /^line \d+, column \d+, columns\.value: the table has 8 columns/u,
    ],
    [
      { ...single, columns: { ...single.columns, by: { row: 1 } } },
      /^line \d+, column \d+, columns\.by: the heading of a column, \{ "at"/u,
    ],
  ])('is told at its place: %j', async (mapping, sentence) => {
    expect((await problems(rows, mapping))[0]).toMatch(sentence);
  });
});

describe('the published schema of mappings', () => {
  const valid = new Ajv({ strict: false }).compile(mappingJsonSchema());

  it('takes what the tool takes', () => {
    expect(valid(JSON.parse(JSON.stringify(single)))).toBe(true);
  });

  it.each([
    { ...single, colour: 'red' },
    { ...single, decimal: ';' },
    { ...single, values: { what: 'loss' } },
    { ...single, columns: { ...single.columns, by: { row: 1 } } },
    { ...single, columns: { ...single.columns, tested: undefined } },
  ])('refuses what the tool refuses: %j', async (mapping) => {
    expect(valid(JSON.parse(JSON.stringify(mapping)))).toBe(false);
    expect(await problems(rows, mapping)).not.toEqual(['none']);
  });
});

describe('a file that is no table', () => {
  it.each([
    [Buffer.from(rows, 'utf16le'), /neither a text|encoding/u],
    [Buffer.from(`\uFEFF${rows}`, 'utf16le'), /UTF-16\. Save it as CSV in UTF-8/u],
    [Buffer.from(`${rows}KQ,é`, 'latin1'), /another encoding than UTF-8/u],
    [Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0, 0]), /older form/u],
    [Buffer.from('PK\u0003\u0004 and nothing'), /workbook cannot be read/u],
    [Buffer.from('a,"b\n1,2'), /no CSV as the mapping says/u],
    [Buffer.from(heads), /no rows below its headings/u],
    [Buffer.alloc(0), /no rows below its headings/u],
  ])('says so in a sentence (%#)', async (bytes, sentence) => {
    expect((await problems(new Uint8Array(bytes)))[0]).toMatch(sentence);
  });
});

describe('a hundred thousand rows', () => {
  const many = 25_000;
  const large = `${plan}${Array.from(
    { length: 25 },
    (_, index) => `
link KQ-${index} {
  from        A${index}:1..1000
  to          B${index}:1..1000
  connector   LC
  segment     80 m OM4
  connector   LC
}
`,
  ).join('')}`;
  const table = () => {
    const lines = [heads];
    for (let at = 0; at < many; at += 1) {
      const start = `KQ-${at % 25},${Math.floor(at / 25) + 1}`;
      for (const end of ['850,A>B,0.71', '850,B>A,0.72', '1300,A>B,0.53', '1300,B>A,0.51']) {
        lines.push(`${start},${end},2026-03-14 09:05,R. Vale,`);
      }
    }
    return lines.join('\n');
  };

  it('come in blocks of at most a thousand, in bounded memory, telling how far it is', async () => {
    const told: number[] = [];
    const before = process.memoryUsage().heapUsed;
    const report = (done: number, all: number) => {
      told.push(done / all);
    };
    const {
      readings,
      rows: count,
      text,
      left,
      duplicates,
    } = await imported(table(), single, large, { cancelled: false, report } as typeof quiet);
    expect([readings, count, left.length, duplicates.length]).toEqual([100_000, 100_000, 0, 0]);
    const sizes = text
      .split('\n\n')
      .map((block) => block.split('\n').filter((line) => /^ {2}KQ-/u.test(line)).length);
    expect(Math.max(...sizes)).toBe(1000);
    expect(sizes.reduce((a, b) => a + b)).toBe(many);
    expect(told.length).toBeGreaterThan(40);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
    expect((process.memoryUsage().heapUsed - before) / 1048576).toBeLessThan(1500);
  }, 120_000);

  it('stop when they are told to', async () => {
    const work = {
      cancelled: false,
      report(done: number) {
        if (done > 10) this.cancelled = true;
      },
    };
    await expect(run(table(), single, plan, work)).rejects.toThrow(Cancelled);
  });
});

it('comes behind what stands in a file, with its line ends', () => {
  expect(appended('# A\r\n\r\n\r\n', 'readings A {\n}')).toBe('# A\r\n\r\nreadings A {\r\n}\r\n');
  expect(appended('', 'readings A {\n}')).toBe('readings A {\n}\n');
  expect(decodeFile(new TextEncoder().encode(appended('\uFEFF', 'x {\n}'))).text).toBe(
    '\uFEFFx {\n}\n',
  );
});
