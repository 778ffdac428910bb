/** The results view beside the text: opened, read, live, clicked, restored. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const { workspace } = inject('workbench');
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

  it('copies what it shows, and exports it into a file whole', async () => {
    const frame = await workbench.webview();
    await workbench.host((vscode) => vscode.env.clipboard.writeText(''));
    await frame.getByRole('button', { name: 'Copy all' }).click();
    const copied = () => workbench.host((vscode) => vscode.env.clipboard.readText());
    await expect.poll(copied).toMatch(/\t/u);
    const rows = (await copied()).trimEnd().split('\n');
    expect(rows.every((row) => row.split('\t').length === rows[0]!.split('\t').length)).toBe(true);

    await frame.getByRole('button', { name: 'Export' }).click();
    const box = workbench.page.locator('.quick-input-widget');
    await expect.poll(() => box.locator('input').first().inputValue()).toContain('readings.csv');
    await workbench.pictures('results-export');
    await workbench.page.keyboard.press('Enter');
    const folder = join(workspace, 'results');
    await expect.poll(() => readdirSync(folder)).toContain('readings.csv');
    const written = readFileSync(join(folder, 'readings.csv'), 'utf8').trimEnd().split('\r\n');
    // A row for each of four readings of four fibres, below the headings.
    expect(written).toHaveLength(17);
    expect(written.slice(1).every((row) => row.includes('KQ-OPS-B3'))).toBe(true);
    // Nothing that it was written through is left beside it.
    expect(readdirSync(folder).sort()).toEqual(['first-link.lwl', 'readings.csv']);
  });
});
