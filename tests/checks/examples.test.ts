import { describe, expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { judge, told } from '../support/judge.ts';

describe.each(checks.map((check) => [check.name, check] as const))('%s', (name, check) => {
  test('fires on its bad example', () => {
    const { findings } = judge(check.bad);
    expect(told(findings).join('\n')).toContain(name);
  });

  test('is silent on its good example, and so is every mistake of notation', () => {
    const { findings } = judge(check.good);
    expect(
      told(findings.filter((finding) => finding.name === name || finding.kind === 'notation')),
    ).toEqual([]);
  });

  test('says its numbers, its page and where the rule comes from', () => {
    expect(check.explanation.length).toBeGreaterThan(60);
    expect(check.source.length).toBeGreaterThan(10);
    const found = judge(check.bad).findings.find((finding) => finding.name === name);
    expect(found?.message).toMatch(/[.?]$/u);
    expect(found?.place).toBeDefined();
  });
});
