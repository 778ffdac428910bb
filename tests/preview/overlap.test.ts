/** Every drawing of every example, laid out by a real browser: no text lies over another or is cut off. */
import { globSync } from 'node:fs';
import { dirname } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../examples/open.ts';
import { launchChromium } from '../support/chromium.ts';
import { drawingsOf } from './drawings.ts';
import { overlapsOn } from './overlaps.ts';

let browser: Browser;

beforeAll(async () => {
  browser = await launchChromium();
}, 120_000);

afterAll(() => browser?.close());

async function overlapsIn(html: string, width: number): Promise<string[]> {
  const page = await browser.newPage({ viewport: { width, height: 900 } });
  try {
    await page.setContent(html);
    expect(await page.locator('.link-section').count()).toBeGreaterThan(0);
    return await overlapsOn(page);
  } finally {
    await page.close();
  }
}

/** Folders that hold a plan. */
const examples = [...new Set(globSync('*/*.lwl', { cwd: root }).map(dirname))].sort();

describe.each(examples)('drawings of %s', (example) => {
  test.each([1240, 800, 420])('at %i px no text meets another', async (width) => {
    expect(await overlapsIn(drawingsOf(example, width), width)).toEqual([]);
  });
});

test('two texts at one place, one that is cut off, and one under a line are told', async () => {
  const drawing =
    '<section class="link-section"><p class="drawing-head">L</p><svg class="drawing" width="200" height="40">' +
    '<text x="0" y="20">one</text><text x="4" y="20">two</text><text x="190" y="20">three</text>' +
    '<text x="60" y="20">four</text><path class="leader" stroke="black" d="M70 2V38"/></svg></section>';
  expect(await overlapsIn(drawing, 420)).toEqual([
    'L: "one" over "two"',
    'L: "three" outside',
    'L: a line through "four"',
  ]);
});
