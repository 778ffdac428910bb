/**
 * A fixed sample of the error study as laws: each mistake is told from its size
 * on, where the study finds at least 95 of 100, by one finding and not by a crowd, and clean plans stay silent.
 */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../server/src/checks/finding.ts';
import { judge } from '../support/judge.ts';
import { type Mistake, mistakes } from './mistakes.ts';
import { studyPlan, textOf } from './plans.ts';

const sample = 20;
const seeds = Array.from({ length: sample }, (_, index) => 300_000 + index);

const known = new Map<string, readonly Finding[]>();

function findingsOf(mistake: Mistake, seed: number): readonly Finding[] {
  const key = `${mistake.name} ${seed}`;
  const before = known.get(key);
  if (before) return before;
  const plan = mistake.put(studyPlan(seed, mistake.shape?.(mistake.from)), mistake.from);
  const { findings } = judge(textOf(plan));
  known.set(key, findings);
  return findings;
}

describe.each(mistakes.map((mistake) => [mistake.name, mistake] as const))('%s', (_, mistake) => {
  test('is told at its size in all but two of twenty plans at most', { timeout: 60_000 }, () => {
    const missed = seeds.filter((seed) => {
      const names = findingsOf(mistake, seed).map(({ name }) => name);
      return !mistake.findings.some((name) => names.includes(name));
    });
    expect(missed.length, `missed with seeds ${missed.join()}`).toBeLessThanOrEqual(2);
  });
});

test('of clean plans nothing is said, but of an outlier in one of a hundred', {
  timeout: 60_000,
}, () => {
  let outliers = 0;
  for (let seed = 1; seed <= 100; seed++) {
    const names = judge(textOf(studyPlan(seed))).findings.map(({ name }) => name);
    if (names.includes('pass-but-outlier')) outliers++;
    const others = names.filter((name) => name !== 'pass-but-outlier');
    expect({ seed, others }).toEqual({ seed, others: [] });
  }
  expect(outliers).toBeLessThanOrEqual(1);
});

/** Kinds of a batch whose findings say it once for all readings. */
const saidOnce = mistakes.filter(({ name }) =>
  /swapped|headed|sign|dirty|receive|wrong core|pasted|numbered|goes bad|drift/u.test(name),
);

test.each(saidOnce.map((mistake) => [mistake.name, mistake] as const))(
  '%s is said once, and no reading says it again',
  { timeout: 60_000 },
  (_, mistake) => {
    const [seed = 1] = seeds.filter((each) =>
      findingsOf(mistake, each).some(({ name }) => name === mistake.findings[0]),
    );
    const findings = findingsOf(mistake, seed);
    const own = findings.filter(({ name }) => name === mistake.findings[0]);
    const told = findings.map(({ name, message }) => `${name}: ${message}`);
    // A path with a step of cores has a set-up for each end, and says what the step is.
    expect(own.length, told.join('\n')).toBeLessThanOrEqual(2);
    const others = findings.filter(
      ({ name }) => !mistake.findings.includes(name) && !verdicts.has(name),
    );
    expect(others.map(({ name }) => name)).toEqual([]);
  },
);

/** What judges each reading stays said of each, whatever the batch is suspected of. */
const verdicts: ReadonlySet<string> = new Set([
  'over-limit',
  'marginal-pass',
  'marginal-fail',
  'core-size-mismatch',
]);
