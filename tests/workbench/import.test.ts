/** Import readings in the editor: columns guessed and shown, rows listed, written as one edit, undone. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeEach, describe, expect, inject, it } from 'vitest';
import { longWorkbook } from '../support/long-workbook.ts';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const { workspace } = inject('workbench');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const plan = `${example.slice(0, example.indexOf('readings KQ')).trimEnd()}\n`;
const table = `Cable;Core;850 nm A>B;850 nm B>A;1300 nm A>B;1300 nm B>A;Date;Tester;Notes
KQ-OPS-B3;1;0,97;0,99;0,66;0,64;14.03.2026 09:05;R. Vale;
KQ-OPS-B3;2;1,08;1,05;0,77;0,79;14.03.2026 09:07;R. Vale;cleaned first
KQ-OPS-B3;3;0,93;low;0,61;;14.03.2026 09:09;R. Vale;
KQ-OPS-B9;1;0,93;0,92;0,61;;14.03.2026 09:09;R. Vale;
`;

const text = () => workbench.host((vscode) => vscode.window.activeTextEditor!.document.getText());
const box = () => workbench.page.locator('.quick-input-widget');
const line = (label: string) => box().locator('.monaco-list-row', { hasText: label }).first();
const enter = () => workbench.page.keyboard.press('Enter');

async function begin(
  name: string,
  files: Readonly<Record<string, string | Uint8Array>>,
  chosen = 'berths.csv',
): Promise<void> {
  await workbench.open(name, { 'link.lwl': plan, 'berths.csv': table, ...files });
  const address = await workbench.host(
    (vscode, file) =>
      vscode.Uri.joinPath(vscode.window.activeTextEditor!.document.uri, '..', file).toString(),
    chosen,
  );
  void workbench.command('linkwright.importReadings', address).catch(() => undefined);
}

describe('a table of readings', () => {
  beforeEach(() => workbench.clear());

  it('is shown as it is understood, read, written as one edit, and undone', async () => {
    await begin('imported', {});
    await line('Read all 4 rows').waitFor();
    await expect.poll(() => box().innerText()).toMatch(/column "Core", such as 1, 2, 3/u);
    await expect.poll(() => box().innerText()).toMatch(/day-month-year/u);
    await workbench.pictures('import-columns');
    await enter();

    await line('Write 10 readings in 1 block').waitFor();
    const shown = await box().innerText();
    expect(shown).toContain('the plan has no link "KQ-OPS-B9"');
    expect(shown).toContain('"low" is no reading');
    await workbench.pictures('import-found');
    expect(await text()).toBe(plan);
    await workbench.page.keyboard.press('ArrowDown');
    await enter();
    const beside = join(workspace, 'imported', 'berths.columns.json');
    await expect.poll(() => existsSync(beside)).toBe(true);
    await line('Save what the columns mean').waitFor({ state: 'detached' });
    await line('Write 10 readings').click();
    await expect
      .poll(text)
      .toMatch(/^ {2}2 +1\.08 +1\.05 +0\.77 +0\.79 +09:07 +"cleaned first"$/mu);
    expect(await text()).toMatch(
      /note +"Imported from berths\.csv, rows 2 to 4, SHA-256 [0-9a-f]{64}"/u,
    );
    await workbench.pictures('import-written');
    await workbench.command('undo');
    await expect.poll(text).toBe(plan);
  });

  it('is read as the file beside it says, and what that lacks is told at its place', async () => {
    await begin('beside', { 'berths.columns.json': '{ "values": { "what": "loss" } }' });
    await line('Read it as berths.columns.json says').waitFor();
    await enter();
    await expect
      .poll(() => box().innerText())
      .toMatch(/line 1, column 13, values\.unit: .* is wanted/u);
    await workbench.page.keyboard.press('Escape');
    expect(await text()).toBe(plan);
  });

  it('is left in the midst of a long workbook, while the editor goes on answering', async () => {
    const { page } = workbench;
    await begin('long', { 'berths.xlsx': longWorkbook(900_000) }, 'berths.xlsx');
    // A workbench that is driven shows no notices by itself, only its list of them.
    const notice = page.locator('.notification-list-item', {
      hasText: 'Looking at berths.xlsx',
    });
    await expect
      .poll(async () => {
        await workbench.command('notifications.showList');
        return notice.count();
      })
      .toBe(1);
    const hover = await workbench.host(async (vscode) => {
      const { document } = vscode.window.activeTextEditor!;
      const at = document.positionAt(document.getText().indexOf('segment'));
      const command = 'vscode.executeHoverProvider';
      const hovers = await vscode.commands.executeCommand<unknown[]>(command, document.uri, at);
      return hovers.length;
    });
    expect([hover, await notice.count()]).toEqual([1, 1]);
    await workbench.pictures('import-looking');
    await notice.getByRole('button', { name: 'Cancel' }).click();
    await notice.waitFor({ state: 'detached' });
    expect(await page.locator('.notification-list-item').count()).toBe(0);
    expect(await box().isVisible()).toBe(false);
    expect(await text()).toBe(plan);
  });

  it('is asked for what no column tells', async () => {
    await begin('asked', { 'berths.csv': 'Core;850 nm A>B\n1;0,97\n' });
    await line('Still to be said: day tested').waitFor();
    await box().locator('input').first().fill('Day tested');
    await enter();
    await line('The same for all rows').waitFor();
    await box().locator('input').first().fill('The same');
    await enter();
    await expect.poll(() => box().innerText()).toContain('Day tested, of all rows');
    await box().locator('input').first().fill('2026-03-14 09:05');
    await enter();
    await line('Read the one row').waitFor();
    await enter();
    await line('Write 1 reading in 1 block').waitFor();
    await enter();
    await expect.poll(text).toContain('tested      2026-03-14 09:05\n');
  });
});
