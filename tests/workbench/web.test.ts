/**
 * The packaged extension where there is no machine behind the editor: its browser
 * entry in a web worker, its server in another, its files in memory. The plan is
 * a file that nobody has opened, so that it must be found by listing the folder.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Frame, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject, it } from 'vitest';
import { launchChromium } from '../support/chromium.ts';
import { longWorkbook } from '../support/long-workbook.ts';
import { installWorkbench } from './host/install.ts';
import { serveWeb, type WebServer } from './host/web.ts';

const place = inject('workbench');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const cut = example.indexOf('link KQ-OPS-B3');
const files = {
  'berth/berth-3.lwl': example.slice(cut).replace('1.02 ', '4.02 '),
  'terminal.lwl': `${example.slice(0, cut)}include "berth/berth-3.lwl"\n`,
  'berth/berths.xlsx': longWorkbook(12),
};
const outside: string[] = [];
/** How often the server's script was loaded. */
let started = 0;
let web: WebServer;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  web = await serveWeb({
    server: await installWorkbench(),
    extension: place.extension,
    files,
  });
  browser = await launchChromium();
  page = await browser.newPage({ viewport: { width: 1400, height: 1000 } });
  page.on('request', (request) => {
    if (request.url().endsWith('/dist/server.browser.js')) started += 1;
    if (/^(https?|wss?):/.test(request.url()) && !request.url().startsWith(web.address)) {
      outside.push(request.url());
    }
  });
  for (const heard of ['codeAutomationLog', 'codeAutomationExit']) {
    await page.exposeFunction(heard, () => undefined);
  }
  await page.goto(web.address, { waitUntil: 'commit', timeout: 120_000 });
});

afterAll(async () => {
  await browser?.close();
  web?.close();
});

async function drawn(): Promise<string> {
  const lines = await page.locator('.editor-instance .view-line').allInnerTexts();
  return lines.join('\n').replaceAll('\u00a0', ' ');
}

it('hints say limits and margins, by the limits of a plan that is not open', async () => {
  await expect.poll(drawn).toMatch(/1300 nm B>A\s*limit \d/);
  await expect.poll(drawn).toMatch(/0\.64\s*margin \+\d/);
});

it('a reading over the limit is underlined and said', async () => {
  await expect.poll(drawn).toMatch(/fail, \d+\.\d+ over/);
  await page.locator('.squiggly-error, .squiggly-warning').first().waitFor();
});

it('the results view opens beside the text', async () => {
  await page.getByRole('button', { name: 'Open results' }).first().click();
  const inside = async () => (await (await results()).locator('body').innerText()) ?? '';
  await expect.poll(inside).toContain('KQ-OPS-B3');
  await expect.poll(inside).toMatch(/fail/);
  await page.screenshot({ path: join(place.artefacts, 'web.png') });
});

it('a server that is started anew answers as before', async () => {
  await page.locator('.editor-instance .view-line').first().click();
  await page.keyboard.press('F1');
  await page.keyboard.type('Restart the language server');
  await page.getByRole('option', { name: /Restart the language server/ }).click();
  await expect.poll(() => started).toBe(2);
  const inside = async () => (await results()).locator('body').innerText();
  await expect.poll(inside).not.toContain('has stopped');
  await expect.poll(inside).toContain('KQ-OPS-B3');
  await expect.poll(drawn).toMatch(/fail, \d+\.\d+ over/);
});

it('a workbook is read where there is no thread for it', async () => {
  await page.locator('.editor-instance .view-line').first().click();
  web.run('linkwright.importReadings', 'berth/berths.xlsx');
  const box = page.locator('.quick-input-widget');
  await box.getByText('Read all 12 rows').waitFor();
  await page.screenshot({ path: join(place.artefacts, 'web-import.png') });
  await page.keyboard.press('Escape');
});

it('says that there is no git to compare a revision with', async () => {
  await page.locator('.editor-instance .view-line').first().click();
  await page.keyboard.press('F1');
  await page.keyboard.type('Compare with a revision');
  await page.getByRole('option', { name: /Compare with a revision/ }).click();
  const told = () => page.locator('.notifications-toasts').innerText();
  await expect.poll(told).toContain('Git extension');
});

it('asks nobody outside this machine', () => {
  expect(outside).toEqual([]);
});

async function results(): Promise<Frame> {
  const outer = await page.locator('iframe.webview.ready').first().elementHandle();
  const inner = await (await outer?.contentFrame())?.waitForSelector('iframe#active-frame');
  const frame = await inner?.contentFrame();
  if (!frame) throw new Error('The results view has no page.');
  return frame;
}
