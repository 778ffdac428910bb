/** Numbers in sentences: as few decimals as are true to the verdict, and never a zero that is none. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  printApart,
} from '../../grammar/src/quantity/index.ts';
import { judge } from '../support/judge.ts';

/** One link of 180 m whose limit is 3.0 dB/km × 0.18 km + 2 × 0.75 dB = 2.04 dB. */
function messages(
  values: string,
  row: string,
  { decision = '', link = '', setup = '' }: Readonly<Record<string, string>> = {},
): readonly string[] {
  const { findings } = judge(`plan "Kestrel Quay" {
  limits      KQ-OWNER
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
${decision}}

limits KQ-OWNER {
  policy      counting
  fibre       OM4 850 nm 3.0 dB/km
  connector   any 0.75 dB
}

link KQ-1 {
  fibres      1
  connector   LC
  segment     180 m OM4
  connector   LC
${link}}

setup MM-1 {
${
  setup ||
  `  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
`
}}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      ${values}
  columns fibre, 850 nm A>B
  1  ${row}
}
`);
  return findings.map(({ name, message }) => `${name}: ${message}`);
}

const said = (name: string, all: readonly string[]) => all.find((one) => one.startsWith(name));

describe('a reading beside its limit', () => {
  test('is said to a hundredth', () => {
    expect(said('over-limit', messages('loss in dB', '2.5551'))).toContain(
      'lost 2.56 dB, 0.52 dB over the limit of 2.04 dB (components, KQ-OWNER)',
    );
  });

  test('gets as many places as the verdict takes', () => {
    expect(said('marginal-fail', messages('loss in dB', '2.0401'))).toContain(
      'lost 2.0401 dB, 0.0001 dB over the limit of 2.04 dB',
    );
    expect(said('marginal-pass', messages('loss in dB', '2.038'))).toContain(
      'lost 2.038 dB, only 0.002 dB inside the limit of 2.04 dB',
    );
  });

  test('that equals it is not said to lie inside', () => {
    const sentence = said('marginal-pass', messages('loss in dB', '2.04'));
    expect(sentence).toContain('lost 2.04 dB, exactly the limit of 2.04 dB');
    expect(sentence).not.toContain('0.00 dB');
  });

  test('that a guarded decision refuses is not said to be over it', () => {
    const decision = '  decision    guarded-acceptance\n';
    const inside = said('over-limit', messages('loss in dB', '2.00', { decision }));
    expect(inside).toContain('lost 2.00 dB, 0.04 dB inside the limit of 2.04 dB');
    expect(inside).toContain('keeps the uncertainty of 0.15 dB away from it');
    const equal = said('over-limit', messages('loss in dB', '2.04', { decision }));
    expect(equal).toContain('just at the limit of 2.04 dB');
    expect(equal).not.toMatch(/\b0\.00 dB/u);
  });

  test('of light is said as light, not as a loss of nothing', () => {
    const setup = '  source      "PORT-7"\n  meter       "M-5" floor -60 dBm\n';
    const link = '  require     power min -9 dBm max -3 dBm\n';
    const marginal = said('marginal', messages('power in dBm', '-8.95', { setup, link }));
    expect(marginal).toContain('received −8.95 dBm, only 0.05 dB inside what is asked');
    const over = said('over-limit', messages('power in dBm', '-9.5', { setup, link }));
    expect(over).toContain('received −9.50 dBm, 0.50 dB outside what is asked');
    expect(over).toContain('Clean both ends');
    // No cleaning takes away what is too much.
    const strong = said('over-limit', messages('power in dBm', '-0.5', { setup, link }));
    expect(strong).toContain('put an attenuator in');
    expect(strong).not.toContain('Clean');
    expect(`${marginal}${over}`).toContain('power at least −9.00 dBm');
  });
});

test('a power converted from microwatts brings no six decimals into a sentence', () => {
  // 10·log10(0.003/1) dBm has no end.
  for (const row of ['0.003', '3', '7.7', '40']) {
    for (const message of messages('power in uW', row)) expect(message).not.toMatch(/\.\d{3,} dB/u);
  }
});

test('a minus is a minus in every sentence', () => {
  const all = messages('loss in dB', '-0.12').filter((one) => !one.startsWith('unread'));
  expect(said('loss-negative', all)).toContain('−0.12 dB: more light arrived');
  for (const message of all) expect(message).not.toMatch(/(?<![\w.])-\d/u);
});

test('one reading is one reading', () => {
  const late = '  reference   one-cord\n  source      "S-3" LED\n  meter       "M-5"\n';
  expect(said('reference-missing', messages('loss in dB', '1.0', { setup: late }))).toMatch(
    /One reading cannot be judged/u,
  );
});

test('numbers of one sentence stand to each other as what they print', () => {
  const value = fc.bigInt({ min: -5_000_000_000_000_000n, max: 5_000_000_000_000_000n });
  const near = fc.bigInt({ min: -3n, max: 3n });
  const scale = fc.constantFrom(1n, 10n ** 9n, 10n ** 12n, 10n ** 13n);
  fc.assert(
    fc.property(value, fc.array(fc.tuple(near, scale), { minLength: 1, maxLength: 3 }), (a, by) => {
      const values = [a, ...by.map(([steps, size]) => a + steps * size)] as ExactDb[];
      const texts = printApart(values);
      const numbers = texts.map((text) => Number(text.replace('−', '-')));
      for (const [i, one] of values.entries()) {
        expect(numbers[i] === 0).toBe(one === 0n);
        for (const [j, other] of values.entries()) {
          if (one === other) expect(texts[i]).toBe(texts[j]);
          else if ((one < 0n ? -one : one) !== (other < 0n ? -other : other)) {
            expect(texts[i]).not.toBe(texts[j]);
            if (texts.every((text) => text.length < 12)) {
              expect(numbers[i]! < numbers[j]!).toBe(one < other);
            }
          }
        }
      }
    }),
  );
});

test('a difference is shown as what is shown of the two', () => {
  const said = (...values: number[]) =>
    printApart(values.map((each) => exactDb(Math.round(each * 1e6) as MicroDb)));
  expect(said(2.96, 2.805, 0.155)).toEqual(['2.96', '2.805', '0.155']);
  expect(said(2.96, 2.8, 0.16)).toEqual(['2.96', '2.80', '0.16']);
  expect(said(2.81, 2.805, 0.005)).toEqual(['2.81', '2.805', '0.005']);
  // What is no difference of the others keeps its places.
  expect(said(2.96, 2.805, 0.15)).toEqual(['2.96', '2.81', '0.15']);
  // 3.0 dB/km × 61.7 m + 1.5 dB: any reading of two places less it.
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 9999 }), fc.integer({ min: 0, max: 400 }), (m, over) => {
      const limit = 1_500_000 + m * 300;
      const loss = Math.ceil(limit / 10_000) * 10_000 + over * 10_000;
      const values = [loss, limit, loss - limit].map((each) => exactDb(each as MicroDb));
      const [a, b, c] = printApart(values).map(Number);
      expect(Math.abs(a! - b! - c!)).toBeLessThan(1e-9);
    }),
  );
});
