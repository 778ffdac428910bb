/** The results as one file, made by the shipped command: read without a network, printed black on white. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';

const folder = mkdtempSync(join(tmpdir(), 'linkwright-printed-'));
const file = join(folder, 'results.html');
let browser: Browser;
let page: Page;
const asked: string[] = [];

beforeAll(async () => {
  const run = spawnSync(
    process.execPath,
    [
      'dist/linkwright.cjs',
      'results',
      'examples/kestrel-quay-terminal',
      '--as-of',
      '2026-04-01',
      '--format',
      'html',
      '--out',
      file,
    ],
    { encoding: 'utf8' },
  );
  expect(run.stderr).toBe('');
  expect(run.status).toBe(0);
  browser = await launchChromium();
  page = await browser.newPage({ viewport: { width: 1240, height: 900 } });
  page.on('request', (request) => asked.push(request.url()));
  await page.goto(pathToFileURL(file).href);
}, 120_000);

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('results as one file', () => {
  test('asks for nothing but itself and runs no script', () => {
    expect(asked).toEqual([pathToFileURL(file).href]);
    expect(readFileSync(file, 'utf8')).not.toMatch(/<script|<link|@import|url\(|https?:/u);
  });

  test('holds every link with its fibres and limits, the worst first, and the cautions', async () => {
    expect(await page.locator('.row.link').count()).toBe(70);
    expect(await page.locator('.row.link .name .mono').first().innerText()).toBe('KQ-G2');
    expect(await page.locator('.row.fibre').count()).toBeGreaterThan(300);
    expect(await page.locator('.cautions').innerText()).toContain('never look into a fibre');
  });

  test('draws the links that ask for a look, and no others', async () => {
    const drawn = await page.locator('.drawing-head .mono').allInnerTexts();
    expect(drawn[0]).toBe('KQ-G2');
    expect(drawn).not.toContain('KQ-PIER-4');
    expect(drawn.length).toBeLessThanOrEqual(12);
  });

  test('shows how all margins are spread, and how far each cable has come', async () => {
    expect(await page.locator('#charts [role=img]').getAttribute('aria-label')).toMatch(
      /^How margins are spread\. 850 nm: \d+ readings, margins −0\.83 to /u,
    );
    expect(await page.locator('.coverage-line').allInnerTexts()).toEqual(
      expect.arrayContaining([expect.stringMatching(/^C-101\s/u)]),
    );
    expect(await page.locator('#charts button, #coverage button').count()).toBe(0);
  });

  test('is complete on paper without colour, nothing wider than the page', async () => {
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 680, height: 950 });
    const colours = await page
      .locator('.text-fail, .text-marginal, .text-conceded, .text-invalid')
      .evaluateAll((all) => [...new Set(all.map((each) => getComputedStyle(each).color))]);
    for (const colour of colours) {
      const parts = colour.match(/[\d.]+/gu)?.map(Number) ?? [];
      expect(Math.max(...parts.slice(0, 3)), colour).toBe(0);
    }
    const wider = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wider).toBeLessThanOrEqual(0);
    const pdf = join(folder, 'results.pdf');
    await page.pdf({ path: pdf, format: 'A4', preferCSSPageSize: true });
    expect(statSync(pdf).size).toBeGreaterThan(10_000);
    await page.screenshot({ path: 'artefacts/printed.png' });
  });
});
