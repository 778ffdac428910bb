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
});
