/**
 * The page of changes in a real browser: read, opened, gone through by keys, in
 * every look and width, under the rules of axe-core (WCAG 2.2); and on paper.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
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
  test.each(
    width === 800
      ? (['light'] as const)
      : (['dark', 'light', 'high contrast dark', 'high contrast light'] as const),
  )(
    'nothing stands in the way, %s',
    async (theme) => {
      const { page, troubles } = await openChanges(browser, terminal, changedTerminal, {
        theme,
        width,
      });
      try {
        const picture = `artefacts/changes-${width}-${theme.replaceAll(' ', '-')}.png`;
        await page.screenshot({ path: picture, fullPage: true });
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

describe('the page of changes', () => {
  let opened: Awaited<ReturnType<typeof openChanges>>;
  let page: Page;
  const text = (selector: string) => page.locator(selector).first().innerText();

  beforeAll(async () => {
    opened = await openChanges(browser, terminal, { ...changedTerminal });
    page = opened.page;
  }, 60_000);
  afterAll(() => page?.close());

  test('says what it comes to, and asks first for what wants an answer', async () => {
    expect(await text('h1')).toBe('Changes since main');
    expect(await text('.changes-sentences')).toMatch(/\d+ of [\d,]+ readings change verdict: /u);
    const places = await page.evaluate(() =>
      ['asks', 'changes', 'again'].map(
        (id) => document.getElementById(id)?.getBoundingClientRect().top ?? -1,
      ),
    );
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places[0]).toBeGreaterThan(0);
    expect(await page.locator('.change').last().innerText()).toContain('text only');
  });

  test('counts in the matrix what the head says', async () => {
    const cells = await page
      .locator('.verdict-matrix tbody td.strong')
      .evaluateAll((all) => all.map((cell) => Number(cell.textContent?.replace(',', ''))));
    const moved = Number((await text('.changes-sentences')).match(/^\d+/u)?.[0]);
    expect(cells.reduce((sum, each) => sum + each, 0)).toBe(moved);
  });

  test('draws one limit line through all changes, and every margin on its side of it', async () => {
    expect(await page.locator('.changes-body .limit-line').count()).toBe(1);
    const body = await page.locator('.changes-body').boundingBox();
    const line = await page.locator('.changes-body .limit-line').boundingBox();
    expect(line!.height).toBeGreaterThan(body!.height - 2);
    const failing = page.locator('.effect', { hasText: 'pass to fail' }).first();
    const was = await failing.locator('.line.expected').boundingBox();
    const now = await failing.locator('.tone-fail.line').first().boundingBox();
    expect(was!.x).toBeLessThan(line!.x);
    expect(now!.x).toBeGreaterThan(line!.x);
  });

  test('opens the effects that are not shown, by keyboard', async () => {
    const change = page.locator('.change', { has: page.locator('.effects-more') }).first();
    const more = change.locator('.effects-more button');
    const before = await change.locator('.effect').count();
    expect(before).toBe(5);
    await more.focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => change.locator('.effect').count()).toBeGreaterThan(before);
    expect(await more.getAttribute('aria-expanded')).toBe('true');
  });

  test('goes from change to change by arrow keys', async () => {
    const at = () =>
      page.evaluate(() =>
        document.activeElement?.closest('[data-change]')?.getAttribute('data-change'),
      );
    await page.locator('[data-change="1"] button').first().focus();
    await page.keyboard.press('ArrowDown');
    expect(await at()).toBe('2');
    await page.keyboard.press('ArrowUp');
    expect(await at()).toBe('1');
  });

  test('leads to the text as it is, and as it was', async () => {
    const change = page.locator('.change', { hasText: 'was 0.78 dB, now 3.02 dB' });
    const [is, was] = await change.locator('.cause-where .goto').all();
    await is?.click();
    await was?.click();
    const uri = 'file:///site/readings-2026-03-16.lwl';
    expect(opened.told.slice(-2)).toMatchObject([
      { kind: 'show', uri },
      { kind: 'was', uri },
    ]);
  });

  test('marks the change that the cursor stands in', async () => {
    const line = changedTerminal['readings-2026-03-16.lwl']!.split('\n').findIndex((each) =>
      each.includes('3.02'),
    );
    await opened.say({
      kind: 'cursor',
      uri: 'file:///site/readings-2026-03-16.lwl',
      position: { line, character: 4 },
    });
    await expect.poll(() => page.locator('.change.at-cursor').count()).toBe(1);
    expect(await text('.change.at-cursor')).toContain('now 3.02 dB');
  });

  test('follows what is typed', async () => {
    const uri = 'file:///site/readings-2026-03-16.lwl';
    const now = changedTerminal['readings-2026-03-16.lwl']!;
    opened.project.open(uri, 1, now.replace('3.02', '2.71'));
    await opened.say({ kind: 'changed', root: '', objects: [] });
    await expect.poll(() => text('.changes-list')).toContain('now 2.71 dB');
  });

  test('keeps what it shows when the server stops, and says so', async () => {
    await opened.say({ kind: 'server', running: false });
    await expect.poll(() => text('.status')).toMatch(/^Changes are from .* has stopped/u);
    expect(await page.locator('.change').count()).toBeGreaterThan(3);
  });
});

describe('changes as one file, made by the shipped command', () => {
  const folder = mkdtempSync(join(tmpdir(), 'linkwright-changes-'));
  const file = join(folder, 'changes.html');
  const asked: string[] = [];
  let page: Page;

  beforeAll(async () => {
    for (const [side, files] of [
      ['before', terminal],
      ['after', changedTerminal],
    ] as const) {
      mkdirSync(join(folder, side));
      for (const [name, text] of Object.entries(files))
        writeFileSync(join(folder, side, name), text);
    }
    const run = spawnSync(
      process.execPath,
      [
        join(process.cwd(), 'dist/linkwright.cjs'),
        ...['compare', 'before', 'after', '--as-of', '2026-06-01'],
        ...['--format', 'html', '--out', file],
      ],
      { encoding: 'utf8', cwd: folder },
    );
    expect(run.stderr).toBe('');
    expect(run.status).toBe(1);
    page = await browser.newPage({ viewport: { width: 1000, height: 900 } });
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(pathToFileURL(file).href);
  }, 60_000);
  afterAll(async () => {
    await page?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test('asks for nothing but itself and runs no script', () => {
    expect(asked).toEqual([pathToFileURL(file).href]);
    expect(readFileSync(file, 'utf8')).not.toMatch(/<script|<link|@import|url\(|https?:/u);
  });

  test('holds every effect, five of a change open, places in words, and the cautions', async () => {
    expect(await page.locator('.effect').count()).toBeGreaterThan(30);
    const more = page.locator('.effects-more details').first();
    expect(await more.locator('.effect').first().isVisible()).toBe(false);
    await more.locator('summary').click();
    expect(await more.locator('.effect').first().isVisible()).toBe(true);
    const [head, row] = [
      page.locator('.effect-strip').first(),
      more.locator('.effect-strip').first(),
    ];
    const [above, below] = [await head.boundingBox(), await row.boundingBox()];
    expect(below!.x).toBeCloseTo(above!.x, 0);
    expect(below!.width).toBeCloseTo(above!.width, 0);
    await more.locator('summary').click();
    expect(await page.locator('button').count()).toBe(0);
    expect(await page.locator('.cautions').innerText()).toContain('never look into a fibre');
    expect(await page.locator('.changes-list').innerText()).toContain(
      'readings-2026-03-16.lwl, line 16',
    );
  });

  test('is black on white on paper, nothing cut off', async () => {
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 680, height: 960 });
    await page.screenshot({ path: 'artefacts/changes-print.png', fullPage: true });
    const colours = await page.evaluate(() =>
      ['.effect-verdict .strong', '.cause-top .text-fail', 'h1'].map((each) => {
        const found = document.querySelector(each);
        return found ? getComputedStyle(found).color : '';
      }),
    );
    for (const colour of colours) expect(colour).toMatch(/^(rgb\(0, 0, 0\)|color\(srgb 0 0 0\))$/u);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(680);
    await page.pdf({ path: 'artefacts/changes-print.pdf', format: 'A4' });
  });
});
