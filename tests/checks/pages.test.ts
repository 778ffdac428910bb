import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { findingsPage, otherFindings } from '../../server/src/project/finding-pages.ts';
import { cleanPlan } from '../support/clean-plans.ts';
import { judge } from '../support/judge.ts';

const pages = new Set([
  ...checks.map(({ name }) => name),
  ...otherFindings.map(({ name }) => name),
]);

test('no name stands twice, and every page says something', () => {
  expect(pages.size).toBe(checks.length + otherFindings.length);
  for (const { name, says } of otherFindings) {
    expect(name).toMatch(/^[a-z0-9]+(?:-[a-z0-9]+)*$/u);
    expect(says.length, name).toBeGreaterThan(15);
    expect(says, name).not.toMatch(/undefined|NaN|\[object/u);
  }
});

test('whatever is found in the examples, in broken plans and in each check’s own has a page', () => {
  const texts = [
    readFileSync('examples/mistakes/mistakes.lwl', 'utf8'),
    ...checks.map(({ bad }) => bad),
    ...Array.from({ length: 60 }, (_, seed) => {
      const plan = cleanPlan(seed + 1);
      const at = (seed * 37) % plan.length;
      return plan.slice(0, at) + plan.slice(at + 1 + (seed % 9));
    }),
  ];
  const found = new Set(texts.flatMap((text) => judge(text).findings.map(({ name }) => name)));
  expect(found.size).toBeGreaterThan(60);
  expect([...found].filter((name) => !pages.has(name))).toEqual([]);
}, 300_000);

test('every doubt that evaluation can have is a finding, or one said at its own place', () => {
  const sources = readdirSync('server/src/evaluate').map((file) =>
    readFileSync(`server/src/evaluate/${file}`, 'utf8'),
  );
  const named = sources.flatMap((text) =>
    [...text.matchAll(/(?:reason\(\s*|name: )'([a-z]+(?:-[a-z]+)+)'/gu)].map((match) => match[1]!),
  );
  // A set-up that is not declared and a cell without a value are said where they are written.
  const elsewhere = new Set(['setup-unknown', 'value-missing']);
  expect(named.length).toBeGreaterThan(30);
  expect(named.filter((name) => !pages.has(name) && !elsewhere.has(name))).toEqual([]);
});

test('the page has an anchor for each', () => {
  const page = findingsPage();
  for (const name of pages) expect(page).toContain(`### ${name}\n`);
});
