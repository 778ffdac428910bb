/**
 * The results page under the rules of axe-core, which follow WCAG 2.2: every
 * section, a link opened, in each of the editor's default looks, wide and narrow.
 */
import axe, { type AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { open, terminal, toSection } from './host.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
}, 120_000);

afterAll(() => browser?.close());

/** `color-contrast: .quiet`, one line a rule and element. */
async function violationsOn(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')} ${failureSummary}`),
  );
}

describe.each([1240, 420])('at %i px', (width) => {
  test.each(['dark', 'light', 'high contrast dark', 'high contrast light'] as const)(
    'nothing stands in the way, %s',
    async (theme) => {
      const { page } = await open(browser, terminal, {
        theme,
        width,
        kept: { open: ['KQ-G2'], openFibres: ['fibre\nKQ-G2\n3'], find: 'KQ-G' },
      });
      try {
        await toSection(page, 'charts');
        await page.locator('#charts figure').first().waitFor();
        await page.locator('#charts .goto', { hasText: 'as table' }).first().click();
        await toSection(page, 'coverage');
        await page.locator('.matrix-grid').first().waitFor();
        expect(await violationsOn(page)).toEqual([]);
      } finally {
        await page.close();
      }
    },
    60_000,
  );
});
