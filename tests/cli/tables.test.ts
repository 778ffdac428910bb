/** Tables as the command line writes them, in every form, of one plan and of several. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { afterEach, describe, expect, it } from 'vitest';
import { cleanPlan } from '../support/clean-plans.ts';
import { Folder } from './run.ts';

const asOf = ['--as-of', '2026-04-01'];
let folder: Folder;

afterEach(() => folder.remove());

describe('results as tables', () => {
  it('writes one Parquet over all plans it is given, which a database reads', async () => {
    folder = new Folder({ 'a/plan.lwl': cleanPlan(1), 'b/plan.lwl': cleanPlan(2) });
    const { code, error } = folder.run(
      ...['results', 'a', 'b', '--format', 'parquet', '--out', 'all.parquet', ...asOf],
    );
    expect({ code, error }).toEqual({ code: 0, error: '' });
    const connection = await (await DuckDBInstance.create(':memory:')).connect();
    const rows = await connection.runAndReadAll(
      `select distinct plan, plan_file from '${join(folder.path, 'all.parquet')}' order by plan`,
    );
    expect(rows.getRows()).toEqual([
      ['Clean plan 1', 'a/plan.lwl'],
      ['Clean plan 2', 'b/plan.lwl'],
    ]);
  });

  it('writes NDJSON to standard output, a line a reading', () => {
    folder = new Folder({ 'plan.lwl': cleanPlan(1) });
    const { code, out } = folder.run('results', '--format', 'ndjson', '--link', 'KQ-1', ...asOf);
    expect(code).toBe(0);
    const rows = out
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(new Set(rows.map(({ object }) => object))).toEqual(new Set(['KQ-1']));
    expect(rows[0]).toMatchObject({ verdict: 'pass', file: 'plan.lwl', as_of: '2026-04-01T23:59' });
  });

  it('writes another table as its file ends, else as CSV', () => {
    folder = new Folder({ 'plan.lwl': cleanPlan(1) });
    const table = ['results', '--table', 'references'];
    expect(folder.run(...table, ...asOf).out).toMatch(/^setup,event,wavelength_nm,/u);
    expect(folder.run(...table, '--out', 'a.xlsx', ...asOf).code).toBe(0);
    expect(readFileSync(join(folder.path, 'a.xlsx')).subarray(0, 2).toString()).toBe('PK');
  });

  it('says in which forms a table can be had, where another is asked for', () => {
    folder = new Folder({ 'plan.lwl': cleanPlan(1) });
    const { code, out, error } = folder.run('results', '--table', 'joints', '--format', 'html');
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toContain('The table of joints is written as csv, ndjson, xlsx, parquet');
  });

  it('never calls a fibre free because its link was left out', () => {
    folder = new Folder({ 'plan.lwl': cleanPlan(1) });
    const { code, error } = folder.run('results', '--table', 'assignments', '--link', 'KQ-1');
    expect(code).toBe(2);
    expect(error).toContain('The table of assignments is of a whole plan');
  });
});
