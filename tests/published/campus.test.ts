/**
 * A campus of 48 single-mode fibres with pigtails spliced on, both directions.
 *
 * Rule-derived: figures are ours. The worse of two directions is judged:
 * ISO/IEC 14763-3 as a magazine prints the Australian annex. Component sum with
 * 0.4 dB/km, 0.3 dB a splice and 0.75 dB a pair: cable maker's and magazine's
 * tables of ISO/IEC 11801. Bend by excess over typical attenuation: published
 * typical values of G.652.D, common practice for the threshold.
 */
import { describe, expect, it } from 'vitest';
import { at, doubt, doubts, exact, judged, limit, micro, reading, verdict } from './judged.ts';

const plan = (directions = 'both') => `
plan "Campus" {
  limits      CONTRACT, PLAIN, LATER-PRINT, FIRST-PRINT
  measure     1310 nm, 1550 nm
  directions  ${directions}
  reference   one-cord
  uncertainty 0.20 dB
}

fibre GLASS-9 {
  mode        single-mode core 9 um
  attenuation 1310 nm typ 0.34 dB/km max 0.4 dB/km
  attenuation 1550 nm typ 0.19 dB/km max 0.4 dB/km
}

connector PAIR {
  polish      UPC
  loss        max 0.75 dB
}

splice WELD {
  loss        max 0.3 dB
}

limits PLAIN {
  policy      counting
  fibre       GLASS-9 1310 nm 0.4 dB/km
  fibre       GLASS-9 1550 nm 0.4 dB/km
  connector   any 0.75 dB
  connector   any 0.20 dB reference
  splice      any 0.3 dB
}

limits LATER-PRINT {
  like        PLAIN
  policy      reference-grade
  connector   any 0.75 dB end
}

limits FIRST-PRINT {
  like        LATER-PRINT
  connector   any 0.50 dB end
}

limits CONTRACT {
  edition     "clause 7" contract
  policy      counting
  fibre       GLASS-9 1310 nm 0.36 dB/km
  fibre       GLASS-9 1550 nm 0.22 dB/km
  connector   any 0.50 dB
  connector   any 0.20 dB reference
  splice      any 0.10 dB
}

cable C-48 {
  fibre       GLASS-9
  count       48
  length      1.840 km
  slack       15 m
  slack       15 m
}

pattern pigtail {
  connector   PAIR
  segment     2 m GLASS-9
  splice      WELD
}

link KQ-48 {
  fibres      1..48
  as          pigtail
  segment     C-48 fibres 1..48
  splice      WELD at "closure half way"
  as          pigtail turned
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -70 dBm
  cord        L1 launch PAIR GLASS-9 reference-grade
  cord        R1 receive PAIR GLASS-9 reference-grade verified 0.12 dB
  taken       2026-05-04 08:00 1310 nm -8.00 dBm
  taken       2026-05-04 08:00 1550 nm -8.20 dBm
}

readings KQ-48 {
  setup       ONE
  tested      2026-05-04 09:00
  values      loss in dB
  columns fibre, 1310 nm A>B, 1310 nm B>A, 1550 nm A>B, 1550 nm B>A
  1       1.21  1.26  1.02  1.05
  9       1.90  2.03  1.62  1.65
  17      1.20  1.58  1.00  1.05
  30      1.22  1.24  1.03  -
  41      1.24  1.25  1.69  1.71
}
`;

const result = judged(plan()).link('KQ-48');

describe('limits', () => {
  it.each([
    [1310, 'PLAIN', '3.1496'],
    [1550, 'PLAIN', '3.1496'],
    [1310, 'LATER-PRINT', '3.1496'],
    [1310, 'FIRST-PRINT', '2.6496'],
    [1310, 'CONTRACT', '1.97464'],
    [1550, 'CONTRACT', '1.71228'],
  ])('at %i nm %s allows %s dB', (wavelength, name, expected) => {
    expect(limit(result, wavelength, name)).toBe(expected);
  });

  it('the contract, being smallest, governs', () => {
    expect(at(result, 1310).governing).toMatchObject({ name: 'CONTRACT', kind: 'contract' });
  });
});

describe('directions', () => {
  it('each is judged alone, so the worse governs', () => {
    expect(verdict(result, 9, 1310, 'A>B')).toBe('marginal-pass');
    expect(verdict(result, 9, 1310, 'B>A')).toBe('marginal-fail');
    expect(doubt(result, 'marginal-fail', 9)).toMatchObject({ over: 0.05536, limit: 1.97464 });
    expect(result.fibres[8]?.verdict).toBe('marginal-fail');
  });

  it('are averaged only where the plan says so', () => {
    const averaged = judged(plan('both average')).link('KQ-48');
    for (const direction of ['A>B', 'B>A']) {
      const one = reading(averaged, 9, 1310, direction);
      expect(one.verdict).toBe('marginal-pass');
      expect(exact(one.margin)).toBe('0.00964');
      expect(one.because).toContain('1.965 dB');
    }
  });

  it('are not averaged where they differ by more than the contract bounds', () => {
    const bounded = judged(plan('both average within 0.1 dB')).link('KQ-48');
    expect(verdict(bounded, 9, 1310, 'B>A')).toBe('marginal-fail');
    expect(doubts(bounded, 9)).toContain('direction-asymmetry');
  });

  it('far apart they are named', () => {
    expect(doubt(result, 'direction-asymmetry', 17)).toMatchObject({
      difference: 0.38,
      direction: 'B>A',
    });
    expect(doubts(result, 9)).not.toContain('direction-asymmetry');
  });
});

describe('bends', () => {
  it('show as excess over the typical slope, inside the limit or not', () => {
    const excesses = result.doubts
      .filter((one) => one.name === 'bend-signature-sm')
      .map((one) => [one.details.fibre, one.details.direction, one.details.excess]);
    expect(excesses).toEqual([
      [41, 'A>B', 0.7311],
      [41, 'B>A', 0.7411],
    ]);
    expect(verdict(result, 41, 1550, 'A>B')).toBe('marginal-pass');
    expect(verdict(result, 41, 1550, 'B>A')).toBe('marginal-pass');
  });
});

describe('coverage', () => {
  it('compares keys, not row counts', () => {
    expect(result.expected).toBe(192);
    expect(result.present).toBe(19);
    expect(verdict(result, 30, 1550, 'B>A')).toBe('untested');
    expect(result.fibres[29]?.verdict).toBe('untested');
    expect(micro(reading(result, 1, 1310).loss)).toBe('1.21');
    expect(doubt(result, 'readings-missing')).toMatchObject({ missing: 173, expected: 192 });
  });
});
