/** The results page in a real browser, asked and answered by the real project. */
import { mkdirSync, readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { planUri } from '../support/judge.ts';
import { type OpenedPage, open, terminal } from './host.ts';
import { type ThemeName, themes } from './themes.ts';

let browser: Browser;

beforeAll(async () => {
  mkdirSync('artefacts', { recursive: true });
  browser = await launchChromium();
}, 120_000);

afterAll(() => browser?.close());

/** Opens the ferry terminal, closes it afterwards, and lets no error of the page or its policy pass. */
async function withPage(
  options: Parameters<typeof open>[2],
  use: (opened: OpenedPage) => Promise<void>,
  files = terminal,
): Promise<void> {
  const opened = await open(browser, files, options);
  try {
    await use(opened);
    expect(opened.troubles).toEqual([]);
  } finally {
    await opened.page.close();
  }
}

const linkNames = (page: Page) => page.locator('.virtual > .row.link .name .mono').allInnerTexts();
const activeRow = (page: Page) => page.locator('.virtual > .row.active [role=gridcell]');
const lineUri = 'file:///site/readings-2026-03-17.lwl';
/** `KQ-G2`, fibre 3: 2.94, 2.98, 2.41 and 2.38, far over its limits. */
const lineOfFibre3 = terminal['readings-2026-03-17.lwl']!.split('\n').findIndex((line) =>
  /^\s+KQ-G2\s+3\s+2\.94/u.test(line),
);

describe('the results page', () => {
  test('opens on what asks for a look, the worst first, and folds what does not', () =>
    withPage({}, async ({ page }) => {
      expect((await linkNames(page))[0]).toBe('KQ-G2');
      expect(await page.locator('.row.fold').first().innerText()).toContain('nothing in them asks');
      expect(await page.locator('.worst-figure').innerText()).toMatch(/^−0\.83 dB/u);
      expect(await page.locator('.tally-entry').allInnerTexts()).toEqual([
        expect.stringMatching(/^\d+ fail$/u),
        expect.stringMatching(/^\d+ marginal-fail$/u),
        expect.stringMatching(/^\d+ invalid$/u),
        expect.stringMatching(/^\d+ stale$/u),
        expect.stringMatching(/^\d+ untested$/u),
        expect.stringMatching(/^\d+ not judged$/u),
        expect.stringMatching(/^\d+ conceded$/u),
        expect.stringMatching(/^\d+ marginal-pass$/u),
        expect.stringMatching(/^\d+ pass$/u),
      ]);
    }));

  test('keys open a link, walk its rows, go back to it, and show the line in the text', () =>
    withPage({ theme: 'light' }, async ({ page, told }) => {
      await page.locator('[role=treegrid]').focus();
      await expect.poll(() => activeRow(page).textContent()).toMatch(/^KQ-G2, fail/u);
      await page.keyboard.press('ArrowRight');
      await page.locator('.row.fibre').first().waitFor();
      await page.keyboard.press('n');
      await expect.poll(() => activeRow(page).textContent()).toMatch(/^fibre 3, fail/u);
      await page.keyboard.press('Enter');
      await expect
        .poll(() => told.flatMap((each) => (each.kind === 'show' ? [each.range.start.line] : [])))
        .toContain(lineOfFibre3);
      await page.keyboard.press('w');
      await expect.poll(() => activeRow(page).textContent()).toMatch(/^850 nm: components limit/u);
      await page.keyboard.press('ArrowLeft');
      await expect.poll(() => activeRow(page).textContent()).toMatch(/^KQ-G2, fail/u);
      await page.keyboard.press('ArrowLeft');
      await expect.poll(() => page.locator('.row.fibre').count()).toBe(0);
    }));

  test('goes to the next reading to make, wherever it is', () =>
    withPage({}, async ({ page }) => {
      await page.locator('[role=treegrid]').focus();
      await page.keyboard.press('m');
      await expect.poll(() => activeRow(page).textContent()).toContain('to test');
      expect(await page.locator('.virtual > .row.active .blank').count()).toBeGreaterThan(0);
    }));

  test('a tally toggle and the search take rows away and say how many are left', () =>
    withPage({}, async ({ page }) => {
      const tools = page.locator('.tools');
      await page.locator('button.tally-entry', { hasText: /^\d+ fail$/u }).click();
      await expect.poll(() => tools.innerText()).toMatch(/\d+ of \d+ fibres shown/u);
      await page.locator('input[type=search]').fill('KQ-PIER-2');
      await expect.poll(() => linkNames(page)).toEqual(['KQ-PIER-2']);
      await page.locator('input[type=search]').fill('nowhere');
      await expect.poll(() => page.locator('#results .status').innerText()).toContain('nowhere');
      await page.locator('.tools .goto').click();
      await expect.poll(async () => (await linkNames(page)).length).toBeGreaterThan(10);
    }));

  test('a screen reader hears each fibre whole, and the grid counts rows that are not there', () =>
    withPage({ kept: { open: ['KQ-G2'] } }, async ({ page }) => {
      const grid = page.locator('[role=treegrid]');
      expect(Number(await grid.getAttribute('aria-rowcount'))).toBeGreaterThan(20);
      const fibre = page.locator('.row.fibre').nth(2);
      expect(await fibre.locator('[role=gridcell]').textContent()).toBe(
        'fibre 3, fail, 850 nanometres A to B 2.94, B to A 2.98, limit 2.15, over by 0.83, expected 1.10; ' +
          '1300 nanometres A to B 2.41, B to A 2.38, limit 1.98, over by 0.43, expected 0.84',
      );
      expect(await fibre.getAttribute('aria-level')).toBe('2');
      await grid.focus();
      await page.keyboard.press('ArrowDown');
      await expect
        .poll(async () =>
          page.locator(`#${await grid.getAttribute('aria-activedescendant')}`).count(),
        )
        .toBe(1);
    }));
});

describe('laid out by its width', () => {
  test.each([
    ['wide', 1200, 'dark'],
    ['middle', 800, 'light'],
    ['narrow', 420, 'light'],
    ['narrow', 420, 'high contrast dark'],
    ['wide', 1200, 'high contrast light'],
  ] as const)('%s at %i px, %s', (layout, width, theme: ThemeName) =>
    withPage({ width, theme, kept: { open: ['KQ-G2'] } }, async ({ page }) => {
      await page.locator('.drawing').waitFor();
      expect(await page.locator('body').getAttribute('class')).toContain(layout);
      const sideways = await page.evaluate(
        () => document.documentElement.scrollWidth - window.innerWidth,
      );
      expect(sideways).toBeLessThanOrEqual(0);
      // Every strip stands on the ground that holds the one limit line.
      const edges = await page
        .locator('.virtual > .row .strip, .table-body > .under-rows .ground')
        .evaluateAll((all) => all.map((each) => Math.round(each.getBoundingClientRect().left)));
      expect(edges.length).toBeGreaterThan(10);
      expect(new Set(edges).size).toBe(1);
      await page.screenshot({ path: `artefacts/page-${theme.replaceAll(' ', '-')}-${layout}.png` });
    }),
  );
});

describe('colours', () => {
  const poor = { ...themes.light, ink: '#8a8a8a', fail: '#ffb0a8', warning: '#f2dd8c' };

  test('are raised on a theme that would not reach the contrast for text and marks', () =>
    withPage({ colours: poor }, async ({ page }) => {
      const shares = await page.evaluate(() => {
        const style = getComputedStyle(document.body);
        return ['--share-fail-text', '--share-marginal-text', '--share-fail', '--share-quiet'].map(
          (share) => Number.parseFloat(style.getPropertyValue(share)),
        );
      });
      const [failText = 0, marginalText = 0, fail = 0, quiet = 0] = shares;
      expect(failText).toBeLessThan(70);
      expect(marginalText).toBeLessThan(56);
      expect(fail).toBeLessThan(100);
      expect(quiet).toBeGreaterThan(74);
    }));

  test('stay as they are mixed on a default theme', () =>
    withPage({ theme: 'dark' }, async ({ page }) => {
      expect(await page.locator('body').getAttribute('style')).toBeFalsy();
    }));

  test('give way to the system’s where it decides them', () =>
    withPage({ kept: { open: ['KQ-G2'] } }, async ({ page }) => {
      await page.emulateMedia({ forcedColors: 'active' });
      const strokes = await page
        .locator('.row.link .mark path')
        .evaluateAll((all) => all.map((each) => getComputedStyle(each).stroke));
      const text = await page.evaluate(() => getComputedStyle(document.body).color);
      expect(new Set(strokes)).toEqual(new Set([text]));
      await page.screenshot({ path: 'artefacts/page-forced-colours.png' });
    }));
});

describe('the drawing', () => {
  test('says its sum in words and changes with the wavelength, by pointer and by key', () =>
    withPage({ theme: 'light' }, async ({ page }) => {
      const sum = page.locator('.drawing-sum');
      expect(await page.locator('.drawing-list li').allTextContents()).toEqual([
        expect.stringMatching(/^[\w/:-]+, LC pair, most allowed 0\.75 dB, expected 0\.35 dB$/u),
        expect.stringMatching(/^C-200, OM4, 86 m/u),
        expect.stringMatching(/^closure at the gate line, fusion splice, most allowed 0\.30 dB/u),
        expect.stringMatching(/^OM4, 32 m/u),
        expect.stringMatching(/^[\w/:-]+, LC pair, most allowed 0\.75 dB, expected 0\.35 dB$/u),
      ]);
      expect(await sum.textContent()).toContain('Sum 2.15 dB, components');
      await page.locator('[role=radio]', { hasText: '1300 nm' }).click();
      await expect.poll(() => sum.textContent()).toContain('Sum 1.98 dB, components');
      await page.keyboard.press('ArrowLeft');
      await expect.poll(() => sum.textContent()).toContain('Sum 2.15 dB, components');
      await page.locator('#link').screenshot({ path: 'artefacts/drawing-wide.png' });
    }));

  test('runs down a narrow page', () =>
    withPage({ width: 420 }, async ({ page }) => {
      const box = await page.locator('.drawing').boundingBox();
      const room = await page.locator('.drawing-frame').evaluate((frame) => frame.clientWidth);
      expect(box?.width).toBeLessThanOrEqual(room);
      expect(await page.locator('.drawing').textContent()).toContain('measured at B');
      await page.locator('#link').screenshot({ path: 'artefacts/drawing-narrow.png' });
    }));
});

describe('beside the text', () => {
  test('marks the row of the cursor and takes no focus', () =>
    withPage({ kept: { open: ['KQ-G2'] } }, async ({ page, say }) => {
      await say({ kind: 'cursor', uri: lineUri, position: { line: lineOfFibre3, character: 3 } });
      await expect
        .poll(() => page.locator('.virtual > .row.at-cursor [role=gridcell]').textContent())
        .toMatch(/^fibre 3,/u);
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('BODY');
    }));

  test('compares what was typed, and waits with its verdict until the number is whole', () =>
    withPage({ theme: 'light' }, async ({ page, project, say }) => {
      const before = terminal['readings-2026-03-17.lwl']!;
      const typedLine = before.split('\n')[lineOfFibre3]!;
      const at = typedLine.indexOf('2.94');
      const move = (character: number) =>
        say({ kind: 'cursor', uri: lineUri, position: { line: lineOfFibre3, character } });
      const typed = page.locator('.typed');
      await move(at + 5);
      await expect.poll(() => typed.innerText()).toContain('0.79 dB over the limit');
      expect(await typed.innerText()).toContain('the others lie at');

      project.open(lineUri, 1, before);
      project.change(lineUri, 2, [
        {
          range: {
            start: { line: lineOfFibre3, character: at },
            end: { line: lineOfFibre3, character: at + 4 },
          },
          text: '0.9',
        },
      ]);
      await move(at + 3);
      await say({ kind: 'changed', root: planUri, objects: ['KQ-G2'] });
      await page.locator('.typed-strip.inside').waitFor();
      await expect.poll(() => typed.locator('.typed-line').innerText()).toContain('0.90');
      expect(await typed.locator('.typed-line').innerText()).toContain('fail');

      await move(at + 4);
      await expect.poll(() => typed.innerText()).toContain('inside the limit');
      expect(await typed.locator('.typed-line').innerText()).toContain('pass');
      await page.screenshot({ path: 'artefacts/page-typed.png' });
    }));

  test('keeps the focused row by its name while rows move', () =>
    withPage({ kept: { open: ['KQ-G2'] } }, async ({ page, project, say }) => {
      await page.locator('[role=treegrid]').focus();
      await page.keyboard.press('n');
      await expect.poll(() => activeRow(page).textContent()).toMatch(/^fibre 3, fail/u);
      const before = terminal['readings-2026-03-17.lwl']!;
      project.open(lineUri, 1, before.replace('2.94', '0.94').replace('2.98', '0.98'));
      await say({ kind: 'changed', root: planUri, objects: ['KQ-G2'] });
      await expect
        .poll(() => activeRow(page).textContent())
        .toMatch(/^fibre 3, .*A to B 0\.94, B to A 0\.98/u);
    }));

  test('hands a finding’s fix to the editor', () =>
    withPage(
      {},
      async ({ page, told }) => {
        await page.locator('.finding .goto.underlined').first().click();
        await expect.poll(() => told.some(({ kind }) => kind === 'edit')).toBe(true);
        const edit = told.find((each) => each.kind === 'edit');
        expect(edit?.edits[0]).toMatchObject({ uri: planUri, text: expect.any(String) });
      },
      { 'plan.lwl': readFileSync('examples/mistakes/mistakes.lwl', 'utf8') },
    ));

  test('says since when it is old once the server has stopped, and offers to start it again', () =>
    withPage({}, async ({ page, say, silence, told }) => {
      silence();
      await say({ kind: 'changed', root: planUri, objects: [] });
      await expect
        .poll(() => page.locator('p.status').first().innerText())
        .toMatch(/^Results are from \d\d:\d\d; the language server has stopped\. Restart$/u);
      expect((await linkNames(page)).length).toBeGreaterThan(0);
      await page.getByRole('button', { name: 'Restart' }).click();
      await expect
        .poll(() => told.at(-1))
        .toEqual({ kind: 'command', command: 'linkwright.restartServer' });
    }));

  test('says what a plan without links wants', () =>
    withPage(
      {},
      async ({ page }) => {
        expect(await page.locator('p.status').innerText()).toContain('No links yet.');
      },
      { 'plan.lwl': 'plan "Empty" {\n  limits      TIA-568.3-E\n}\n' },
    ));
});

/** A plan of many links that all ask for a look, so that none is folded. */
function longPlan(links: number): string {
  const many = Array.from({ length: links }, (_, index) => {
    const name = `KQ-${String(index + 1).padStart(4, '0')}`;
    return `link ${name} {\n  fibres 1..4\n  connector LC\n  segment ${20 + (index % 90)} m OM4\n  connector LC\n}\n\nreadings ${name} {\n  setup MM-1\n  tested 2026-03-14 09:05\n  values loss in dB\n  columns fibre, 850 nm A>B\n  1 0.9${index % 10}\n  2 2.9${index % 10}\n  3 0.8${index % 10}\n  4 -\n}\n`;
  });
  return `plan "Long" {\n  limits TIA-568.3-E\n  measure 850 nm for multimode\n  directions A>B\n  reference one-cord\n  uncertainty 0.15 dB\n}\n\nsetup MM-1 {\n  reference one-cord\n  source "S-3" LED\n  meter "M-5" floor -60 dBm\n  launch encircled-flux\n  cord TC-1 launch LC OM4 reference-grade\n  cord TC-2 receive LC OM4 reference-grade verified 0.08 dB\n  taken 2026-03-14 08:10 850 nm -20.05 dBm\n}\n\n${many.join('\n')}`;
}

describe('a long table', () => {
  const links = 600;
  const names = Array.from(
    { length: links },
    (_, index) => `KQ-${String(index + 1).padStart(4, '0')}`,
  );

  test('holds few elements, shows its last row, and keeps the opened link in sight', () =>
    withPage(
      { kept: { open: names, order: 'name' } },
      async ({ page }) => {
        const grid = page.locator('[role=treegrid]');
        // Each link: itself, a head, four fibres, its limits.
        await expect.poll(() => grid.getAttribute('aria-rowcount')).toBe(String(links * 7));
        const elements = () => page.evaluate(() => document.querySelectorAll('#results *').length);
        expect(await elements()).toBeLessThan(2000);
        await grid.focus();
        await page.keyboard.press('End');
        await expect
          .poll(() => page.locator('.virtual > .row.limits').last().getAttribute('aria-rowindex'))
          .toBe(String(links * 7));
        await page.keyboard.press('ArrowUp');
        await expect.poll(() => activeRow(page).textContent()).toMatch(/^fibre 4, untested/u);
        expect(await elements()).toBeLessThan(2000);
        await page.evaluate(() => {
          const rows = document.querySelector('.table-body');
          const top = (rows?.getBoundingClientRect().top ?? 0) + window.scrollY;
          window.scrollTo({ top: top + 24 + 36 + 24 });
        });
        await expect.poll(() => page.locator('.stuck .name .mono').innerText()).toBe('KQ-0001');
        await page.screenshot({ path: 'artefacts/page-long.png' });
      },
      { 'plan.lwl': longPlan(links) },
    ));
});
