#!/usr/bin/env node
/**
 * Stands in for the desktop's `code` executable: takes the arguments with which
 * an extension's tests are started, runs the same VS Code as a server with its
 * workbench in a headless Chromium, and ends with the exit code of the suite
 * that ran in the extension host.
 */
import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { type Browser, chromium } from 'playwright-core';
import { findChromium } from '../../support/chromium.ts';
import { installWorkbench } from './install.ts';
import { startServer } from './server.ts';

const words = process.argv.slice(2);
const folder = words.find((word) => !word.startsWith('-'));
const extension = option('extensionDevelopmentPath');
const suite = option('extensionTestsPath');
const userData = option('user-data-dir');
const extensions = option('extensions-dir');
const debugging = option('remote-debugging-port');

const chromiumPath = await findChromium();
const server = await startServer({
  server: await installWorkbench(),
  data: dirname(userData),
  extensions,
  driver: true,
});
const authority = `127.0.0.1:${server.port}`;
const profile = join(dirname(userData), 'browser');
mkdirSync(profile, { recursive: true });
const chromiumProcess = spawn(
  chromiumPath,
  [
    '--headless=new',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-dev-shm-usage',
    '--no-first-run',
    '--window-size=1400,1000',
    `--remote-debugging-port=${debugging}`,
    `--user-data-dir=${profile}`,
    'about:blank',
  ],
  { stdio: 'ignore' },
);
process.on('exit', () => {
  chromiumProcess.kill();
  server.process.kill();
});
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => process.exit(1));
// Our standard input ends with whoever started us, even where that was killed.
process.stdin.on('end', () => process.exit(1)).resume();
chromiumProcess.on('exit', () => process.exit(1));
server.process.on('exit', () => process.exit(1));

const browser = await connect();
const context = browser.contexts()[0] ?? (await browser.newContext());
const page = context.pages()[0] ?? (await context.newPage());
await page.setViewportSize({ width: 1400, height: 1000 });
// Whoever loads the page anew means it, whatever the editor has not written down yet.
page.on('dialog', (dialog) => void dialog.accept().catch(() => undefined));
await page.exposeFunction('codeAutomationLog', (type: string, parts: readonly unknown[]) => {
  if (type === 'error') process.stderr.write(`[workbench] ${parts.join(' ').slice(0, 600)}\n`);
});
await page.exposeFunction('codeAutomationExit', (code: number) => process.exit(code));
const remote = (path: string) => `vscode-remote://${authority}${path}`;
const payload = [
  ['extensionDevelopmentPath', remote(extension)],
  ['extensionTestsPath', remote(suite)],
  ['skipWelcome', 'true'],
];
const query = new URLSearchParams({ folder: folder ?? '', payload: JSON.stringify(payload) });
await page.goto(`http://${authority}/?${query}`, { waitUntil: 'commit', timeout: 120_000 });

function option(name: string): string {
  const start = `--${name}=`;
  const found = words.find((word) => word.startsWith(start));
  if (!found) throw new Error(`The launcher needs ${start}…`);
  return found.slice(start.length);
}

/** Chromium opens its debugging port a moment after it starts. */
async function connect(): Promise<Browser> {
  for (;;) {
    const answers = await fetch(`http://127.0.0.1:${debugging}/json/version`).catch(
      () => undefined,
    );
    if (answers?.ok) return chromium.connectOverCDP(`http://127.0.0.1:${debugging}`);
    await pause(50);
  }
}
