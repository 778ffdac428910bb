/** Readings in the editor's own list of tests: listed, opened, following edits, with the reason at the reading. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
/** Under names of its own: plans that other tests left in the workspace stand in the list as well. */
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8')
  .replace('a first link', 'the listed one')
  .replaceAll('KQ-OPS-B3', 'KQ-LISTED');

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
    await workbench.open('tests-view', { 'first-link.lwl': example });
    await workbench.command('workbench.view.testing.focus');
  });
  afterAll(async () => {
    await workbench.command('workbench.view.explorer');
  });

  it('lists the plan, its link and its fibres, each with what it comes to', async () => {
    await rowOf('the listed one').toMatch(/Kestrel Quay: the listed one/u);
    await workbench.page
      .locator('.test-explorer .monaco-list-row', { hasText: 'the listed one' })
      .first()
      .click();
    await workbench.page.keyboard.press('ArrowRight');
    await rowOf('KQ-LISTED').toMatch(/KQ-LISTED/u);
    await workbench.page
      .locator('.test-explorer .monaco-list-row', { hasText: 'KQ-LISTED' })
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
    await rowOf('KQ-LISTED').toMatch(/Passed|Skipped/u);
    await rowOf('fibre 4').toMatch(/Passed/u);
  });
});
