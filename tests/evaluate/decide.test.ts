/**
 * Decision rules by themselves, at each of their edges: ILAC-G8:09/2019 and
 * JCGM 106 (equality goes to the milder side, U moves no limit). Whole readings
 * under each rule stand in tests/published/backbone.test.ts.
 */
import { describe, expect, it } from 'vitest';
import { type ExactDb, exactDb, microDb, picometres } from '../../grammar/src/quantity/index.ts';
import {
  decide,
  decideLower,
  isAccepted,
  marginTo,
  uncertaintyFor,
} from '../../server/src/evaluate/decide.ts';
import { verdicts } from '../../server/src/evaluate/result.ts';
import type { DecisionRule, Mode, PlanSettings } from '../../server/src/model/types.ts';

const db = (value: number) => microDb(Math.round(value * 1e6));
const nm = (value: number) => picometres(value * 1000);

const limit = exactDb(db(2.805));
const U = db(0.15);
const rules = ['flagged', 'simple', 'guarded-acceptance', 'guarded-rejection'] as const;
const by = (value: number, rule: DecisionRule) => decide(db(value), limit, U, rule);
const lower = (value: number, rule: DecisionRule) => decideLower(db(value), db(13), db(0.2), rule);

describe('a value under an upper limit', () => {
  it.each([
    // value, then flagged, simple, guarded acceptance, guarded rejection
    [2.655, 'pass', 'pass', 'pass', 'pass'],
    [2.655001, 'marginal-pass', 'pass', 'fail', 'pass'],
    [2.805, 'marginal-pass', 'pass', 'fail', 'pass'],
    [2.805001, 'marginal-fail', 'fail', 'fail', 'pass'],
    [2.955, 'marginal-fail', 'fail', 'fail', 'pass'],
    [2.955001, 'fail', 'fail', 'fail', 'fail'],
  ] as const)('2.805 ± 0.15 dB: %s dB', (value, ...wanted) => {
    expect(rules.map((rule) => by(value, rule))).toEqual(wanted);
  });

  it('is held to the exact limit: the least step of length times rate below it decides', () => {
    const finer = (limit + 1n) as ExactDb;
    expect(decide(db(2.805), finer, db(0), 'simple')).toBe('pass');
    expect(decide(db(2.805), (limit - 1n) as ExactDb, db(0), 'simple')).toBe('fail');
  });

  it('that is a mean is judged by its sum: limit and U count as often as readings', () => {
    // 1.90 and 2.03 under 1.97464 with U 0.20: the mean 1.965 is a marginal pass.
    const two = (sum: number, u: number) =>
      decide(db(sum), exactDb(db(1.97464)), db(u), 'flagged', 2);
    expect(two(3.93, 0.2)).toBe('marginal-pass');
    expect(two(3.94928, 0)).toBe('pass');
    expect(two(3.949281, 0)).toBe('fail');
    expect(two(3.54928, 0.2)).toBe('pass');
    expect(two(3.549281, 0.2)).toBe('marginal-pass');
    expect(two(4.34928, 0.2)).toBe('marginal-fail');
    expect(two(4.349281, 0.2)).toBe('fail');
  });
});

describe('a value over a lower limit', () => {
  it.each([
    [13.2, 'pass', 'pass', 'pass', 'pass'],
    [13.199999, 'marginal-pass', 'pass', 'fail', 'pass'],
    [13, 'marginal-pass', 'pass', 'fail', 'pass'],
    [12.999999, 'marginal-fail', 'fail', 'fail', 'pass'],
    [12.8, 'marginal-fail', 'fail', 'fail', 'pass'],
    [12.799999, 'fail', 'fail', 'fail', 'fail'],
  ] as const)('13 ± 0.2 dB: %s dB', (value, ...wanted) => {
    expect(rules.map((rule) => lower(value, rule))).toEqual(wanted);
  });
});

describe('what counts as accepted', () => {
  const accepted = (accepting: PlanSettings['decision']['accepting']) =>
    verdicts.filter((verdict) => isAccepted(verdict, { decision: { rule: 'flagged', accepting } }));

  it('is a pass and a concession, and a marginal result as far as the plan says so', () => {
    expect(accepted('none')).toEqual(['conceded', 'pass']);
    expect(accepted('marginal-pass')).toEqual(['conceded', 'marginal-pass', 'pass']);
    expect(accepted('marginal-fail')).toEqual([
      'marginal-fail',
      'conceded',
      'marginal-pass',
      'pass',
    ]);
  });
});

describe('a margin', () => {
  it('is what is left to the limit, of several that of their mean', () => {
    expect(marginTo(limit, db(1.12))).toBe(exactDb(db(1.685)));
    expect(marginTo(limit, db(2.81))).toBe(exactDb(db(-0.005)));
    expect(marginTo(exactDb(db(1.97464)), db(3.93), 2)).toBe(exactDb(db(0.00964)));
  });
});

describe('the uncertainty in force', () => {
  type Entry = PlanSettings['uncertainty'][number];
  const entry = (loss: number, more: Partial<Entry> = {}): Entry => ({
    loss: db(loss),
    place: { block: 1, span: { start: 0, end: 1 } },
    ...more,
  });
  const chosen = (entries: readonly Entry[], method = 'one-cord', mode: Mode = 'multimode') =>
    uncertaintyFor({ uncertainty: entries }, nm(850), method, mode, [{ name: 'GLASS' }, undefined]);

  it('is nothing where the plan says none, and the usual repeatability of 0.05 dB', () => {
    expect(chosen([])).toEqual({ expanded: 0, repeatable: db(0.05), stated: false });
    expect(chosen([entry(0.15)])).toEqual({
      expanded: db(0.15),
      repeatable: db(0.05),
      stated: true,
    });
    expect(chosen([entry(0.15, { repeatable: db(0.03) })]).repeatable).toBe(db(0.03));
  });

  it('leaves out what is for another wavelength, method, mode or fibre', () => {
    expect(chosen([entry(0.2, { wavelength: nm(1300) })]).stated).toBe(false);
    expect(chosen([entry(0.2, { method: 'two-cord' })]).stated).toBe(false);
    expect(chosen([entry(0.2, { for: 'single-mode' })]).stated).toBe(false);
    expect(chosen([entry(0.2, { for: 'OTHER' })]).stated).toBe(false);
  });

  it('goes by wavelength before method before fibre before mode, whatever the order', () => {
    const ladder = [
      entry(0.1),
      entry(0.11, { for: 'multimode' }),
      entry(0.12, { for: 'GLASS' }),
      entry(0.13, { method: 'one-cord' }),
      entry(0.14, { method: 'one-cord', for: 'multimode' }),
      entry(0.15, { method: 'one-cord', for: 'GLASS' }),
      entry(0.16, { wavelength: nm(850) }),
      entry(0.17, { wavelength: nm(850), for: 'multimode' }),
      entry(0.18, { wavelength: nm(850), for: 'GLASS' }),
      entry(0.19, { wavelength: nm(850), method: 'one-cord' }),
    ];
    for (const [index, best] of ladder.entries()) {
      const known = ladder.slice(0, index + 1);
      expect(chosen(known).expanded).toBe(best.loss);
      expect(chosen(known.toReversed()).expanded).toBe(best.loss);
    }
  });

  it('of two that fit alike is the first', () => {
    expect(chosen([entry(0.1), entry(0.2)]).expanded).toBe(db(0.1));
  });
});
