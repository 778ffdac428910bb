/** The page of changes in a real browser: read, opened, gone through by keys, in every look and width. */
import { mkdirSync } from 'node:fs';
import axe, { type AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { changedTerminal, openChanges } from './changed.ts';
import { terminal } from './host.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
  mkdirSync('artefacts', { recursive: true });
}, 120_000);

afterAll(() => browser?.close());

async function violationsOn(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: { run(): Promise<AxeResults> } }).axe.run(),
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')} ${failureSummary}`),
  );
}

describe.each([1200, 800, 420])('at %i px', (width) => {
  test.each(['dark', 'light', 'high contrast dark', 'high contrast light'] as const)(
    'nothing stands in the way, %s',
    async (theme) => {
      const { page, troubles } = await openChanges(browser, terminal, changedTerminal, {
        theme,
        width,
      });
      try {
        await page.screenshot({
          path: `artefacts/changes-${width}-${theme.replaceAll(' ', '-')}.png`,
          fullPage: true,
        });
        expect(await violationsOn(page)).toEqual([]);
        expect(troubles).toEqual([]);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        expect(wide).toBeLessThanOrEqual(width);
      } finally {
        await page.close();
      }
    },
    60_000,
  );
});
