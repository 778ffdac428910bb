/** What outlives a reload of the window, and a server that has stopped. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';
import { isWritten } from './host/written.ts';

const workbench = useWorkbench();
const server = join(inject('workbench').extension, 'dist/server.cjs');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');

async function page(): Promise<string> {
  const frame = await workbench.webview();
  return (await frame.locator('body').innerText()).replaceAll('\u00a0', ' ');
}

beforeAll(async () => {
  await workbench.open('reload', { 'first-link.lwl': example });
  await workbench.command('linkwright.openResults');
});

describe('a window that is loaded anew', () => {
  it('has the results again, as they were looked at', async () => {
    await expect.poll(page).toContain('KQ-OPS-B3');
    const before = await workbench.webview();
    await before.locator('.row.link').first().click();
    await expect.poll(() => before.locator('.row.fibre').count()).toBe(4);
    await workbench.command('workbench.action.files.saveAll');
    // The state of the page lies in that of its tab, each a text in a text.
    const open = 'open[\\\\"]*:\\[[\\\\"]*KQ-OPS-B3';
    await expect.poll(() => isWritten(workbench.page, open)).toBe(true);
    await workbench.reload();
    await expect.poll(page, { timeout: 120_000 }).toContain('Kestrel Quay: a first link');
    const after = await workbench.webview();
    await expect.poll(() => after.locator('.row.fibre').count()).toBe(4);
    await workbench.pictures('results-reloaded');
  }, 240_000);
});

/** The desktop systems tell of processes in other ways. */
describe.runIf(process.platform === 'linux')('a server that ends again and again', () => {
  it('is said to have stopped, and starts anew from the page', async () => {
    await expect.poll(page).toContain('KQ-OPS-B3');
    // The editor starts it anew by itself until it has ended five times in three minutes.
    for (let times = 1; times <= 5; times += 1) {
      await expect.poll(() => processOf(server)).toBeGreaterThan(0);
      const id = processOf(server);
      process.kill(id, 'SIGKILL');
      await expect.poll(() => processOf(server)).not.toBe(id);
    }
    await expect
      .poll(page)
      .toMatch(/Results are from \d\d:\d\d; the language server has stopped\./);
    await workbench.pictures('server-stopped');
    await (await workbench.webview()).getByRole('button', { name: 'Restart' }).click();
    await expect.poll(page).not.toContain('has stopped');
    await expect.poll(page).toContain('KQ-OPS-B3');
    await workbench.pictures('server-restarted');
  });
});

/** Number of the process that runs a script, 0 where there is none. */
function processOf(script: string): number {
  const ids = readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  return Number(ids.find((id) => wordsOf(id).includes(script)) ?? 0);
}

function wordsOf(id: string): readonly string[] {
  try {
    return readFileSync(`/proc/${id}/cmdline`, 'utf8').split('\0');
  } catch {
    return [];
  }
}
