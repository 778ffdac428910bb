import { expect, test } from 'vitest';
import { cleanPlan } from '../support/clean-plans.ts';
import { judge, told } from '../support/judge.ts';

test('nothing is said of 200 plans in which nothing is wrong', { timeout: 300_000 }, () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const { findings, plan } = judge(cleanPlan(seed));
    expect({ seed, told: told(findings) }).toEqual({ seed, told: [] });
    expect({ seed, accepted: plan.result.totals.accepted }).toEqual({ seed, accepted: true });
  }
});
