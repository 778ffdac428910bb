/** A limit that the contract rounds first decides readings; the design is held against what its parts are allowed. */
import { describe, expect, test } from 'vitest';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from '../../server/src/checks/examples.ts';
import { judge } from '../support/judge.ts';

/** 3.0 dB/km × 0.18 km + 2 × 0.75 dB = 2.04 dB at 850 nm. */
const rounding = (step: string) =>
  multimodePlan
    .replace('850 nm, 1300 nm', '850 nm')
    .replace('  zone', `  decision    flagged rounded ${step}\n  zone`);

const names = (step: string, loss: string) => {
  const readings = multimodeReadings(`1  ${loss}  -`, `2  1.08  -`);
  const { plan, findings } = judge(
    example(rounding(step), multimodeLink, multimodeSetup, readings),
  );
  const [first] = plan.result.link('KQ-1')!.readings;
  return { names: findings.map(({ name }) => name), verdict: first?.verdict };
};

describe('a decision that rounds its limit', () => {
  test('holds readings against the rounded limit: 2.04 dB to 0.1 dB is 2.0 dB', () => {
    expect(names('0.1 dB', '2.01').verdict).toBe('marginal-fail');
    expect(names('0.1 dB', '2.00').verdict).toBe('marginal-pass');
    expect(names('0.01 dB', '2.01').verdict).toBe('marginal-pass');
  });

  test('says nothing of a design that is over it by what rounding took away', () => {
    expect(names('0.1 dB', '1.12').names).toEqual([]);
    expect(names('0.5 dB', '1.12').names).toEqual([]);
  });

  test('says of a design that is over by more', () => {
    const text = example(
      rounding('0.1 dB'),
      multimodeLink.replace('}', '  require     loss 1.94 dB\n}'),
    );
    const [found] = judge(text).findings;
    expect(found?.name).toBe('budget-over-limit');
    // 1.94 dB rounds to 1.9 dB.
    expect(found?.message).toContain('0.14 dB over the limit of 1.90 dB');
  });
});
