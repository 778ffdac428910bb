/** The results page in a real browser, asked and answered by the real project: table, keys, filter, widths, drawing. */
import { mkdirSync, readFileSync } from 'node:fs';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { defaultSettings } from '../../server/src/features/feature.ts';
import { results } from '../../server/src/features/results.ts';
import { judge, planUri } from '../support/judge.ts';
import { findChromium } from '../workbench/host/chromium.ts';

const folder = 'examples/kestrel-quay-terminal';
const names = ['cables', 'channels', 'links-multimode', 'links-single-mode', 'setups'].map(
  (name) => `${name}.lwl`,
);
const days = ['16', '17', '18', '19', '24'].map((day) => `readings-2026-03-${day}.lwl`);
const files = Object.fromEntries(
  [...names, ...days].map((name) => [name, readFileSync(`${folder}/${name}`, 'utf8')]),
);

/** Colours of an editor, as it hands them to a page. */
const themes = {
  dark: '--vscode-editor-background:#1f1f1f;--vscode-editor-foreground:#cccccc;--vscode-editorError-foreground:#f14c4c;--vscode-editorWarning-foreground:#cca700;--vscode-editorInfo-foreground:#3794ff;--vscode-charts-purple:#b180d7;--vscode-textLink-foreground:#4daafc;--vscode-focusBorder:#0078d4;--vscode-list-hoverBackground:#2a2d2e',
  light:
    '--vscode-editor-background:#ffffff;--vscode-editor-foreground:#3b3b3b;--vscode-editorError-foreground:#e51400;--vscode-editorWarning-foreground:#bf8803;--vscode-editorInfo-foreground:#0063d3;--vscode-charts-purple:#652d90;--vscode-textLink-foreground:#005fb8;--vscode-focusBorder:#005fb8;--vscode-list-hoverBackground:#f2f2f2',
} as const;

let browser: Browser;

beforeAll(async () => {
  mkdirSync('artefacts', { recursive: true });
  browser = await chromium.launch({
    executablePath: findChromium(),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--no-first-run',
    ],
  });
}, 120_000);

afterAll(() => browser?.close());

interface Opened {
  readonly page: Page;
  /** What the page told the editor. */
  readonly told: { kind: string; uri?: string }[];
}

/** The page as the editor frames it; its questions go to the project through the server's own feature. */
async function open(
  theme: keyof typeof themes,
  width: number,
  texts = files,
  plan = readFileSync(`${folder}/terminal.lwl`, 'utf8'),
): Promise<Opened> {
  const { project } = judge({ 'plan.lwl': plan, ...texts });
  const session = { project, settings: defaultSettings, snippets: true };
  const page = await browser.newPage({ viewport: { width, height: 900 } });
  const told: Opened['told'] = [];
  await page.exposeFunction(
    'tellEditor',
    (message: { kind: string; id?: number; question?: unknown }) => {
      told.push(message);
      if (message.kind !== 'ask') return null;
      const result = results.answer(session, { uri: planUri, question: message.question });
      return { kind: 'answer', id: message.id, result };
    },
  );
  await page.addInitScript(() => {
    let state: unknown;
    const say = (window as unknown as { tellEditor(message: unknown): Promise<unknown> })
      .tellEditor;
    Object.assign(window, {
      acquireVsCodeApi: () => ({
        postMessage: async (message: unknown) => {
          const answer = await say(message);
          if (answer) window.postMessage(answer, '*');
        },
        setState: (next: unknown) => {
          state = next;
        },
        getState: () => state,
      }),
    });
  });
  await page.route('http://page.invalid/**', (route) =>
    route.fulfill({
      contentType: 'text/html; charset=utf-8',
      headers: {
        'content-security-policy': "default-src 'none'; script-src 'nonce-n'; style-src 'nonce-n'",
      },
      body: `<!DOCTYPE html><html lang="en" class="theme"><head><meta charset="utf-8"><style nonce="n">.theme{${themes[theme]}}${readFileSync('dist/preview.css', 'utf8')}</style></head><body class="vscode-${theme}" data-plan="${planUri}"><div id="page"></div><script nonce="n">${readFileSync('dist/preview.js', 'utf8').replaceAll('</script', '<\\/script')}</script></body></html>`,
    }),
  );
  await page.goto('http://page.invalid/');
  await page.locator('.row.link').first().waitFor();
  return { page, told };
}

describe('the results page', () => {
  test('opens on what asks for a look, the worst first, and folds what does not', async () => {
    const { page } = await open('dark', 1240);
    expect(await page.locator('.row.link .name .mono').first().innerText()).toBe('KQ-G2');
    expect(await page.locator('.row.fold').first().innerText()).toContain('links');
    expect(await page.locator('.worst-figure').innerText()).toMatch(/^−0\.83/u);
    await page.screenshot({ path: 'artefacts/page-dark-wide.png' });
    await page.close();
  });

  test('keys open a link, walk its rows, and show the line in the text', async () => {
    const { page, told } = await open('light', 1240);
    await page.locator('[role=treegrid]').focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    await page.locator('.row.fibre').first().waitFor();
    await page.keyboard.press('n');
    await expect.poll(() => page.locator('.row.active').count()).toBe(1);
    await page.keyboard.press('Enter');
    await expect.poll(() => told.some(({ kind }) => kind === 'show')).toBe(true);
    expect(await page.locator('.row.limits').first().innerText()).toContain('components');
    await page.screenshot({ path: 'artefacts/page-light-open.png' });
    await page.close();
  });

  test('a tally toggle and the search take rows away and say how many are left', async () => {
    const { page } = await open('dark', 1240);
    await page.locator('button.tally-entry', { hasText: 'fail' }).first().click();
    await expect.poll(() => page.locator('.tools').innerText()).toContain('fibres shown');
    await page.locator('input[type=search]').fill('KQ-PIER-2');
    await expect
      .poll(() => page.locator('.row.link .name .mono').allInnerTexts())
      .toEqual(['KQ-PIER-2']);
    await page.close();
  });

  test('a screen reader hears each fibre whole, and the grid counts rows that are not there', async () => {
    const { page } = await open('dark', 1240);
    const grid = page.locator('[role=treegrid]');
    expect(Number(await grid.getAttribute('aria-rowcount'))).toBeGreaterThan(10);
    await grid.focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    await page.locator('.row.fibre').first().waitFor();
    expect(await page.locator('.row.fibre [role=gridcell]').first().textContent()).toMatch(
      /^fibre 1, /u,
    );
    await page.close();
  });

  test.each([
    ['middle', 800],
    ['narrow', 420],
  ] as const)('is laid out for a %s page without scrolling sideways', async (layout, width) => {
    const { page } = await open('dark', width);
    await page.locator('[role=treegrid]').focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    await page.locator('.row.fibre').first().waitFor();
    expect(await page.locator('body').getAttribute('class')).toContain(layout);
    const sideways = await page.evaluate(
      () => document.documentElement.scrollWidth - window.innerWidth,
    );
    expect(sideways).toBeLessThanOrEqual(0);
    // The limit is one line through rows of links and of fibres alike.
    const strips = await page
      .locator('.row.link .strip, .row.fibre .strip')
      .evaluateAll((all) => all.map((strip) => Math.round(strip.getBoundingClientRect().left)));
    expect(new Set(strips).size).toBe(1);
    await page.screenshot({ path: `artefacts/page-dark-${layout}.png` });
    await page.close();
  });

  test('draws the chosen link with its sum in words', async () => {
    const { page } = await open('light', 1240);
    await page.locator('#link').scrollIntoViewIfNeeded();
    expect(await page.locator('.drawing-list').textContent()).toContain('LC pair');
    expect(await page.locator('.drawing-sum').textContent()).toContain('2.15');
    await page.locator('[role=radio]', { hasText: '1300 nm' }).click();
    await expect.poll(() => page.locator('.drawing-sum').textContent()).toContain('1.98');
    await page.locator('#link').screenshot({ path: 'artefacts/page-light-drawing.png' });
    await page.close();
  });

  test('says what a plan without links wants', async () => {
    const { project } = judge('plan "Empty" {\n  limits      TIA-568.3-E\n}\n');
    const answer = results.answer(
      { project, settings: defaultSettings, snippets: true },
      { uri: planUri, question: { ask: 'findings', from: 0, to: 10 } },
    );
    expect(answer).toMatchObject({ total: 0 });
  });
});
