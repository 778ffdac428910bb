/**
 * A table of more than 100,000 rows scrolls like one of 1,000: what a frame
 * changes in the page is counted, since it is what a frame costs. How long
 * frames take is a matter of `npm run bench -- day`.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { open } from './host.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
}, 120_000);

afterAll(() => browser?.close(), 60_000);

/** Fibres of each link, each of which is a row. */
const fibres = 288;
/** The first links are read; the others wait, and are as long. */
const read = 6;
/** Steps of 40 px, one a frame. */
const steps = 60;
/** How many times what few rows change: values that arrive late are drawn once more. */
const most = 2;

function plan(links: number): string {
  const all = Array.from({ length: links }, (_, index) => {
    const name = `KQ-${String(index + 1).padStart(3, '0')}`;
    const link = `link ${name} {\n  fibres 1..${fibres}\n  connector LC\n  segment ${20 + index} m OM4\n  connector LC\n}\n`;
    if (index >= read) return link;
    const rows = Array.from(
      { length: fibres },
      (__, at) => `  ${at + 1} 0.${60 + ((at * 7) % 39)}`,
    );
    return `${link}\nreadings ${name} {\n  setup MM-1\n  tested 2026-03-14 09:05\n  values loss in dB\n  columns fibre, 850 nm A>B\n${rows.join('\n')}\n}\n`;
  });
  return `plan "Long" {\n  limits TIA-568.3-E\n  measure 850 nm for multimode\n  directions A>B\n  reference one-cord\n}\n\nsetup MM-1 {\n  reference one-cord\n  source "S-3" LED\n  meter "M-5" floor -60 dBm\n  launch encircled-flux\n  cord TC-1 launch LC OM4 reference-grade\n  cord TC-2 receive LC OM4 reference-grade verified 0.08 dB\n  taken 2026-03-14 08:10 850 nm -20.05 dBm\n}\n\n${all.join('\n')}`;
}

/** What the page alters while it scrolls on from a place: elements put in or taken out with all in them, and the others touched. */
async function changesOf(page: Page, from: number): Promise<number> {
  await page.evaluate((top) => window.scrollTo(0, top), from);
  // Rows in sight are there before they scroll on.
  await expect
    .poll(() =>
      page.evaluate(() => {
        const at = document.elementFromPoint(300, window.innerHeight / 2);
        return at?.closest('.row') !== null;
      }),
    )
    .toBe(true);
  return page.evaluate(
    async ({ top, count }) => {
      const frame = () => new Promise<number>((done) => requestAnimationFrame(done));
      const whole = (node: Node) =>
        node instanceof Element ? node.querySelectorAll('*').length + 1 : 1;
      const size = (records: readonly MutationRecord[]) =>
        records.reduce(
          (sum, { addedNodes, removedNodes, type }) =>
            type === 'childList'
              ? [...addedNodes, ...removedNodes].reduce((all, node) => all + whole(node), sum)
              : sum + 1,
          0,
        );
      let changes = 0;
      const add = (records: readonly MutationRecord[]) => {
        changes += size(records);
      };
      const observer = new MutationObserver(add);
      observer.observe(document, {
        ...{ attributes: true, characterData: true, childList: true, subtree: true },
      });
      for (let step = 1; step <= count; step += 1) {
        window.scrollTo(0, top + step * 40);
        await frame();
        await frame();
      }
      add(observer.takeRecords());
      observer.disconnect();
      return changes;
    },
    { top: from, count: steps },
  );
}

async function table(links: number) {
  const names = Array.from(
    { length: links },
    (_, index) => `KQ-${String(index + 1).padStart(3, '0')}`,
  );
  const kept = { open: names, order: 'plan' };
  const opened = await open(browser, { 'plan.lwl': plan(links) }, { kept });
  const grid = opened.page.locator('[role=treegrid]');
  await expect
    .poll(async () => Number(await grid.getAttribute('aria-rowcount')), { timeout: 60_000 })
    .toBeGreaterThan(links * fibres);
  return { ...opened, grid };
}

test('a frame of more than 100,000 rows changes no more of the page than one of 1,000', async () => {
  const few = await table(4);
  const { page, troubles, grid } = await table(350);
  try {
    const ofFew = await changesOf(few.page, 400);
    const ofTop = await changesOf(page, 400);
    const ofMiddle = await changesOf(page, 1_200_000);
    expect(ofFew).toBeGreaterThan(steps);
    expect(ofTop / ofFew).toBeLessThan(most);
    expect(ofMiddle / ofFew).toBeLessThan(most);
    expect(await page.evaluate(() => document.querySelectorAll('*').length)).toBeLessThan(4000);
    // The rows in sight are there, and the keys go on from them.
    await expect.poll(() => page.locator('.virtual > .row.fibre').count()).toBeGreaterThan(20);
    await grid.focus();
    await page.keyboard.press('End');
    const rows = await grid.getAttribute('aria-rowcount');
    await expect
      .poll(() => page.locator('.virtual > .row').last().getAttribute('aria-rowindex'))
      .toBe(rows);
    // The browser's own search finds what exists; the page's finds what is there.
    await page.keyboard.press('f');
    await page.keyboard.type('KQ-349');
    await expect
      .poll(() => page.locator('.virtual > .row.link .name .mono').allInnerTexts(), {
        timeout: 30_000,
      })
      .toEqual(['KQ-349']);
    expect(troubles).toEqual([]);
  } finally {
    await page.close();
    await few.page.close();
  }
}, 300_000);
