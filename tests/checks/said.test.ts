/**
 * What is said of each bad example, word for word and at its place, with the limits
 * and verdicts of its links: compared with what was reviewed, as the baselines of the
 * examples are. The numbers are those of the few lines above them, so that they can
 * be worked out by hand. UPDATE_BASELINES=1 writes them anew, to be read like code.
 */
import { existsSync, globSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { annotate } from '../examples/annotate.ts';
import { judge, planUri } from '../support/judge.ts';

const folder = join(import.meta.dirname, 'said');
const update = process.env.UPDATE_BASELINES === '1';

test.each(checks.map((check) => [check.name, check] as const))('%s', (name, { bad }) => {
  const { project, plan } = judge(bad);
  const annotated = annotate(project, plan).get(planUri) ?? '';
  const path = join(folder, `${name}.baseline.txt`);
  if (update) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path, annotated);
  }
  expect(existsSync(path), `${name} is written by UPDATE_BASELINES=1`).toBe(true);
  expect(annotated).toBe(readFileSync(path, 'utf8'));
});

test('no baseline outlives its check', () => {
  const names = new Set(checks.map((check) => check.name));
  const left = globSync('*.baseline.txt', { cwd: folder });
  expect(left.filter((path) => !names.has(basename(path, '.baseline.txt')))).toEqual([]);
});
