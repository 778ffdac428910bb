/** Papers opened on a telephone: what is wide moves by itself, the page stays, and nothing stands in the way. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe, { type AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';

const folder = mkdtempSync(join(tmpdir(), 'linkwright-little-room-'));
let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
}, 120_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** An example and a copy of it in which one stretch is longer. */
function lengthened(example: string, file: string, from: string, to: string): readonly string[] {
  const copy = join(folder, example);
  cpSync(`examples/${example}`, copy, { recursive: true });
  const changed = join(copy, file);
  writeFileSync(changed, readFileSync(changed, 'utf8').replace(from, to));
  return [`examples/${example}`, copy];
}

const papers: Readonly<Record<string, (sides: readonly string[]) => readonly string[]>> = {
  results: ([plan]) => ['results', plan!, '--format', 'html'],
  record: ([plan]) => ['record', plan!, '--format', 'html'],
  sheet: ([plan]) => ['sheet', plan!],
  changes: (sides) => ['compare', ...sides, '--format', 'html'],
};

describe.each(Object.entries(papers))('%s', (name, words) => {
  async function written(sides: readonly string[], width: number): Promise<Page> {
    const file = join(folder, `${name}-${width}.html`);
    const command = [...words(sides), '--as-of', '2026-04-01', '--out', file];
    const run = spawnSync(process.execPath, ['dist/linkwright.cjs', ...command]);
    expect(run.status).toBeLessThan(2);
    const page = await browser.newPage({ viewport: { width, height: 900 } });
    await page.goto(pathToFileURL(file).href);
    return page;
  }

  test('of a whole terminal is no wider than a telephone', async () => {
    const sides = lengthened(
      'kestrel-quay-terminal',
      'links-multimode.lwl',
      '38 m OM4',
      '68 m OM4',
    );
    const page = await written(sides, 420);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(420);
    await page.close();
  }, 120_000);

  test.each([420, 1200])(
    'keeps the rules of axe-core at %i px',
    async (width) => {
      const sides = lengthened('first-link', 'first-link.lwl', '180 m', '190 m');
      const page = await written(sides, width);
      await page.evaluate(axe.source);
      const { violations } = await page.evaluate(() =>
        (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
      );
      const told = violations.flatMap(({ id, nodes }) =>
        nodes.map(({ target }) => `${id}: ${target.join(' ')}`),
      );
      expect(told).toEqual([]);
      await page.close();
    },
    120_000,
  );
});
