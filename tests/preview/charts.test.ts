/** Charts and coverage of the results page in a real browser, answered by the real project. */
import { mkdirSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { type OpenedPage, open, terminal, toSection } from './host.ts';
import { textsThatMeet } from './overlaps.ts';

let browser: Browser;

beforeAll(async () => {
  mkdirSync('artefacts', { recursive: true });
  browser = await launchChromium();
}, 120_000);

afterAll(() => browser?.close());

async function withPage(
  options: Parameters<typeof open>[2],
  use: (opened: OpenedPage) => Promise<void>,
): Promise<void> {
  const opened = await open(browser, terminal, options);
  try {
    await opened.page.locator('#link').waitFor();
    await use(opened);
    expect(opened.troubles).toEqual([]);
  } finally {
    await opened.page.close();
  }
}

const lineOf = (file: string, start: RegExp) =>
  terminal[file]!.split('\n').findIndex((line) => start.test(line));

describe('charts', () => {
  test('show the drawn link: its spread, its fibres in order, its wavelengths', () =>
    withPage({}, async ({ page }) => {
      await toSection(page, 'charts');
      await page.locator('#charts figure').nth(2).waitFor();
      expect(await page.locator('#charts figcaption b').allInnerTexts()).toEqual([
        'How loss is spread',
        'In the order of fibres',
        'Wavelength against wavelength',
      ]);
      const spread = page.locator('#charts [role=slider]').first();
      expect(await spread.getAttribute('aria-label')).toMatch(
        /^How loss is spread\. 850 nm: \d+ readings, limit 2\.15, expected 1\.10; 1300 nm: /u,
      );
      await page.locator('#charts').screenshot({ path: 'artefacts/charts-wide.png' });
    }));

  test('step through readings by key, mark the row in the table, and show the line in the text', () =>
    withPage({ kept: { open: ['KQ-G2'], find: 'KQ-G2' } }, async ({ page, told }) => {
      await toSection(page, 'charts');
      const course = page.locator('#charts [role=slider]').nth(1);
      await course.focus();
      await page.keyboard.press('Home');
      for (let step = 0; step < 4; step += 1) await page.keyboard.press('ArrowRight');
      await expect
        .poll(() => course.getAttribute('aria-valuetext'))
        .toBe('fibre 3, 850 nm A to B, 2.94 dB, fail');
      await expect
        .poll(() => page.locator('.virtual > .row.at-cursor [role=gridcell]').textContent())
        .toMatch(/^fibre 3, fail/u);
      await page.keyboard.press('Enter');
      const line = lineOf('readings-2026-03-17.lwl', /^\s+KQ-G2\s+3\s+2\.94/u);
      await expect
        .poll(() => told.flatMap((each) => (each.kind === 'show' ? [each.range.start.line] : [])))
        .toContain(line);
    }));

  test('stand behind a table each', () =>
    withPage({ width: 420, theme: 'light' }, async ({ page }) => {
      await toSection(page, 'charts');
      await page.locator('#charts .goto', { hasText: 'as table' }).nth(1).click();
      const rows = page.locator('.chart-table tbody tr');
      expect(await rows.nth(4).locator('td').allInnerTexts()).toEqual([
        'fibre 3',
        '850 nm A>B',
        '2.94',
        'fail',
      ]);
      await page.locator('#charts').screenshot({ path: 'artefacts/charts-narrow.png' });
    }));

  test('of all that is shown place readings by their margins, and follow the filter', () =>
    withPage({}, async ({ page }) => {
      await toSection(page, 'charts');
      await page.getByRole('radio', { name: 'all that is shown' }).click();
      const picture = page.locator('#charts [role=img]');
      await expect
        .poll(() => picture.getAttribute('aria-label'))
        .toMatch(/850 nm: \d+ readings, margins −0\.83 to [\d.]+ dB/u);
      await page.locator('#charts').screenshot({ path: 'artefacts/charts-all.png' });
      await page.locator('button.tally-entry', { hasText: /^\d+ fail$/u }).click();
      await toSection(page, 'charts');
      await expect.poll(() => picture.getAttribute('aria-label')).not.toContain('−0.83');
    }));

  test.each([1240, 800, 420])(
    'at %i px no text meets another',
    (width) =>
      withPage({ width }, async ({ page }) => {
        const names = await page.locator('.virtual > .row.link .name .mono').allInnerTexts();
        for (const name of names.slice(0, 4)) {
          await page.locator('.virtual > .row.link', { hasText: name }).first().click();
          await expect.poll(() => page.locator('#link .drawing-head').innerText()).toContain(name);
          await toSection(page, 'charts');
          await expect.poll(() => page.locator('#charts h2').innerText()).toContain(name);
          expect([name, ...(await textsThatMeet(page, 'svg.chart'))]).toEqual([name]);
          await page.evaluate(() => window.scrollTo(0, 0));
          await page.locator('.virtual > .row.link', { hasText: name }).first().click();
        }
      }),
    60_000,
  );
});

describe('coverage', () => {
  test('has a line a cable in a large plan, and opens one into its links', () =>
    withPage({}, async ({ page }) => {
      await toSection(page, 'coverage');
      const lines = page.locator('.coverage-line');
      await lines.first().waitFor();
      await page.locator('#coverage').screenshot({ path: 'artefacts/coverage-lines.png' });
      const sum = await page.locator('#coverage h2').innerText();
      const made = await lines.locator('.number').allInnerTexts();
      const total = made.reduce(
        (all, each) => all + Number(each.split('/')[0]!.replace(',', '')),
        0,
      );
      expect(sum.replace(',', '')).toContain(`${total} of`);
      await lines.locator('button').first().click();
      await page.locator('.matrix-grid').first().waitFor();
      await page.locator('#coverage').screenshot({ path: 'artefacts/coverage-cable.png' });
      await page.locator('#coverage .goto', { hasText: 'Show all cables' }).click();
      await lines.first().waitFor();
    }));

  test('is a matrix a link: one stop, a cell by keys, its place in the text', () =>
    withPage({ kept: { find: 'KQ-G' } }, async ({ page, told }) => {
      await toSection(page, 'coverage');
      const grid = page.getByRole('grid', { name: /^KQ-G2: / });
      await grid.focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
      await expect
        .poll(() => grid.locator('[role=gridcell]').textContent())
        .toBe('fibre 3, 850 nm A to B, fail');
      await page.keyboard.press('Enter');
      const line = lineOf('readings-2026-03-17.lwl', /^\s+KQ-G2\s+3\s+2\.94/u);
      await expect
        .poll(() => told.flatMap((each) => (each.kind === 'show' ? [each.range.start.line] : [])))
        .toContain(line);
      await page.locator('#coverage').screenshot({ path: 'artefacts/coverage-matrices.png' });
    }));

  test('selects the blank of a reading that is to be made', () =>
    withPage({ kept: { find: 'KQ-OPS' } }, async ({ page, told, project }) => {
      await toSection(page, 'coverage');
      const untested = page.locator('.matrix-grid:has(svg > .cell-untested)').first();
      await untested.focus();
      const cell = untested.locator('[role=gridcell]');
      const [rows, columns] = await Promise.all(
        ['aria-rowcount', 'aria-colcount'].map(async (name) =>
          Number(await untested.getAttribute(name)),
        ),
      );
      search: for (let row = 0; row < rows!; row += 1) {
        await page.keyboard.press('Home');
        for (let column = 0; column < columns!; column += 1) {
          if ((await cell.textContent())?.endsWith('untested')) break search;
          await page.keyboard.press('ArrowRight');
        }
        await page.keyboard.press('ArrowDown');
      }
      await page.keyboard.press('Enter');
      await expect.poll(() => told.some(({ kind }) => kind === 'show')).toBe(true);
      const place = told.find((each) => each.kind === 'show')!;
      const { line, character } = place.range.start;
      const text = project.document(place.uri)?.line(line) ?? '';
      expect(text.slice(character, place.range.end.character)).toBe('-');
    }));
});
