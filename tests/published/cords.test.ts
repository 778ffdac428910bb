/**
 * Cord assemblies between three test cords.
 *
 * With three cords the reference holds two pairs and the reading two more, so
 * that with reference-grade plugs both end pairs are within the measurement:
 * ISO/IEC 14763-3, clause E.1, in two magazines; the configurations of
 * IEC 61280-4-1 as a trade text prints them. Figures are ours.
 */
import { describe, expect, it } from 'vitest';
import { exact, judged, margin, multimodeParts, reading, verdict } from './judged.ts';

const cords = (plan = '', method = 'three-cord') => `plan "Cords from stock" {
  limits      END-PAIRS
  measure     850 nm
  directions  both
  uncertainty 0.15 dB
${plan}}
${multimodeParts}
setup CORD-TEST {
  reference   ${method}
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS-50 reference-grade
  cord        T1 substitution PAIR GLASS-50 reference-grade
  cord        R1 receive PAIR GLASS-50 reference-grade verified 0.08 dB
  taken       2026-03-15 08:50 850 nm -20.31 dBm
}

link CORD-001 {
  fibres      1..2
  plug        PAIR
  segment     3 m GLASS-50
  plug        PAIR
}

link PANEL-1 {
  fibres      1..2
  connector   PAIR
  segment     3 m GLASS-50
  connector   PAIR
}

readings {
  setup       CORD-TEST
  tested      2026-03-15 09:20 by "R. Vale"
  values      loss in dB
  columns link,   fibre,  850 nm A>B, 850 nm B>A
  CORD-001          1       0.21        0.24
  CORD-001          2       0.83        0.24
}
`;

describe('a cord from stock', () => {
  it('is judged with three cords: 3.5·0.003 + 2·0.50 − 2·0.10 = 0.8105 dB', () => {
    const cord = judged(cords()).link('CORD-001');
    const first = reading(cord, 1, 850);
    expect(exact(first.limit?.value)).toBe('0.8105');
    expect(margin(first)).toBe('0.6005');
    expect(verdict(cord, 2, 850)).toBe('marginal-fail');
    expect(cord.verdict).toBe('marginal-fail');
  });

  it('wants three cords where nobody says otherwise; a link between panels then wants what is said', () => {
    const { link } = judged(cords());
    expect(link('CORD-001').link.terms.reference).toBe('three-cord');
    expect(link('PANEL-1').link.terms.reference).toBeUndefined();
  });

  it('wants what the plan wants where it says so', () => {
    const { link, findings } = judged(cords('  reference   two-cord\n'));
    expect(link('CORD-001').link.terms.reference).toBe('two-cord');
    // Read with three, it is judged by three, and that is told.
    expect(findings.map(({ name }) => name)).toContain('method-limit-mismatch');
    expect(exact(reading(link('CORD-001'), 1, 850).limit?.value)).toBe('0.8105');
  });

  it('is judged by its own set-up: two cords take one pair into the reference', () => {
    // 3.5·0.003 + 2·0.50 − 0.10
    const cord = judged(cords('', 'two-cord')).link('CORD-001');
    expect(exact(reading(cord, 1, 850).limit?.value)).toBe('0.9105');
  });
});
