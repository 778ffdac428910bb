/**
 * Bends on single-mode fibre, told by two wavelengths and the length.
 *
 * Rule-derived: readings are ours. Typical 0.34 and 0.19 dB/km at 1310 and
 * 1550 nm: published typical values of G.652.D. Threshold of 0.20 dB for the
 * excess: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { doubt, doubts, exact, judged, reading, verdict } from './judged.ts';

const plan = (
  length: string,
  splices: number,
  rates: [string, string],
  figures: [string, string],
  row: string,
) => `
plan "Bends" {
  limits      SUM
  measure     1310 nm, 1550 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS-9 {
  mode        single-mode core 9 um
  attenuation 1310 nm typ 0.34 dB/km
  attenuation 1550 nm typ 0.19 dB/km
  attenuation 1625 nm typ 0.21 dB/km
}

connector PAIR {
  loss        typ 0.25 dB
}

splice WELD {
  loss        typ 0 dB
}

limits SUM {
  policy      counting
  fibre       GLASS-9 1310 nm ${rates[0]} dB/km
  fibre       GLASS-9 1550 nm ${rates[1]} dB/km
  connector   any ${figures[0]} dB
  connector   any 0.20 dB reference
  splice      any ${figures[1]} dB
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -70 dBm
  cord        L1 launch PAIR GLASS-9 reference-grade
  cord        R1 receive PAIR GLASS-9 reference-grade verified 0.12 dB
  taken       2026-05-04 08:00 1310 nm -8.00 dBm
  taken       2026-05-04 08:00 1550 nm -8.20 dBm
  taken       2026-05-04 08:00 1625 nm -8.20 dBm
}

link KQ-B {
  fibres      1
  connector   PAIR
  segment     ${length} GLASS-9
${'  splice      WELD\n'.repeat(splices)}  connector   PAIR
}

readings KQ-B {
  setup       ONE
  tested      2026-05-04 09:00
  values      loss in dB
  columns fibre, 1310 nm A>B, 1550 nm A>B, 1625 nm A>B
  1       ${row}
}
`;

const short = (row: string) =>
  judged(plan('0.8 km', 0, ['0.4', '0.4'], ['0.75', '0.3'], row)).link('KQ-B');
const long = (row: string) =>
  judged(plan('20 km', 6, ['0.35', '0.22'], ['0.50', '0.1'], row)).link('KQ-B');

describe('excess against length, never the bare difference', () => {
  it('0.8 km: 0.55, 1.02 and 1.90 dB: both pass, 1625 nm is not judged, a bend', () => {
    const result = short('0.55  1.02  1.90');
    expect(exact(reading(result, 1, 1310).limit?.value)).toBe('1.82');
    expect(verdict(result, 1, 1310)).toBe('pass');
    expect(verdict(result, 1, 1550)).toBe('pass');
    expect(verdict(result, 1, 1625)).toBe('not-judged');
    expect(result.verdict).toBe('pass');
    const found = doubt(result, 'bend-signature-sm');
    expect(found).toMatchObject({ long: 1625, excess: 1.454 });
  });

  it('0.8 km: excess at 1550 nm alone is 0.59 dB', () => {
    expect(doubt(short('0.55  1.02  -'), 'bend-signature-sm')).toMatchObject({
      long: 1550,
      excess: 0.59,
    });
  });

  it('20 km: 8.10 and 6.30 dB: pass and fail, and a bend although 1550 nm lost less', () => {
    const result = long('8.10  6.30  -');
    expect(exact(reading(result, 1, 1310).limit?.value)).toBe('8.6');
    expect(exact(reading(result, 1, 1550).limit?.value)).toBe('6');
    expect(verdict(result, 1, 1310)).toBe('pass');
    expect(verdict(result, 1, 1550)).toBe('fail');
    expect(doubt(result, 'bend-signature-sm').excess).toBe(1.2);
  });

  it('20 km: 8.05 and 5.15 dB: no bend', () => {
    expect(doubts(long('8.05  5.15  -'))).not.toContain('bend-signature-sm');
  });

  it('0.8 km: 1.40 and 1.27 dB: the same residual at both, a joint and not a bend', () => {
    const result = short('1.40  1.27  -');
    expect(verdict(result, 1, 1310)).toBe('pass');
    expect(doubts(result)).not.toContain('bend-signature-sm');
    expect(doubt(result, 'joint-signature')).toMatchObject({
      residual: 0.628,
      residualLong: 0.618,
      excess: -0.01,
    });
  });

  it('one wavelength alone says nothing of the other', () => {
    expect(verdict(short('1.20  -  -'), 1, 1550)).toBe('untested');
  });
});
