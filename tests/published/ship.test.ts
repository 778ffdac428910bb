/**
 * A ship's multimode end-to-end link against its maximum acceptable loss.
 *
 * Rule and allowances read in MIL-STD-2042-6B(SH), methods 6C1 and 6E1: MAL =
 * A·L + N·0.75 + splices; equal is acceptable; 1.0 dB or more over (0.5 dB for
 * an assembly): reject; less: clean and retest, once; an unknown length may be
 * taken as none. The readings are ours.
 */
import { describe, expect, it } from 'vitest';
import { at, doubt, doubts, exact, judged, margin, reading, verdict } from './judged.ts';

const plan = (segment: string, ends: string, rows: string, require = '') => `
plan "Ship" {
  limits      MIL-STD-2042-6
  measure     850 nm, 1300 nm
  directions  A>B
  reference   one-cord
  decision    simple
}

connector PAIR {
  loss        max 0.75 dB
}

setup SHIP {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR OM1 ordinary
  cord        R1 receive PAIR OM1 ordinary verified 0.3 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
  taken       2026-03-14 08:00 1300 nm -20.31 dBm
}

link SHIP-1 {
  fibres      1..12
  ${ends}     PAIR
  connector   PAIR
  ${segment}
  splice      mechanical
  connector   PAIR
  ${ends}     PAIR
${require}}

readings SHIP-1 {
  setup       SHIP
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B
${rows}
}
`;

const rows = `
  1   3.9  3.60
  2   3.9  3.79
  3   3.9  4.10
  4   3.9  4.789
  5   3.9  4.79`;

describe('an end-to-end link', () => {
  const result = judged(plan('segment     95 m OM1', 'connector', rows)).link('SHIP-1');

  it('has 4.0275 dB at 850 nm and 3.79 dB at 1300 nm', () => {
    expect(exact(at(result, 850).governing?.value)).toBe('4.0275');
    expect(exact(at(result, 1300).governing?.value)).toBe('3.79');
  });

  it.each([
    [1, 'pass', undefined],
    [2, 'pass', undefined],
    [3, 'fail', 'clean and retest'],
    [4, 'fail', 'clean and retest'],
    [5, 'fail', 'reject'],
  ])('fibre %i: %s, %s', (fibre, word, action) => {
    expect(verdict(result, fibre, 1300)).toBe(word);
    if (action === undefined) expect(doubts(result, fibre)).not.toContain('over-limit');
    else expect(doubt(result, 'over-limit', fibre).action).toBe(action);
  });

  it('an unknown length counts as none, on purpose: 3.6 dB at both', () => {
    const unknown = judged(plan('segment     unknown OM1', 'connector', rows)).link('SHIP-1');
    expect(exact(at(unknown, 850).governing?.value)).toBe('3.6');
    expect(exact(at(unknown, 1300).governing?.value)).toBe('3.6');
  });
});

describe('an assembly', () => {
  const text = plan('segment     95 m OM1', 'plug     ', '  1  3.9  4.28\n  2  3.9  4.29');
  const result = judged(text).link('SHIP-1');

  it('has the same limit and a narrower band for a retest', () => {
    expect(exact(at(result, 1300).governing?.value)).toBe('3.79');
    expect(doubt(result, 'over-limit', 1)).toMatchObject({
      over: 0.49,
      action: 'clean and retest',
    });
    expect(doubt(result, 'over-limit', 2)).toMatchObject({ over: 0.5, action: 'reject' });
  });

  it('is not cleaned a second time', () => {
    const again = `${text}
work SHIP-1 {
  done        cleaned
  fibres      1
  on          2026-03-14 09:30
}

readings SHIP-1 {
  setup       SHIP
  tested      2026-03-14 10:00
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B
  1       3.9  4.10
}
`;
    expect(doubt(judged(again).link('SHIP-1'), 'over-limit', 1)).toMatchObject({
      retests: 1,
      action: 'reject',
    });
  });

  it('passes up to what its maker states, and above it the sum decides', () => {
    const stated = (loss: string) =>
      judged(
        plan(
          'segment     95 m OM1',
          'plug     ',
          '  1  3.9  3.60',
          `  require     loss ${loss} dB sufficient\n`,
        ),
      ).link('SHIP-1');
    expect(verdict(stated('3.40'), 1, 1300)).toBe('pass');
    const above = reading(stated('3.40'), 1, 1300);
    expect(exact(above.limit?.value)).toBe('3.79');
    expect(verdict(stated('4.50'), 1, 1300)).toBe('pass');
  });

  it('passes by it what the sum alone would not, and no more than that', () => {
    const read = (loss: string, limits = '') =>
      reading(
        judged(
          plan(
            'segment     95 m OM1',
            'plug     ',
            `  1  3.9  ${loss}`,
            `${limits}  require     loss 4.50 dB sufficient\n`,
          ),
        ).link('SHIP-1'),
        1,
        1300,
      );
    // The sum is 3.79 dB.
    const within = read('3.90');
    expect([within.verdict, exact(within.limit?.value), margin(within)]).toEqual([
      'pass',
      '4.5',
      '0.6',
    ]);
    expect(read('4.50').verdict).toBe('pass');
    const beyond = read('4.51');
    expect([beyond.verdict, exact(beyond.limit?.value), margin(beyond)]).toEqual([
      'fail',
      '3.79',
      '-0.72',
    ]);
  });
});
