/** The results view beside the text: opened, read, live, clicked, restored. */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');

async function page(): Promise<string> {
  const frame = await workbench.webview();
  return (await frame.locator('body').innerText()).replaceAll('\u00a0', ' ');
}

describe('the results view', () => {
  beforeAll(async () => {
    await workbench.open('results', { 'first-link.lwl': example });
    await workbench.command('linkwright.openResults');
  });

  it('shows the plan, its links and their verdicts', async () => {
    await expect.poll(page).toContain('KQ-OPS-B3');
    await expect.poll(page).toContain('Kestrel Quay: a first link');
    await expect.poll(page).toMatch(/pass/);
    await workbench.pictures('results');
  });

  it('changes while a reading is typed', async () => {
    await workbench.host(async (vscode) => {
      const editor = vscode.window.visibleTextEditors.find(
        ({ document }) => document.languageId === 'linkwright',
      );
      const at = editor?.document.getText().indexOf('1.02 ') ?? -1;
      if (!editor || at < 0) throw new Error('The reading is not there');
      const start = editor.document.positionAt(at);
      await editor.edit((edit) =>
        edit.replace(new vscode.Range(start, start.translate(0, 4)), '4.02'),
      );
    });
    await expect.poll(page).toMatch(/fail/);
    await workbench.pictures('results-fail');
  });

  it('opens a link where it is clicked, and shows its line in the text', async () => {
    const frame = await workbench.webview();
    await frame.locator('.row.link').first().click();
    await expect.poll(() => frame.locator('.row.fibre').count()).toBeGreaterThan(0);
    await frame.locator('.row.fibre').last().click();
    const line = () =>
      workbench.host(async (vscode) => {
        const editor = vscode.window.visibleTextEditors.find(
          ({ document }) => document.languageId === 'linkwright',
        );
        return editor?.document.lineAt(editor.selection.active.line).text.trim() ?? '';
      });
    await expect.poll(line).toMatch(/^4 /);
  });

  it('marks the row of the line that the cursor stands in', async () => {
    await workbench.host(async (vscode) => {
      const editor = vscode.window.visibleTextEditors.find(
        ({ document }) => document.languageId === 'linkwright',
      );
      const at = editor?.document.getText().indexOf('1.08 ') ?? -1;
      if (!editor || at < 0) throw new Error('The reading is not there');
      const position = editor.document.positionAt(at);
      editor.selection = new vscode.Selection(position, position);
    });
    const frame = await workbench.webview();
    await expect
      .poll(async () => (await frame.locator('.row.at-cursor').innerText()).trim())
      .toMatch(/^fibre 2\b/);
    await expect.poll(page).toContain('1.08');
  });
});
