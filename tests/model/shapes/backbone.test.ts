/** A whole plan in the notation, from text to model: what a designer and a tester write is what the model holds. */
import { describe, expect, test } from 'vitest';
import { evidenceOf, planSettings } from '../../../server/src/model/api.ts';
import { planOf } from '../plan.ts';
import { backbone } from './backbone.ts';

/** Minutes since 1970 of a time of day on 14 March 2026, from the day number 20,526. */
const march14 = (hours: number, minutes: number) => 20_526 * 1440 + hours * 60 + minutes;

describe('a backbone, its set-up, its readings', () => {
  const plan = planOf(backbone);

  test('reads without a finding', () => {
    expect(plan.notation).toEqual([]);
    expect(plan.findings()).toEqual([]);
  });

  test('holds the path in order, lengths in micrometres', () => {
    const link = plan.link('KQ-OPS-B3');
    expect(link.title).toBe('Operations room to berth 3');
    expect(link.path.map(({ kind }) => kind)).toEqual([
      'connector',
      'segment',
      'splice',
      'segment',
      'connector',
    ]);
    const [, trunk, splice, tail] = link.path;
    expect(trunk).toMatchObject({ length: 142_000_000, fibreName: 'OM4', deliberate: false });
    expect(trunk?.kind === 'segment' && trunk.cableFibres).toEqual(
      [...Array(12).keys()].map((n) => n + 1),
    );
    expect(splice).toMatchObject({ name: 'fusion', at: 'closure under ramp 3' });
    expect(tail).toMatchObject({ length: 38_000_000, fibreName: 'OM4' });
    expect(link.mode).toBe('multimode');
    expect(link.fibres).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(link.from.at(-1)).toBe('OPS/R2/A:12');
    expect(link.to[0]).toBe('B3/R1/A:01');
  });

  test('takes from the plan what it does not say itself', () => {
    const { terms } = plan.link('KQ-OPS-B3');
    expect(terms.measure).toEqual([850_000, 1_300_000]);
    expect(terms.directions).toEqual({ wanted: ['A>B', 'B>A'], average: false });
    expect(terms.reference).toBe('one-cord');
    expect(terms.limits.map(({ name }) => name)).toEqual(['TIA-568.3-E']);
    expect(terms.carries.map(({ name, application }) => [name, application?.count])).toEqual([
      ['10GBASE-SR', 2],
    ]);
  });

  test('holds the set-up with its cords and references in order of time', () => {
    const setup = plan.setup('MM-1');
    expect(setup).toMatchObject({ reference: 'one-cord', direct: false });
    expect(setup.source).toMatchObject({ text: 'S-3', light: 'LED', due: { text: '2027-01-12' } });
    expect(setup.meter?.floor).toBe(-60_000_000);
    expect(
      setup.cords.map(({ name, role, grade, verified }) => [name, role, grade, verified]),
    ).toEqual([
      ['TC-1', 'launch', 'reference-grade', undefined],
      ['TC-2', 'receive', 'reference-grade', 80_000],
    ]);
    expect(setup.events).toMatchObject([
      { kind: 'taken', wavelength: 850_000, power: -20_050_000, at: { from: march14(8, 10) } },
      { kind: 'taken', wavelength: 1_300_000, power: -20_310_000, at: { to: march14(8, 10) } },
    ]);
  });

  test('holds readings as typed, their time anywhere within tested', () => {
    const { readings, absences, work, concessions } = evidenceOf('KQ-OPS-B3', plan.scope);
    expect(readings).toHaveLength(4 * 4 - 1 + 4);
    expect(readings[0]).toMatchObject({
      object: 'KQ-OPS-B3',
      fibre: 1,
      quantity: 'loss',
      wavelength: 850_000,
      direction: 'A>B',
      typed: { digits: '1.12', unit: 'dB' },
      loss: 1_120_000,
      setup: 'MM-1',
      by: 'R. Vale',
      at: { from: march14(9, 5), to: march14(9, 40), text: '2026-03-14 09:05 to 09:40' },
    });
    expect(plan.textAt(readings[0]!.place)).toBe('1.12');
    // An empty cell without a remark is neither a reading nor an absence.
    expect(readings.filter(({ fibre }) => fibre === 2)).toHaveLength(3);
    expect(absences).toEqual([]);
    const dark = readings.filter(({ typed }) => typed === 'dark');
    expect(dark.map(({ fibre, remark }) => [fibre, remark])).toEqual(
      Array(4).fill([4, 'patched at the wrong cabinet?']),
    );
    expect(readings.filter(({ fibre }) => fibre === 3).map(({ loss }) => loss)).toEqual([
      2_660_000, 2_630_000, 1_440_000, 1_410_000, 2_600_000, 2_570_000, 1_400_000, 1_380_000,
    ]);
    expect(readings.map(({ order }) => order)).toEqual(readings.map((_, index) => index));
    expect(work).toMatchObject([{ done: 'cleaned', fibres: [3], on: { from: march14(10, 20) } }]);
    expect(concessions).toMatchObject([
      {
        fibres: [3],
        wavelength: 850_000,
        accepted: 2_610_000,
        by: 'M. Ashdown',
        on: { text: '2026-03-20' },
      },
    ]);
  });

  test('holds what the plan says of itself, and what holds where it says nothing', () => {
    expect(planSettings(plan.scope)).toMatchObject({
      title: 'Kestrel Quay ferry terminal: backbone',
      uncertainty: [{ loss: 150_000 }],
      decision: { rule: 'flagged', accepting: 'marginal-pass' },
      drift: { loss: 100_000, extended: false, closing: false, widening: false },
    });
  });
});
