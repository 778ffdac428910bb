/**
 * Losses below what can be.
 *
 * Rule-derived: readings are ours. More power than the reference means the
 * reference is wrong: MIL-STD-2042-6B(SH). A reading with pairs taken into the
 * reference may lie below zero by what those pairs lose at most: arithmetic on
 * the configurations of IEC 61280-4-1.
 */
import { describe, expect, it } from 'vitest';
import { doubt, doubts, judged, multimodeParts, verdict } from './judged.ts';

const plan = (method: string, grade: string, rows: string, more = '') => `
plan "Short" {
  limits      PLAIN
  measure     850 nm
  directions  A>B
  uncertainty 0.15 dB repeatable 0.05 dB
}
${multimodeParts}
setup TEST {
  reference   ${method}
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 ${grade}
  cord        S1 substitution PAIR GLASS-50 ${grade}
  cord        R1 receive PAIR GLASS-50 ${grade} verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
${more}}

link KQ-S {
  fibres      1..12
  connector   PAIR
  segment     3 m GLASS-50
  connector   PAIR
}

readings KQ-S {
  setup       TEST
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B, time
${rows}
}
`;

const one = (method: string, grade: string, loss: string) =>
  judged(plan(method, grade, `  1  ${loss}  09:00`)).link('KQ-S');

describe('the floor of a reading follows from its method and its cords', () => {
  it.each([
    ['two-cord', 'reference-grade', '-0.12', 'pass', 'loss-slightly-negative'],
    ['two-cord', 'reference-grade', '-0.20', 'invalid', 'loss-negative'],
    ['two-cord', 'ordinary', '-0.20', 'pass', 'loss-slightly-negative'],
    ['three-cord', 'reference-grade', '-0.18', 'pass', 'loss-slightly-negative'],
    ['three-cord', 'reference-grade', '-0.31', 'invalid', 'loss-negative'],
    ['one-cord', 'reference-grade', '-0.07', 'invalid', 'loss-negative'],
    ['one-cord', 'reference-grade', '0.00', 'pass', 'loss-too-good'],
  ])('%s, %s: %s dB is %s, %s', (method, grade, loss, word, name) => {
    const result = one(method, grade, loss);
    expect(verdict(result, 1, 850)).toBe(word);
    expect(doubts(result, 1)).toContain(name);
  });

  it('nothing lost is not below zero, where cords are in the reference', () => {
    const result = one('two-cord', 'reference-grade', '0.00');
    expect(verdict(result, 1, 850)).toBe('pass');
    expect(doubts(result, 1)).not.toContain('loss-slightly-negative');
  });

  it('says by which method less cannot be read', () => {
    const [read] = one('two-cord', 'reference-grade', '-0.20').readings;
    expect(read?.because).toBe('−0.20 dB is below the lowest that two-cord can read here');
  });

  it('says the floor in numbers', () => {
    expect(doubt(one('two-cord', 'reference-grade', '-0.20'), 'loss-negative')).toMatchObject({
      floor: -0.094,
      lowest: -0.144,
    });
    expect(doubt(one('two-cord', 'ordinary', '-0.20'), 'loss-slightly-negative').lowest).toBe(
      -0.794,
    );
    expect(doubt(one('three-cord', 'reference-grade', '-0.31'), 'loss-negative').lowest).toBe(
      -0.244,
    );
  });
});

describe('an impossible reading by one cord', () => {
  const rows = '  1  0.30  09:00\n  2  -0.07  09:10\n  3  0.30  09:20';

  it('holds everything taken with that reference', () => {
    const result = judged(plan('one-cord', 'reference-grade', rows)).link('KQ-S');
    expect([1, 2, 3].map((fibre) => verdict(result, fibre, 850))).toEqual([
      'invalid',
      'invalid',
      'invalid',
    ]);
    expect(doubt(result, 'reference-suspect').fibres).toBe('1, 3');
  });

  it('stands alone once a check of that reference passes', () => {
    const check = '  checked     2026-03-14 09:30 850 nm -20.06 dBm\n';
    const result = judged(plan('one-cord', 'reference-grade', rows, check)).link('KQ-S');
    expect([1, 2, 3].map((fibre) => verdict(result, fibre, 850))).toEqual([
      'pass',
      'invalid',
      'pass',
    ]);
  });

  it('with cords in the reference is one bad reading, and holds nothing else', () => {
    const low = rows.replace('-0.07', '-0.30');
    const result = judged(plan('two-cord', 'reference-grade', low)).link('KQ-S');
    expect([1, 2, 3].map((fibre) => verdict(result, fibre, 850))).toEqual([
      'pass',
      'invalid',
      'pass',
    ]);
  });

  it('does not reach back over a good check', () => {
    const check = '  checked     2026-03-14 09:05 850 nm -20.06 dBm\n';
    const result = judged(plan('one-cord', 'reference-grade', rows, check)).link('KQ-S');
    expect([1, 2, 3].map((fibre) => verdict(result, fibre, 850))).toEqual([
      'pass',
      'invalid',
      'invalid',
    ]);
  });
});

describe('a whole block below zero', () => {
  const rows = '  1  -0.71  09:00\n  2  -0.83  09:10\n  3  -0.66  09:20';

  it('was written with the other sign: said once', () => {
    const result = judged(plan('one-cord', 'reference-grade', rows)).link('KQ-S');
    expect(doubt(result, 'sign-suspect').readings).toBe(3);
    expect(doubts(result)).not.toContain('loss-negative');
    expect(verdict(result, 1, 850)).toBe('invalid');
  });

  it('and is turned for the whole block by a word', () => {
    const text = plan('one-cord', 'reference-grade', rows).replace(
      'loss in dB',
      'loss in dB sign negative',
    );
    expect(verdict(judged(text).link('KQ-S'), 1, 850)).toBe('pass');
  });
});
