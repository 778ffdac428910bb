/** Choices over the results table, in a real browser: groups, columns, and what is taken out of it. */
import { mkdirSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { type OpenedPage, open, terminal } from './host.ts';

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
    await use(opened);
    expect(opened.troubles).toEqual([]);
  } finally {
    await opened.page.close();
  }
}

const groupsOf = ({ page }: OpenedPage) =>
  page.locator('.virtual > .row.fold .fold-sentence b').allInnerTexts();

test(
  'links stand together by cable or by verdict; a group that is shut keeps its count',
  () =>
    withPage({ height: 3000 }, async (opened) => {
      const { page } = opened;
      await page.getByRole('radio', { name: 'cable' }).click();
      await expect
        .poll(() => groupsOf(opened))
        .toEqual(['C-101', 'C-200', 'C-300', 'C-400', 'in no cable']);
      await page.locator('#results').screenshot({ path: 'artefacts/table-grouped.png' });
      const rows = async () =>
        Number(await page.locator('[role=treegrid]').getAttribute('aria-rowcount'));
      const before = await rows();
      await page.locator('.virtual > .row.fold', { hasText: 'C-200' }).click();
      await expect.poll(rows).toBe(before - 8);
      expect(
        await page.locator('.virtual > .row.fold', { hasText: 'C-200' }).innerText(),
      ).toContain('8 links');
      await page.getByRole('radio', { name: 'verdict' }).click();
      await expect
        .poll(async () => (await groupsOf(opened)).slice(0, 2))
        .toEqual(['fail', 'marginal-fail']);
      expect((await groupsOf(opened)).at(-1)).toBe('pass');
    }),
  60_000,
);

test(
  'a click on the head of a column sorts by it, and another turns the order round',
  () =>
    withPage({ height: 3000 }, async ({ page }) => {
      const head = page.locator('.head-cells .length button');
      const lengths = async () =>
        (await page.locator('.virtual > .row.link .length').allInnerTexts()).slice(0, 3);
      await head.click();
      await expect.poll(lengths).toEqual(['3 m', '3 m', '3 m']);
      await head.click();
      await expect.poll(lengths).toEqual(['4.18 km', '4.17 km', '1.87 km']);
      expect(
        await page.getByRole('button', { name: 'turned round' }).getAttribute('aria-pressed'),
      ).toBe('true');
      const [heads, below] = await Promise.all(
        ['.head-cells .name button', '.virtual > .row.link .name'].map((each) =>
          page
            .locator(each)
            .first()
            .evaluate((element) => element.getBoundingClientRect().left),
        ),
      );
      expect(Math.abs(heads! - below!)).toBeLessThan(1);
      await page.getByRole('radio', { name: 'name', exact: true }).click();
      await expect
        .poll(() => page.locator('.virtual > .row.link .name').first().innerText())
        .toContain('BERTHS-1-2');
    }),
  60_000,
);

test(
  'columns that are not wanted go, and are not there after a reload',
  () =>
    withPage({ kept: { columns: ['worst reading'] } }, async ({ page }) => {
      const table = page.locator('.table').first();
      const heads = () =>
        page
          .locator('.head-cells > span')
          .evaluateAll((all) =>
            all
              .filter((each) => getComputedStyle(each).visibility === 'visible')
              .map((each) => each.textContent),
          );
      expect(await table.getAttribute('class')).toContain('without-worst-reading');
      expect(await heads()).not.toContain('worst reading');
      expect(await heads()).toContain('length');
      const sideways = () =>
        page.evaluate(() => {
          const { scrollWidth, clientWidth } = document.documentElement;
          return scrollWidth - clientWidth;
        });
      expect(await sideways()).toBe(0);
      await page.locator('.columns-choice button', { hasText: 'length' }).click();
      await expect.poll(heads).not.toContain('length');
      const kept = await page.evaluate(() =>
        (window as unknown as { acquireVsCodeApi(): { getState(): unknown } })
          .acquireVsCodeApi()
          .getState(),
      );
      expect(kept).toMatchObject({ columns: ['worst reading', 'length'] });
      const strips = await page
        .locator('.virtual > .row .strip, .table-body > .under-rows .ground')
        .evaluateAll(
          (all) => new Set(all.map((each) => Math.round(each.getBoundingClientRect().left))).size,
        );
      expect(strips).toBe(1);
      await page.locator('#results').screenshot({ path: 'artefacts/table-columns.png' });
    }),
  60_000,
);

test(
  'what filter and search leave is taken out as text, as a tester typed it, or with all it was judged by',
  () =>
    withPage({ kept: { find: 'KQ-G2' } }, async ({ page, told }) => {
      await page.getByRole('button', { name: 'Copy all' }).click();
      await expect.poll(() => told.some(({ kind }) => kind === 'copy')).toBe(true);
      const copied = told
        .find((each) => each.kind === 'copy')!
        .text.trimEnd()
        .split('\n');
      expect(copied[0]).toBe(
        'link\tfibre\t850 nm A>B\t850 nm B>A\t1300 nm A>B\t1300 nm B>A\tverdict',
      );
      expect(copied[3]).toBe('KQ-G2\t3\t2.94\t2.98\t2.41\t2.38\tfail');
      expect(copied).toHaveLength(5);
      await page.getByRole('button', { name: 'Export' }).click();
      await expect.poll(() => told.some(({ kind }) => kind === 'save')).toBe(true);
      const saved = told.find((each) => each.kind === 'save')!;
      expect(saved.name).toBe('readings.csv');
      const lines = saved.text.trimEnd().split('\r\n');
      expect(lines[0]).toContain('object,fibre,');
      expect(lines.slice(1).every((line) => line.startsWith('KQ-G2,'))).toBe(true);
    }),
  60_000,
);
