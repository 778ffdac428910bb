/** Readings in the editor's own list of tests: listed, opened, following edits, with the reason at the reading. */
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const { workspace } = inject('workbench');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');

/** The rows of the list as a screen reader is told them. */
async function rows(): Promise<readonly string[]> {
  const found = workbench.page.locator('.test-explorer .monaco-list-row');
  return found.evaluateAll((all) => all.map((row) => row.getAttribute('aria-label') ?? ''));
}

const rowOf = (name: string) =>
  expect.poll(async () => (await rows()).find((row) => row.includes(name)) ?? '');

async function retype(before: string, after: string): Promise<void> {
  await workbench.host(
    async (vscode, { before, after }) => {
      const editor = vscode.window.activeTextEditor;
      const at = editor?.document.getText().indexOf(before) ?? -1;
      if (!editor || at < 0) throw new Error(`${before} is not there`);
      const start = editor.document.positionAt(at);
      await editor.edit((edit) =>
        edit.replace(new vscode.Range(start, start.translate(0, before.length)), after),
      );
    },
    { before, after },
  );
}

describe('the list of tests', () => {
  beforeAll(async () => {
    // Plans that other tests left in the workspace would stand in the list as well.
    for (const name of readdirSync(workspace)) {
      if (!name.startsWith('.')) rmSync(join(workspace, name), { recursive: true });
    }
    await workbench.open('tests-view', { 'first-link.lwl': example });
    await workbench.command('workbench.view.testing.focus');
  });
  afterAll(async () => {
    await workbench.command('workbench.view.explorer');
  });

  it('lists the plan, its link and its fibres, each with what it comes to', async () => {
    await rowOf('first link').toMatch(/Kestrel Quay: a first link/u);
    await workbench.page.locator('.test-explorer .monaco-list-row').first().click();
    await workbench.page.keyboard.press('ArrowRight');
    await rowOf('KQ-OPS-B3').toMatch(/KQ-OPS-B3/u);
    await workbench.page
      .locator('.test-explorer .monaco-list-row', { hasText: 'KQ-OPS-B3' })
      .first()
      .click();
    await workbench.page.keyboard.press('ArrowRight');
    await rowOf('fibre 2').toMatch(/Passed/u);
    await workbench.pictures('tests-view');
  });

  it('follows an edit, and says at the reading why it fails', async () => {
    await workbench.show('tests-view/first-link.lwl');
    await retype('1.08 ', '4.08 ');
    await rowOf('fibre 2').toMatch(/Failed/u);
    await workbench.pictures('tests-view-failed');
    const said = workbench.page.locator('.test-error-content-widget');
    await expect.poll(async () => (await said.allInnerTexts()).join()).toMatch(/fail, .*over/u);
    await retype('4.08 ', '1.08 ');
    await rowOf('fibre 2').toMatch(/Passed/u);
  });

  it('judges what a person asks for', async () => {
    await workbench.command('testing.runAll');
    await rowOf('KQ-OPS-B3').toMatch(/Passed|Skipped/u);
    await rowOf('fibre 4').toMatch(/Passed/u);
  });
});
