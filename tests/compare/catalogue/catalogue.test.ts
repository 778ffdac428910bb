/**
 * Pairs of plans that differ by little, each with all that a comparison says of
 * it, both ways round. The baselines are read like code, and renewed with
 * `UPDATE_BASELINES=1`.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { changeKinds } from '../../../server/src/compare/types.ts';
import { designed } from './designed.ts';
import { measured } from './measured.ts';
import { said } from './said.ts';
import { compared, toldOf } from './told.ts';

const update = process.env.UPDATE_BASELINES === '1';
const groups = { measured, designed, said };
const all = Object.values(groups).flat();

describe.each(Object.entries(groups))('what is %s otherwise', (name, pairs) => {
  const path = join(import.meta.dirname, `${name}.baseline.txt`);
  const reviewed = new Map(
    (existsSync(path) ? readFileSync(path, 'utf8') : '')
      .split(/^(?=## )/mu)
      .map((text) => [text.split('\n')[0]?.replace('## ', ''), text.trimEnd()]),
  );

  it.each(pairs.map((pair) => [pair.title, pair] as const))('is told: %s', (title, pair) => {
    const told = toldOf(pair).trimEnd();
    if (!update) expect(told).toBe(reviewed.get(title));
  });

  it('is told of every pair, and of no other', () => {
    if (!update) expect([...reviewed.keys()]).toEqual(pairs.map(({ title }) => title));
  });

  afterAll(() => {
    if (update) writeFileSync(path, pairs.map(toldOf).join('\n'));
  });
});

describe('the catalogue', () => {
  it('holds every kind of change', () => {
    const kinds = new Set(all.flatMap((pair) => compared(pair).changes.map(({ kind }) => kind)));
    expect(changeKinds.filter((kind) => !kinds.has(kind))).toEqual([]);
  });

  it('has a title of its own for every pair', () => {
    expect(new Set(all.map(({ title }) => title)).size).toBe(all.length);
    expect(all.length).toBeGreaterThanOrEqual(60);
  });
});
