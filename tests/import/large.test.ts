/** A table of a hundred thousand rows: in blocks, in bounded memory, and stopped when told to. */
import { describe, expect, it, vi } from 'vitest';
import { Cancelled, unwatched } from '../../server/src/import/index.ts';
import { heads, imported, plan, run, single } from './berth-table.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

describe('a hundred thousand rows', () => {
  const many = 25_000;
  const large = `${plan}${Array.from(
    { length: 25 },
    (_, index) => `
link KQ-${index} {
  from        A${index}:1..1000
  to          B${index}:1..1000
  connector   LC
  segment     80 m OM4
  connector   LC
}
`,
  ).join('')}`;
  const table = () => {
    const lines = [heads];
    for (let at = 0; at < many; at += 1) {
      const start = `KQ-${at % 25},${Math.floor(at / 25) + 1}`;
      for (const end of ['850,A>B,0.71', '850,B>A,0.72', '1300,A>B,0.53', '1300,B>A,0.51']) {
        lines.push(`${start},${end},2026-03-14 09:05,R. Vale,`);
      }
    }
    return lines.join('\n');
  };

  it('come in blocks of at most a thousand, in bounded memory, telling how far it is', async () => {
    const told: number[] = [];
    const before = process.memoryUsage().heapUsed;
    const report = (done: number, all: number) => {
      told.push(done / all);
    };
    const {
      readings,
      rows: count,
      text,
      left,
      duplicates,
    } = await imported(table(), single, large, { ...unwatched, report });
    expect([readings, count, left.length, duplicates.length]).toEqual([100_000, 100_000, 0, 0]);
    const sizes = text
      .split('\n\n')
      .map((block) => block.split('\n').filter((line) => /^ {2}KQ-/u.test(line)).length);
    expect(Math.max(...sizes)).toBe(1000);
    expect(sizes.reduce((a, b) => a + b)).toBe(many);
    expect(told.length).toBeGreaterThan(40);
    expect(told).toEqual(told.toSorted((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
    expect((process.memoryUsage().heapUsed - before) / 1048576).toBeLessThan(1500);
  }, 120_000);

  it('stop when they are told to', async () => {
    const stop = new AbortController();
    const report = (done: number) => {
      if (done > 10) stop.abort();
    };
    const work = { signal: stop.signal, report };
    await expect(run(table(), single, plan, work)).rejects.toThrow(Cancelled);
  });
});
