/**
 * 62.5 µm fibre joined to 50 µm.
 *
 * Rule-derived: figures are ours. That a step takes light in one direction
 * only, 20·log(62.5 ÷ 50) and as much again for the apertures at most, is
 * geometry; 0.9 to 1.6 dB with LED light is printed in trade tables. No cabling
 * standard grants an allowance: common practice, no source. 1000BASE-SX on OM1,
 * 275 m and 2.6 dB: a manufacturer's table.
 */
import { describe, expect, it } from 'vitest';
import { picometres, printMicro } from '../../grammar/src/quantity/index.ts';
import { coreStepLoss } from '../../server/src/optics/index.ts';
import { at, doubt, doubts, exact, judged, reading, verdict } from './judged.ts';

const plan = (step: string, cordAtA = 'GLASS-62') => `
plan "Old and new" {
  limits      OWNER
  measure     850 nm, 1300 nm
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
}

fibre GLASS-62 {
  mode        multimode core 62.5 um
  attenuation 850 nm max 3.5 dB/km
  attenuation 1300 nm max 1.5 dB/km
}

fibre GLASS-50 {
  meets       GLASS-62
  mode        multimode core 50 um
  attenuation 850 nm max 3.5 dB/km
  attenuation 1300 nm max 1.5 dB/km
}

connector PAIR {
  loss        max 0.75 dB
}

limits OWNER {
  edition     "clause 4" contract
  policy      counting
  fibre       GLASS-62, GLASS-50 850 nm 3.5 dB/km
  fibre       GLASS-62, GLASS-50 1300 nm 1.5 dB/km
  connector   any 0.75 dB
  connector   any 0.10 dB reference
${step}}

application GIGABIT {
  count       2
  wavelength  850 nm
  fibre       GLASS-62 reach 275 m loss 2.6 dB
}

setup FROM-A {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L62 launch PAIR ${cordAtA} reference-grade
  cord        R50 receive PAIR GLASS-50 reference-grade verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
  taken       2026-03-14 08:00 1300 nm -20.31 dBm
}

setup FROM-B {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L50 launch PAIR GLASS-50 reference-grade
  cord        R62 receive PAIR ${cordAtA} reference-grade verified 0.08 dB
  taken       2026-03-14 08:00 850 nm -20.05 dBm
  taken       2026-03-14 08:00 1300 nm -20.31 dBm
}

link KQ-OLD {
  fibres      1..2
  connector   PAIR
  segment     220 m GLASS-62
  connector   PAIR
  segment     40 m GLASS-50
  connector   PAIR
  carries     GIGABIT beside
}

readings KQ-OLD {
  setup       FROM-A A>B
  setup       FROM-B B>A
  tested      2026-03-14 09:00
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
  1       4.15  2.05
  2       4.15  2.05
}
`;

describe('a step in core size', () => {
  const result = judged(plan('')).link('KQ-OLD');

  it('is given no allowance of its own', () => {
    expect(exact(at(result, 850).governing?.value)).toBe('3.16');
    expect(exact(at(result, 1300).governing?.value)).toBe('2.64');
    expect(verdict(result, 1, 850, 'A>B')).toBe('fail');
    expect(verdict(result, 1, 850, 'B>A')).toBe('pass');
    expect(doubt(result, 'over-limit', 1).over).toBe(0.99);
  });

  it('shows between the directions, and the step is named', () => {
    expect(doubt(result, 'direction-asymmetry', 1)).toMatchObject({
      difference: 2.1,
      direction: 'A>B',
      coreStep: 'GLASS-62 to GLASS-50',
      coreLoss: 1.9382,
    });
  });

  it('is never averaged away', () => {
    const averaged = judged(plan('').replace('directions  both', 'directions  both average')).link(
      'KQ-OLD',
    );
    expect(verdict(averaged, 1, 850, 'A>B')).toBe('fail');
  });

  it('a written allowance holds in its own direction', () => {
    const allowed = judged(plan('  core-step   GLASS-62 to GLASS-50 1.6 dB\n')).link('KQ-OLD');
    expect(exact(reading(allowed, 1, 850, 'A>B').limit?.value)).toBe('4.76');
    expect(verdict(allowed, 1, 850, 'A>B')).toBe('pass');
    expect(exact(reading(allowed, 1, 850, 'B>A').limit?.value)).toBe('3.16');
    // 2.10 dB apart, of which 1.6 dB were allowed for: 0.5 dB are left, more than directions usually differ.
    expect(doubt(allowed, 'direction-asymmetry', 1)).toMatchObject({
      difference: 2.1,
      allowed: 1.6,
    });
  });

  it('what lies outside the link does not step once more', () => {
    // 2.6 dB less 2 m and 3 m of cord, each of the fibre at its own end: 2.6 - 3.5 × 0.005.
    const planned = plan('  core-step   GLASS-62 to GLASS-50 1.6 dB\n').replace(
      'carries     GIGABIT beside',
      'carries     GIGABIT cords 2 m, 3 m',
    );
    const step = reading(judged(planned).link('KQ-OLD'), 1, 850, 'A>B');
    expect(exact(step.limit?.value)).toBe('2.5825');
  });

  it('directions as far apart as the allowance are what was expected', () => {
    const allowed = judged(plan('  core-step   GLASS-62 to GLASS-50 1.9 dB\n')).link('KQ-OLD');
    expect(doubts(allowed, 1)).not.toContain('direction-asymmetry');
  });

  it('a duplex service needs a fibre each way, by the row of the poorest fibre: not supported', () => {
    const [application] = result.applications;
    expect(application).toMatchObject({ support: 'not supported', row: 'GLASS-62, 275 m, 2.6 dB' });
    expect(doubt(result, 'application-loss-exceeded')).toMatchObject({ loss: 4.15, limit: 2.6 });
  });

  it('50 µm cords at the 62.5 µm end are a mistake of the set-up', () => {
    const wrong = judged(plan('', 'GLASS-50')).link('KQ-OLD');
    expect(verdict(wrong, 1, 850, 'A>B')).toBe('invalid');
    expect(verdict(wrong, 1, 850, 'B>A')).toBe('invalid');
    expect(doubts(wrong, 1)).toContain('cord-fibre-mismatch');
  });

  it('takes 4.7043 dB at most where all modes are filled', () => {
    const loss = coreStepLoss(
      { core: picometres(62_500_000), aperture: 0.275 },
      { core: picometres(50_000_000), aperture: 0.2 },
    );
    expect(Number(printMicro(loss))).toBeCloseTo(4.7043, 4);
  });
});
