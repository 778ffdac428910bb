/** Field sheet and acceptance record, written from the editor beside the plan. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const { workspace } = inject('workbench');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');

const written = (name: string) => readFileSync(join(workspace, 'papers', name));
const addresses = (name: string) =>
  workbench.host((vscode, file) => {
    const [folder] = vscode.workspace.workspaceFolders ?? [];
    const at = (path: string) => vscode.Uri.joinPath(folder!.uri, 'papers', path).toString();
    return [at('first-link.lwl'), at(file)] as const;
  }, name);
describe('documents written from the editor', () => {
  beforeAll(async () => {
    await workbench.open('papers', { 'first-link.lwl': example });
  });

  it('writes a field sheet where it is told to', async () => {
    const [plan, target] = await addresses('sheet.html');
    await workbench.command('linkwright.writeFieldSheet', plan, target);
    expect(written('sheet.html').toString('utf8')).toContain('Field sheet');
  });

  it('writes a draft of the record as a PDF and as a workbook', async () => {
    for (const [name, begin] of [
      ['record.pdf', '%PDF-'],
      ['record.xlsx', 'PK'],
    ] as const) {
      const [plan, target] = await addresses(name);
      await workbench.command('linkwright.writeAcceptanceRecord', plan, target, false);
      expect(written(name).subarray(0, begin.length).toString()).toBe(begin);
    }
  });

  it('issues nothing while something is missing, and lists it', async () => {
    const [plan, target] = await addresses('issued.html');
    await workbench.command('linkwright.writeAcceptanceRecord', plan, target, true);
    const list = workbench.page.locator('.quick-input-widget');
    await expect.poll(() => list.innerText()).toContain('The record is not issued: 2 things');
    await expect.poll(() => list.innerText()).toContain('no revision');
    expect(() => written('issued.html')).toThrow();
    await workbench.page.keyboard.press('Escape');
  });

  it('asks where to, with a name made of the plan’s', async () => {
    void workbench.command('linkwright.writeFieldSheet').catch(() => undefined);
    const asked = workbench.page.locator('.quick-input-widget input').first();
    await expect.poll(() => asked.inputValue()).toMatch(/papers\/first-link-sheet\.html$/u);
    await workbench.pictures('write-field-sheet');
    await workbench.page.keyboard.press('Enter');
    await expect
      .poll(() => {
        try {
          return written('first-link-sheet.html').length;
        } catch {
          return 0;
        }
      })
      .toBeGreaterThan(1000);
  });

  it('goes to what is chosen of the things that are missing', async () => {
    const lacking = example.replace(/^( {2}1 +)[\d.]+/mu, '$1-   ');
    expect(lacking).not.toBe(example);
    await workbench.open('lacking', { 'lacking.lwl': lacking });
    const [plan, target] = await workbench.host((vscode) => {
      const [folder] = vscode.workspace.workspaceFolders ?? [];
      const at = (path: string) => vscode.Uri.joinPath(folder!.uri, 'lacking', path).toString();
      return [at('lacking.lwl'), at('issued.html')] as const;
    });
    await workbench.command('linkwright.writeAcceptanceRecord', plan, target, true);
    const list = workbench.page.locator('.quick-input-widget');
    await expect.poll(() => list.innerText()).toContain('untested');
    await workbench.pictures('record-lacks');
    await workbench.page.keyboard.type('untested');
    await expect.poll(() => list.innerText()).not.toContain('no revision');
    await workbench.page.keyboard.press('Enter');
    const line = () =>
      workbench.host((vscode) => {
        const { document, selection } = vscode.window.activeTextEditor!;
        return document.lineAt(selection.active.line).text;
      });
    await expect.poll(line).toMatch(/^link KQ-/u);
  });
});
