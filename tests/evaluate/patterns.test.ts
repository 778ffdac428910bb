/** What is said of a whole batch: by words, once, and instead of what single readings would say. */
import { mad, median } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { judge } from '../support/judge.ts';

/** What is found of a multimode link with a table of losses at 850 nm A>B, or as said. */
function findings(...args: Parameters<typeof judged>) {
  return judged(...args).findings;
}

function judged(rows: readonly string[], options: { values?: string; columns?: string } = {}) {
  const { values = 'loss in dB', columns = '850 nm A>B' } = options;
  const both = columns.includes('B>A');
  return judge(`plan "Batch" {
  limits      TIA-568.3-E
  measure     ${columns.includes('1300') ? '850 nm, 1300 nm' : '850 nm'}
  directions  ${both ? 'both' : 'A>B'}
  reference   one-cord
  uncertainty 0.15 dB
  zone        "UTC"
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}

link KQ-1 {
  fibres      1..${rows.length}
  connector   LC
  segment     180 m OM4
  connector   LC
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      ${values}
  columns fibre, ${columns}
${rows.map((row, at) => `  ${at + 1}  ${row}`).join('\n')}
}
`);
}

const good = [1.12, 1.05, 1.09, 1.17, 1.02, 1.14, 1.08, 1.06, 1.15, 1.04, 1.11, 1.07];
const column = (values: readonly number[]) => values.map((value) => value.toFixed(2));

describe('units of a block', () => {
  const powers = good.map((loss) => -20.05 - loss);

  it('powers under losses are one finding, and the loss they would make is said', () => {
    const found = findings(column(powers));
    expect(found.map(({ name }) => name)).toEqual(['unit-suspect']);
    expect(found[0]?.message).toMatch(
      // Their median is 1.085 dB.
      /Taken for powers they make about 1\.0[89] dB/u,
    );
  });

  it('microwatts under dBm are told from powers without their sign', () => {
    const micro = powers.map((power) => 1000 * 10 ** (power / 10));
    const [found] = findings(column(micro), { values: 'power in dBm' });
    expect(found?.message).toContain('Taken for microwatts');
    const [unsigned] = findings(column(powers.map((power) => -power)), { values: 'power in dBm' });
    expect(unsigned?.message).toContain('Taken for powers with their sign left out');
  });

  it('a sign alone keeps its own finding', () => {
    expect(findings(column(good.map((loss) => -loss))).map(({ name }) => name)).toEqual([
      'sign-suspect',
    ]);
  });
});

describe('a level', () => {
  it('that changes at fibre 7 is said there, once, with the fibres to measure again', () => {
    const found = findings(column(good.map((loss, at) => (at < 6 ? loss : loss + 0.4))));
    expect(found.map(({ name }) => name)).toEqual(['level-changes']);
    // Medians of six: 1.105 before, 1.075 + 0.4 after.
    expect(found[0]?.message).toMatch(/^From fibre 7 on all readings lie 0\.37 dB higher/u);
    expect(found[0]?.message).toContain('measure fibres 7..12 again');
  });

  it('that is too low is said once, and no reading says that it is too good', () => {
    const found = findings(column(good.map((loss) => loss - 0.6)));
    expect(found.map(({ name }) => name)).toEqual(['batch-too-low']);
  });
});

describe('an order', () => {
  const drifting = good.map((loss, at) => loss + 0.08 * at);

  it('in which losses rise is said once', () => {
    expect(
      findings(column(drifting))
        .map(({ name }) => name)
        .filter((name) => name !== 'marginal-pass'),
    ).toEqual(['drift-while-testing']);
  });

  it('is nothing where the same losses come in another', () => {
    const mixed = [5, 0, 9, 2, 11, 4, 7, 1, 10, 3, 8, 6].map((at) => drifting[at] ?? 0);
    expect(findings(column(mixed)).map(({ name }) => name)).not.toContain('drift-while-testing');
  });
});

describe('numbers', () => {
  // Scattered evenly over 0.3 dB, no two neighbours alike.
  const scattered = (at: number) => 1 + (((at * 17 + 5) * (at + 3)) % 61) / 200;
  const rows = Array.from({ length: 40 }, (_, at) => at + 1);

  it.each([
    ['one number on', (fibre: number) => fibre + 1],
    ['one number back', (fibre: number) => fibre - 1],
    ['two numbers on', (fibre: number) => fibre + 2],
    ['two numbers back', (fibre: number) => fibre - 2],
    ['every second number', (fibre: number) => 2 * fibre - 1],
    ['half as far from the first number', (fibre: number) => (fibre + 1) / 2],
    ['the other way round', (fibre: number) => 41 - fibre],
  ])('of one direction that are really %s', (shift, really) => {
    const back = (fibre: number) => {
      const place = really(fibre);
      return Number.isInteger(place) ? scattered(place) : scattered(fibre + 100);
    };
    const found = findings(
      rows.map((fibre) => `${scattered(fibre).toFixed(3)}  ${back(fibre).toFixed(3)}`),
      { columns: '850 nm A>B, 850 nm B>A' },
    ).find(({ name }) => name === 'numbers-shifted');
    expect(found?.message).toContain(shift);
  });
});

describe('rows that repeat', () => {
  const twice = (rows: readonly number[]) =>
    rows.map(
      (loss, at) => `${loss.toFixed(2)}  ${(loss - 0.32 + ((at * 5) % 3) / 100).toFixed(2)}`,
    );

  it('are named with the fibres that they repeat', () => {
    const rows = twice(good.slice(0, 6));
    const [found] = findings([...rows, ...rows], { columns: '850 nm A>B, 1300 nm A>B' });
    expect(found?.name).toBe('rows-repeated');
    expect(found?.message).toContain('Fibres 7..12 have digit for digit the values of fibres 1..6');
  });

  it('are nothing where the instrument shows tenths', () => {
    const rows = good.map((loss) => `${loss.toFixed(1)}  ${(loss - 0.32).toFixed(1)}`);
    expect(
      findings(rows, { columns: '850 nm A>B, 1300 nm A>B' }).map(({ name }) => name),
    ).not.toContain('rows-repeated');
  });
});

it('a reading says how far it is from its parts and from its mates', () => {
  const result = judged(column(good)).plan.result.link('KQ-1');
  const [first] = result?.readings ?? [];
  // 0.18 km of 3.0 dB/km and two pairs of 0.35 dB, the typical figures of the library: 1.24 dB.
  expect(Number(first?.residual) / 1e15).toBeCloseTo(1.12 - 1.24, 12);
  expect(first?.matesDeviation).toBeCloseTo((1.12 - median(good)) / mad(good), 2);
  const few = judged(column(good.slice(0, 7))).plan.result.link('KQ-1');
  expect(few?.readings[0]?.matesDeviation).toBeUndefined();
});
