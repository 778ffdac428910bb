/** One cause is told once: what explains a symptom keeps the symptom from being told beside it. */
import { describe, expect, test } from 'vitest';
import { example, multimodePlan, multimodeSetup } from '../../server/src/checks/examples.ts';
import { findCheck } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

/** Readings about 0.69 dB of fibre at 850 nm and 0.18 dB at 1300 nm, two pairs of 0.25 dB each. */
const usual = [
  [1.19, 0.68],
  [1.21, 0.66],
  [1.16, 0.71],
  [1.22, 0.69],
  [1.18, 0.67],
  [1.2, 0.7],
  [1.17, 0.68],
  [1.21, 0.69],
  [1.19, 0.7],
  [1.18, 0.66],
  [1.2, 0.68],
  [1.22, 0.71],
] as const;

interface Batch {
  /** Declared, metres. */
  readonly length?: number;
  /** Added to all readings of a wavelength, dB. */
  readonly at850?: number;
  readonly at1300?: number;
  /** What 850 nm gains from the first fibre to the last, dB. */
  readonly drift?: number;
  readonly measured?: readonly number[];
}

function findings({ length = 300, at850 = 0, at1300 = 0, drift = 0, measured }: Batch) {
  const rows = usual.map(([short, long], index) => {
    const rise = (drift * index) / (usual.length - 1);
    const cells = [short + at850 + rise, long + at1300].map((loss) => loss.toFixed(2));
    return `  ${index + 1}  ${[...cells, measured?.[index] ?? []].flat().join('  ')}\n`;
  });
  return judge(
    example(
      multimodePlan,
      `link KQ-1 {
  fibres      1..12
  connector   LC
  segment     ${length} m OM4
  connector   LC
}
`,
      multimodeSetup,
      `readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B${measured ? ', length in m' : ''}
${rows.join('')}}
`,
    ),
  ).findings;
}

const names = (batch: Batch) => findings(batch).map(({ name }) => name);

describe('a length that the losses speak against', () => {
  test('is told where nothing else explains what lies between the wavelengths', () => {
    expect(names({})).toEqual([]);
    expect(names({ length: 100 })).toEqual(['length-against-loss']);
    expect(names({ at850: 0.55 })).toEqual(['length-against-loss']);
  });

  test.each([
    ['one wavelength that is low', { at1300: -0.5 }, ['batch-too-low']],
    ['a source that warmed up', { drift: 1.2 }, ['drift-while-testing', 'marginal-fail']],
    [
      'a length that was measured',
      { length: 100, measured: [301, 302, 300, 303, 301, 302, 301, 300, 301, 302, 303, 301] },
      ['length-differs'],
    ],
  ])('is not told beside %s', (_, batch, wanted) => {
    expect(names(batch).filter((name) => name !== 'marginal-pass')).toEqual(wanted);
  });

  test.each([
    ['high at one of them', { at850: 1 }, 'batch-too-high', '686 m'],
    ['low at one of them', { at1300: -0.5 }, 'batch-too-low', '459 m'],
    ['low at both', { length: 2000 }, 'batch-too-low', '232 m'],
  ])('is told with a batch that is %s, which has either cause', (_, batch, name, metres) => {
    const found = findings(batch);
    expect(found.map((one) => one.name)).not.toContain('length-against-loss');
    expect(found.find((one) => one.name === name)?.message).toMatch(
      new RegExp(`Or the length is wrong: 850 nm lost .* as some ${metres} of its fibre do`, 'u'),
    );
  });
});

describe('measured lengths', () => {
  const far = [301, 302, 300, 303, 301, 302, 301, 300, 301, 302, 303, 301];
  const apart = (measured: readonly number[], length = 100) =>
    findings({ length, measured }).filter(({ name }) => name === 'length-differs');

  test('that agree with each other and not with the plan are one finding: the record first', () => {
    const [found, ...others] = apart(far);
    expect(others).toEqual([]);
    expect(found?.message).toContain(
      'Fibres 1..12 all measure 301 m (median), 201 % over the 100 m',
    );
    expect(found?.message).toContain('Look first at the length that is declared');
  });

  test('that do not agree are told one by one', () => {
    expect(apart([...far.slice(0, 11), 100.4])).toHaveLength(11);
    expect(apart([...far.slice(0, 11), 340])).toHaveLength(12);
    const [found, ...others] = apart([...far.slice(0, 11), 340], 300);
    expect(others).toEqual([]);
    expect(found?.message).toContain('Fibre 12 measures 340 m');
  });
});

describe('a mistake that many readings share', () => {
  interface Table {
    readonly columns?: string;
    readonly values?: string;
    readonly row: (short: number, long: number, index: number) => readonly (number | string)[];
    readonly fibre?: (index: number) => number;
    readonly directions?: string;
  }
  const told = ({ columns, values, row, fibre, directions = 'A>B' }: Table) => {
    const rows = usual.map(([short, long], index) => {
      const cells = row(short, long, index).map((each) =>
        typeof each === 'number' ? each.toFixed(2) : each,
      );
      return `  ${fibre?.(index) ?? index + 1}  ${cells.join('  ')}\n`;
    });
    return judge(
      example(
        multimodePlan.replace('directions  A>B', `directions  ${directions}`),
        `link KQ-1 {
  fibres      1..12
  connector   LC
  segment     300 m OM4
  connector   LC
}
`,
        multimodeSetup,
        `readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      ${values ?? 'loss in dB'}
  columns fibre, ${columns ?? '850 nm A>B, 1300 nm A>B'}
${rows.join('')}}
`,
      ),
    ).findings.filter(({ name }) => name !== 'readings-missing');
  };
  const said = (table: Table) => told(table).map(({ name, message }) => `${name}: ${message}`);

  test('more light than the reference has: one finding a column', () => {
    // −20.05 dBm was the reference.
    const found = said({
      values: 'power in dBm',
      row: (_, long, at) => [-19 - at / 50, -20.31 - long],
    });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(
      /^loss-negative: Fibre 1 at 850 nm A>B: −1\.05 dB: more light arrived/u,
    );
    expect(found[0]).toContain('The same holds for all 12 readings (fibres 1..12).');
  });

  test('both directions copied: one finding for both wavelengths', () => {
    const found = said({
      columns: '850 nm A>B, 850 nm B>A, 1300 nm A>B, 1300 nm B>A',
      directions: 'both',
      row: (short, long) => [short, short, long, long],
    });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(/^direction-fake: At 850 and 1300 nm both directions/u);
  });

  test('one value all along: pasted, and not accepted as measured', () => {
    const found = told({ row: () => [1.19, 0.68] });
    expect(found.map(({ name, kind }) => [name, kind])).toEqual([['rows-repeated', 'doubt']]);
    expect(found[0]?.message).toContain(
      'Fibres 2..12 have digit for digit the values of fibre 1: 11 rows of 2 readings.',
    );
    // To a tenth of a decibel many are alike, and another finding says so.
    const coarse = told({ row: () => ['1.2', '0.7'] });
    expect(coarse.map(({ name }) => name)).toEqual(['resolution-suspect']);
  });

  test('rows pasted twice: one finding for all of them', () => {
    const twice = said({
      row: (short, long, at) => [short, long + at / 100],
      fibre: (at) => (at % 6) + 1,
    });
    expect(twice.filter((each) => each.startsWith('measured-twice'))).toEqual([
      'measured-twice: Fibres 1..6, 850 nm A>B and 1300 nm A>B: two values each of 2026-03-14 09:05 to 09:40, and nothing says which is the later. Look whether rows were pasted twice; else give each its time, or take one out.',
    ]);
    const once = said({ row: (short, long) => [short, long], fibre: (at) => (at % 11) + 1 });
    expect(once).toEqual([
      'measured-twice: Fibre 1, 850 nm A>B and 1300 nm A>B: two values of 2026-03-14 09:05 to 09:40, and nothing says which is the later. Give each row its time, or take one out.',
    ]);
  });

  test('powers without their minus, headed as losses: the unit first', () => {
    // −20.05 dBm − 1.19 dB: typed as 21.24.
    const found = said({ row: (short, long) => [20.05 + short, 20.31 + long] });
    const high = found.filter((each) => each.startsWith('batch-too-high'));
    expect(high).toHaveLength(1);
    expect(high[0]).toContain('Taken for powers that lack their minus they make 0.69 dB');
    expect(high[0]).not.toMatch(/core|plugs|length/u);
    const core = said({ row: (short, long) => [short + 4.5, long + 4.5] });
    expect(core.find((each) => each.startsWith('batch-too-high'))).toContain('a greater core');
  });

  test('a cord that went bad: both wavelengths are named where both step', () => {
    const from = (at: number, by: number) => (index: number) => (index >= at ? by : 0);
    const step = (short: number, long: number) =>
      said({ row: (a, b, at) => [a + from(6, short)(at), b + from(6, long)(at)] }).find((each) =>
        each.startsWith('level-changes'),
      );
    expect(step(0.5, 0.5)).toContain('From fibre 7 on');
    expect(step(0.5, 0.5)).toContain('(850 and 1300 nm, A>B)');
    expect(step(0, 0.6)).toContain('(1300 nm, A>B)');
  });
});

test('one direction numbered one on: no fibre besides is said to lose unlike in both', () => {
  const { findings } = judge(findCheck('numbers-shifted')?.bad ?? '');
  expect(findings.map(({ name }) => name)).toEqual(['numbers-shifted']);
});
