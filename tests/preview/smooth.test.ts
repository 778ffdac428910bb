/**
 * A table of more than 100,000 rows scrolls like a plain one of 1,000: frames
 * of both are timed in the same browser, one after the other, and compared.
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

const links = 350;
const fibres = 288;
/** Frames of the plain table that one of ours may take: the middle of many, on a machine that does other work too. */
const most = 3.5;
/** The first links are read; the others wait, and are as long. */
const read = 6;

function plan(): string {
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

/** Milliseconds between frames while the page scrolls by some 40 px a frame. */
function framesOf(page: Page, from: number): Promise<readonly number[]> {
  return page.evaluate(async (top) => {
    const frame = () => new Promise<number>((done) => requestAnimationFrame(done));
    window.scrollTo(0, top);
    await frame();
    const times: number[] = [];
    let before = await frame();
    for (let step = 1; step <= 60; step += 1) {
      window.scrollTo(0, top + step * 40);
      const now = await frame();
      times.push(now - before);
      before = now;
    }
    return times;
  }, from);
}

function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}

test('more than 100,000 rows scroll as smoothly as 1,000 of a plain table', async () => {
  const names = Array.from(
    { length: links },
    (_, index) => `KQ-${String(index + 1).padStart(3, '0')}`,
  );
  const { page, troubles } = await open(
    browser,
    { 'plan.lwl': plan() },
    { kept: { open: names, order: 'plan' } },
  );
  const plain = await browser.newPage({ viewport: { width: 1200, height: 900 } });
  try {
    const grid = page.locator('[role=treegrid]');
    await expect
      .poll(async () => Number(await grid.getAttribute('aria-rowcount')), { timeout: 60_000 })
      .toBeGreaterThan(100_000);
    const row = '<tr>'.concat('<td>KQ-001</td><td>pass</td><td>0.84</td>'.repeat(3), '</tr>');
    await plain.setContent(`<table>${row.repeat(1000)}</table>`);
    await plain.bringToFront();
    const ofPlain = middle(await framesOf(plain, 0));
    await page.bringToFront();
    const ofTable = middle(await framesOf(page, 400));
    const ofMiddle = middle(await framesOf(page, 1_200_000));
    expect(ofTable / ofPlain).toBeLessThan(most);
    expect(ofMiddle / ofPlain).toBeLessThan(most);
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
    await plain.close();
  }
}, 300_000);
