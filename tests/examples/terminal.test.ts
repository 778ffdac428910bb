/**
 * The whole terminal: that it shows what an example is for, and a dozen of its
 * limits and verdicts against arithmetic written out here. The plan's figures
 * are invented or the library's; the sums are those of the counting and
 * reference-grade rules (fibre by length, pairs, splices; end pairs less
 * reference pairs with three cords, IEC 61280-4-1 configurations).
 */
import { describe, expect, it } from 'vitest';
import { printExactDb, toNanometres } from '../../grammar/src/quantity/index.ts';
import type { ReadingResult } from '../../server/src/evaluate/result.ts';
import { openExample } from './open.ts';

const [plan] = openExample('kestrel-quay-terminal').plans;
if (!plan) throw new Error('the terminal is no plan');
const { totals, order } = plan.result;
const findings = [...plan.allFindings().values()].flat();

describe('it shows', () => {
  it('a whole terminal', () => {
    expect(order.length).toBeGreaterThanOrEqual(60);
    expect(totals.present).toBeGreaterThan(500);
    expect(plan.files.length).toBeGreaterThan(5);
    const modes = new Set(order.map((name) => plan.result.link(name)?.link.mode));
    expect([...modes].sort()).toEqual(['multimode', 'single-mode']);
    const setups = new Set(order.flatMap((name) => readingsOf(name).map(({ setup }) => setup)));
    setups.delete(undefined);
    expect(setups.size).toBeGreaterThanOrEqual(3);
  });

  it.each([
    'fail',
    'marginal-fail',
    'invalid',
    'stale',
    'untested',
    'conceded',
    'marginal-pass',
    'pass',
  ] as const)('the verdict %s', (verdict) => {
    expect(totals.counts[verdict]).toBeGreaterThan(0);
  });

  it.each([
    'bend-signature-sm',
    'direction-asymmetry',
    'marginal-fail',
    'marginal-pass',
    'over-limit',
    'readings-missing',
    'reference-drift',
    'stale-reading',
  ])('the finding %s', (name) => {
    expect(findings.map((finding) => finding.name)).toContain(name);
  });

  it('nothing that is wrong with how it is written', () => {
    const wrong = findings.filter(({ kind }) => kind === 'notation');
    expect(wrong.map(({ message }) => message)).toEqual([]);
  });
});

describe('limits by hand, in dB', () => {
  it.each([
    // 118 m of OM4 at 3.0 and 1.5 dB/km, two pairs: 3.0 × 0.118 + 2 × 0.75; 1.5 × 0.118 + 2 × 0.75
    ['KQ-OPS-B1', 850, 'one-cord', 'TIA-568.3-E', '1.854'],
    ['KQ-OPS-B1', 1300, 'one-cord', 'TIA-568.3-E', '1.677'],
    // 142 m of cable, 6 m of slack, 38 m: 3.0 × 0.186 + 2 × 0.75 + 0.3
    ['KQ-OPS-B3', 850, 'one-cord', 'TIA-568.3-E', '2.358'],
    // 74 m, 8 m and 4 m of slack, 25 m: 3.0 × 0.111 + 2 × 0.75 + 0.3
    ['KQ-G1', 850, 'one-cord', 'TIA-568.3-E', '2.133'],
    // 41 m of OM3: 1.5 × 0.041 + 2 × 0.75
    ['KQ-HALL-01', 1300, 'one-cord', 'TIA-568.3-E', '1.5615'],
    // array pairs have the ceiling of any pair: 3.0 × 0.025 + 2 × 0.75
    ['L02-S1', 850, 'one-cord', 'TIA-568.3-E', '1.575'],
    // three cords, reference-grade: 3.0 × 0.003 + 2 × (0.35 − 0.10)
    ['CORD-007', 850, 'three-cord', 'KQ-CORDS', '0.509'],
    // 1840 m, 2 × 15 m of slack, 2 × 2 m of pigtail, by the contract: 0.4 × 1.874 + 2 × 0.15 + 2 × 0.5
    ['KQ-PIER-1', 1310, 'one-cord', 'KQ-OWNER', '2.0496'],
    ['KQ-PIER-3', 1550, 'one-cord', 'KQ-OWNER', '2.0496'],
    // 0.4 × 4.174 + 2 × 0.3 + 2 × 0.75 = 3.7696: what the contract requires is less and governs
    ['KQ-LIGHT', 1310, 'one-cord', 'required loss 3.6 dB', '3.6'],
    // 810 m of OS2: 0.4 × 0.810 + 2 × 0.75
    ['KQ-CAM-14', 1310, 'one-cord', 'TIA-568.3-E', '1.824'],
    // a channel between plugs, three cords: the reference has as many pairs as its ends; 3.0 × 0.123 + 2 × 0.75
    ['TICKETS-B1', 850, 'three-cord', 'TIA-568.3-E', '1.869'],
  ])('%s at %i nm, %s: %s governs with %s', (name, nanometres, reference, governing, value) => {
    const result = plan.result
      .link(name)
      ?.wavelengths.find(
        (at) => toNanometres(at.wavelength) === nanometres && at.reference === reference,
      );
    expect(result?.governing?.name).toBe(governing);
    expect(result?.governing?.value && printExactDb(result.governing.value)).toBe(value);
  });

  it('beside stands the other standard: 3.5 × 0.118 + 2 × 0.5 at 850 nm', () => {
    const beside = plan.result
      .link('KQ-OPS-B1')
      ?.wavelengths[0]?.limits.find((limit) => limit.beside);
    expect(beside?.name).toBe('ISO-11801-1');
    expect(beside?.value && printExactDb(beside.value)).toBe('1.413');
  });
});

describe('verdicts by hand', () => {
  it.each([
    // 2.60 > 2.358 + 0.15, and no more than the 2.61 that was accepted
    ['KQ-OPS-B3', 3, 850, 'A>B', 'conceded', '-0.242'],
    // 1.992 − 0.15 < 1.88 ≤ 1.992
    ['KQ-OPS-B4', 10, 850, 'A>B', 'marginal-pass', '0.112'],
    // 2.061 < 2.13 ≤ 2.061 + 0.15
    ['KQ-OPS-B5', 11, 850, 'B>A', 'marginal-fail', '-0.069'],
    // 2.94 > 2.154 + 0.15
    ['KQ-G2', 3, 850, 'A>B', 'fail', '-0.786'],
    // 2.0496 − 0.20 < 1.96 ≤ 2.0496, and the other way 2.0496 < 2.11 ≤ 2.2496
    ['KQ-PIER-2', 9, 1310, 'A>B', 'marginal-pass', '0.0896'],
    ['KQ-PIER-2', 9, 1310, 'B>A', 'marginal-fail', '-0.0604'],
    // 0.83 > 0.509 + 0.15
    ['CORD-007', 2, 850, 'A>B', 'fail', '-0.321'],
  ])(
    '%s fibre %i, %i nm %s: %s, margin %s dB',
    (name, fibre, nanometres, direction, verdict, margin) => {
      const standing = standingOf(name).find(
        (result) =>
          result.fibre === fibre &&
          toNanometres(result.wavelength) === nanometres &&
          result.direction === direction,
      );
      expect(standing?.verdict).toBe(verdict);
      expect(standing?.margin && printExactDb(standing.margin)).toBe(margin);
    },
  );

  it('the drifted reference voids 850 nm of gates 3 and 4 between the good check and the new reference, and no more', () => {
    const voided = order
      .flatMap((name) => readingsOf(name).map((result) => ({ name, result })))
      .filter(({ result }) => result.reason === 'reference-drift');
    expect(new Set(voided.map(({ name }) => name))).toEqual(new Set(['KQ-G3', 'KQ-G4']));
    expect(voided).toHaveLength(16);
    expect(voided.every(({ result }) => toNanometres(result.wavelength) === 850)).toBe(true);
  });

  it('gate 3 was read again and stands, gate 4 was not', () => {
    expect(plan.result.link('KQ-G3')?.verdict).toBe('pass');
    expect(plan.result.link('KQ-G4')?.verdict).toBe('invalid');
  });

  it('a new attempt takes the place of what was withdrawn', () => {
    const first = readingsOf('KQ-OPS-B4').filter(({ fibre }) => fibre === 1);
    expect(first.map(({ current }) => current)).toEqual([
      ...Array(4).fill(false),
      ...Array(4).fill(true),
    ]);
  });

  it('microwatts become losses by the reference: 7.61 µW is −21.186 dBm', () => {
    const b6 = readingsOf('KQ-OPS-B6').filter(({ reading }) => reading?.typed !== 'dark');
    expect(b6).toHaveLength(48);
    for (const { reading, loss, reference } of b6) {
      if (!reading || reading.typed === 'dark' || loss === undefined || reference === undefined)
        throw new Error('no loss');
      const dBm = 10 * Math.log10(Number(reading.typed.digits) / 1000);
      expect(loss / 1e6).toBeCloseTo(reference / 1e6 - dBm, 5);
    }
  });
});

function readingsOf(name: string): readonly ReadingResult[] {
  return plan?.result.link(name)?.readings ?? [];
}

function standingOf(name: string): readonly ReadingResult[] {
  return plan?.result.link(name)?.fibres.flatMap(({ current }) => current) ?? [];
}
