/** Papers opened on a telephone: what is wide moves by itself, the page stays, and nothing stands in the way. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import axe, { type AxeResults } from 'axe-core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';

const folder = mkdtempSync(join(tmpdir(), 'linkwright-little-room-'));
const [before, after] = [join(folder, 'before'), join(folder, 'after')];
const plan = 'examples/kestrel-quay-terminal';
const papers: Readonly<Record<string, readonly string[]>> = {
  results: ['results', plan, '--format', 'html'],
  record: ['record', plan, '--format', 'html'],
  sheet: ['sheet', plan],
  changes: ['compare', before, after, '--format', 'html'],
};
let browser: Browser;

beforeAll(async () => {
  cpSync(plan, before, { recursive: true });
  cpSync(plan, after, { recursive: true });
  const links = join(after, 'links-multimode.lwl');
  writeFileSync(links, readFileSync(links, 'utf8').replace('38 m OM4', '68 m OM4'));
  for (const [name, words] of Object.entries(papers)) {
    const command = [...words, '--as-of', '2026-04-01', '--out', join(folder, `${name}.html`)];
    const run = spawnSync(process.execPath, ['dist/linkwright.cjs', ...command]);
    expect(`${name}: ${run.status! < 2}`).toBe(`${name}: true`);
  }
  browser = await launchChromium();
}, 120_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe.each(Object.keys(papers))('%s', (name) => {
  test.each([420, 1200])(
    'fits %i px, by the rules of axe-core',
    async (width) => {
      const page = await browser.newPage({ viewport: { width, height: 900 } });
      await page.goto(pathToFileURL(join(folder, `${name}.html`)).href);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(
        width,
      );
      await page.evaluate(axe.source);
      const { violations } = await page.evaluate(() =>
        (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
      );
      const told = violations.flatMap(({ id, nodes }) =>
        nodes.slice(0, 3).map(({ target }) => `${id}: ${target.join(' ')}`),
      );
      expect(told).toEqual([]);
      await page.close();
    },
    120_000,
  );
});
