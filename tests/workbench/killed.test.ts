/**
 * The extension host and the language server killed while readings are typed, three times in one
 * day, in a window as a tester has it: the extension installed, no tests inside.
 *
 * What was entered is text of the editor, not of our processes. So it outlives them unsaved, it can
 * be saved while neither of them runs, and a file on disk is what it was before or what was saved,
 * never half of one. After the first two times the editor starts a host of extensions anew by
 * itself, and the next reading is asked for where the last was entered. After the third it asks
 * instead; then the window is loaded anew, and what was not saved comes back from the editor's own
 * backup, still unsaved. That backup is written about a second after an edit (from memory): a
 * window that ends within this second takes the last reading with it, whatever an extension does.
 * A number that stands in the box and was not entered is lost with the box.
 */
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { installWorkbench } from './host/install.ts';
import { type RunningServer, startServer } from './host/server.ts';
import { settings } from './host/settings.ts';

const place = inject('workbench');
const now = new Date();
const two = (value: number) => String(value).padStart(2, '0');
const year = now.getFullYear();
const day = `${year}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
/** Untested, with a reference of today: the tester's clock is the machine's. */
const plan = example
  .slice(0, example.indexOf('readings KQ'))
  .replaceAll('01..04', '01..12')
  .replace(/2026-03-14 08:1\d/gu, `${day} 00:00`)
  .replaceAll('2026-01-12', `${year}-01-01`)
  .replaceAll('2027-01-12', `${year + 1}-12-31`);

const home = mkdtempSync(join(tmpdir(), 'killed-'));
const workspace = join(home, 'workspace');
const file = join(workspace, 'plan.lwl');
const extension = join(home, 'extensions/linkwright');
let server: RunningServer;
let browser: Browser;
let page: Page;

const onDisk = () => readFileSync(file, 'utf8');
const box = () => page.locator('.quick-input-widget');
const title = () => box().locator('.quick-input-title').innerText();
const unsaved = () => page.locator('.tab.active.dirty').count();
const lines = () => page.locator('.editor-instance .view-line');

async function shown(): Promise<string> {
  return (await lines().allInnerTexts()).join('\n').replaceAll('\u00a0', ' ');
}

const columns = ['850 nm A>B', '850 nm B>A', '1300 nm A>B', '1300 nm B>A'];
const values = (fibre: number) =>
  [0.97, 0.99, 0.66, 0.64].map((value, at) =>
    (value + ((fibre * 7 + at * 3) % 11) / 100).toFixed(2),
  );
/** The row of a fibre with each of its readings. */
const row = (fibre: number) =>
  new RegExp(`^ *${fibre} +${values(fibre).join(' +').replaceAll('.', '\\.')}`, 'mu');

async function type(what: string): Promise<void> {
  await box().locator('input').first().fill(what);
  await page.keyboard.press('Enter');
}

async function pick(label: string): Promise<void> {
  await box().locator('.monaco-list-row', { hasText: label }).first().waitFor();
  await type(label);
}

/** Enters the readings of one fibre; the box that asks for the next stays open. */
async function enter(fibre: number): Promise<void> {
  await lines().filter({ hasText: 'KQ-OPS-B3 "Operations' }).click();
  await page.keyboard.press('F1');
  await box().locator('input').first().fill('>Linkwright: Enter readings');
  await box().locator('.monaco-list-row', { hasText: 'Enter readings' }).first().waitFor();
  await page.keyboard.press('Enter');
  await pick('Fibre by fibre');
  await pick('Every fibre, upwards');
  for (const [column, value] of values(fibre).entries()) {
    await expect.poll(title).toContain(`fibre ${fibre} · ${columns[column]}`);
    await type(value);
  }
  await expect.poll(title).toContain(`fibre ${fibre + 1} · ${columns[0]}`);
  await expect.poll(shown).toMatch(row(fibre));
}

/** Both processes at once and without a word, each time others. */
function kill(): void {
  const host = hostOfExtensions();
  for (const id of [...below(host, (words) => words.includes(languageServer)), host]) {
    process.kill(id, 'SIGKILL');
  }
}

const languageServer = join(extension, 'dist/server.cjs');

function hostOfExtensions(): number {
  const id = server.process.pid ?? 0;
  return below(id, (words) => words.some((word) => word === '--type=extensionHost'))[0] ?? 0;
}

function below(id: number, is: (words: readonly string[]) => boolean): readonly number[] {
  return read(`/proc/${id}/task/${id}/children`)
    .trim()
    .split(' ')
    .map(Number)
    .filter((child) => is(read(`/proc/${child}/cmdline`).split('\0')));
}

/** Empty where a process has ended meanwhile. */
function read(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}

/** Loads the window anew, again where the editor has asked to stay. */
async function reload(): Promise<void> {
  await page.evaluate(() => Object.assign(window, { before: true }));
  await expect
    .poll(
      () =>
        page
          .evaluate(() => {
            const still = 'before' in window;
            if (still) location.reload();
            return still;
          })
          // Of a page that goes away nothing is known.
          .catch(() => true),
      { interval: 1000 },
    )
    .toBe(false);
}

/** The desktop systems tell of processes in other ways. */
describe.runIf(process.platform === 'linux')('an editor whose processes are killed', () => {
  beforeAll(async () => {
    const data = join(home, 'data');
    for (const folder of [workspace, join(data, 'data/User')])
      mkdirSync(folder, { recursive: true });
    cpSync(place.extension, extension, { recursive: true });
    writeFileSync(file, plan);
    writeFileSync(
      join(data, 'data/User/settings.json'),
      JSON.stringify({ ...settings, 'linkwright.tester': 'R. Vale' }),
    );
    server = await startServer({
      server: await installWorkbench(),
      data,
      extensions: join(home, 'extensions'),
      driver: false,
    });
    browser = await launchChromium();
    page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
    // Asked whether to leave though its backup is not written yet: no.
    page.on('dialog', (dialog) => void dialog.dismiss().catch(() => undefined));
    const query = new URLSearchParams({ folder: workspace });
    await page.goto(`http://127.0.0.1:${server.port}/?${query}`, { waitUntil: 'commit' });
    await page.getByRole('treeitem', { name: 'plan.lwl' }).dblclick();
    await page.locator('.codelens-decoration').first().waitFor();
  });
  afterAll(async () => {
    await browser?.close();
    server?.process.kill();
    rmSync(home, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  });

  it('holds every reading that was entered, three times over', { timeout: 300_000 }, async () => {
    let saved = plan;
    for (const fibre of [1, 2, 3]) {
      await enter(fibre);
      kill();
      // Nobody has saved: the file is whole, as it was.
      expect(onDisk()).toBe(saved);
      await expect
        .poll(async () => {
          await page.keyboard.press('Escape');
          return box().isVisible();
        })
        .toBe(false);
      await page.screenshot({ path: join(place.artefacts, `killed-${fibre}.png`) });
      expect(await unsaved()).toBe(1);
      for (let each = 1; each <= fibre; each += 1) expect(await shown()).toMatch(row(each));
      if (fibre === 3) break;
      await lines().first().click();
      await page.keyboard.press('Control+s');
      await expect.poll(onDisk).toMatch(row(fibre));
      saved = onDisk();
      await expect
        .poll(() => below(hostOfExtensions(), (words) => words.includes(languageServer)).length)
        .toBe(1);
      await page.screenshot({ path: join(place.artefacts, `killed-${fibre}-again.png`) });
    }
    await reload();
    await expect.poll(shown).toMatch(row(3));
    expect(await unsaved()).toBe(1);
    await page.screenshot({ path: join(place.artefacts, `killed-reloaded.png`) });
    expect(onDisk()).toBe(saved);
    await lines().first().click();
    await page.keyboard.press('Control+s');
    await expect.poll(onDisk).toMatch(row(3));
  });
});
