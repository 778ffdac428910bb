/** Of one mistake one finding: the bad example of these checks says their own name and nothing else, once for all it concerns. */
import { expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

const alone = [
  'power-below-floor',
  'retest-worse',
  'degraded-since-baseline',
  'too-many-retests',
  'source-wavelength-differs',
  'bend-not-excluded',
  'slack-missing',
  'method-unsuited-to-ends',
  'reading-in-future',
  'protection-not-diverse',
  'length-suspect',
  'strong-light',
  'budget-thin-margin',
  'power-margin-thin',
  'limit-weaker-than-standard',
  'resolution-suspect',
  'tester-unnamed',
];

test.each(alone)('%s alone', (name) => {
  const check = checks.find((each) => each.name === name)!;
  expect(judge(check.bad).findings.map((finding) => finding.name)).toEqual([name]);
  expect(judge(check.good).findings.map((finding) => finding.name)).toEqual([]);
});
