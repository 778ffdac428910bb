/**
 * The examples, judged by the real project and compared with what was reviewed.
 * A baseline is the source with what is said of each line under it; after a
 * change that is meant, UPDATE_BASELINES=1 writes them anew, to be read like code.
 */
import { existsSync, globSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { formatText } from '../../grammar/src/format.ts';
import { annotate } from './annotate.ts';
import { addressOf, openExample, root } from './open.ts';

const update = process.env.UPDATE_BASELINES === '1';
const examples = [...new Set(globSync('*/*.lwl', { cwd: root }).map(dirname))].sort();

describe.each(examples)('%s', (example) => {
  const { project, plans, files } = openExample(example);

  it('is one plan', () => {
    expect(plans.map(({ files }) => files.length)).toEqual([files.length]);
  });

  it.each(files)('%s is in canonical form', (file) => {
    const text = readFileSync(join(root, example, file), 'utf8');
    expect(formatText(text).text).toBe(text);
  });

  it.each(files)('%s says what was reviewed', (file) => {
    const [plan] = plans;
    if (!plan) throw new Error('no plan');
    const annotated = annotate(project, plan).get(addressOf(example, file));
    const path = join(import.meta.dirname, example, `${basename(file, '.lwl')}.baseline.txt`);
    if (update) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, annotated ?? '');
    }
    expect(existsSync(path), `${relative(root, path)} is written by UPDATE_BASELINES=1`).toBe(true);
    expect(annotated).toBe(readFileSync(path, 'utf8'));
  });
});

it('no baseline outlives its example', () => {
  const baselines = globSync('*/*.baseline.txt', { cwd: import.meta.dirname });
  for (const path of baselines) {
    expect(existsSync(join(root, path.replace(/\.baseline\.txt$/u, '.lwl'))), path).toBe(true);
  }
});
