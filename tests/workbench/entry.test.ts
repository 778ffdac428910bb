/** Typing readings at the link, by keyboard alone: laid out, asked for, judged, questioned, undone. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
/** The example before it is tested, with a reference of today: the tester's clock is the machine's. */
const today = new Date();
const year = today.getFullYear();
const day = `${year}-${String(today.getMonth() + 1).padStart(2, '0')}-${String(today.getDate()).padStart(2, '0')}`;
const untested = example
  .slice(0, example.indexOf('readings KQ'))
  .replace(/2026-03-14 08:1\d/gu, `${day} 00:00`)
  .replaceAll('2026-01-12', `${year}-01-01`)
  .replaceAll('2027-01-12', `${year + 1}-12-31`);

const text = () => workbench.host((vscode) => vscode.window.activeTextEditor!.document.getText());
const box = () => workbench.page.locator('.quick-input-widget');
const title = () => box().locator('.quick-input-title').innerText();
const message = () => box().locator('.quick-input-message').innerText();

async function type(what: string): Promise<void> {
  await box().locator('input').first().fill(what);
  await workbench.page.keyboard.press('Enter');
}

async function pick(label: string): Promise<void> {
  await box().locator('.monaco-list-row', { hasText: label }).first().waitFor();
  await box().locator('input').first().fill(label);
  await workbench.page.keyboard.press('Enter');
}

async function putCursor(at: string): Promise<void> {
  await workbench.host(async (vscode, at) => {
    const editor = vscode.window.activeTextEditor!;
    const start = editor.document.positionAt(editor.document.getText().indexOf(at) + 1);
    editor.selection = new vscode.Selection(start, start);
  }, at);
}

async function tester(name: string | undefined): Promise<void> {
  await workbench.host(async (vscode, name) => {
    const settings = vscode.workspace.getConfiguration('linkwright');
    await settings.update('tester', name ?? undefined, vscode.ConfigurationTarget.Global);
  }, name ?? null);
}

async function open(name: string, content: string): Promise<void> {
  await workbench.open(name, { 'link.lwl': content });
  await putCursor('KQ-OPS-B3 "');
}

describe('readings', () => {
  beforeEach(async () => {
    await workbench.clear();
    await tester('R. Vale');
  });
  afterAll(() => tester(undefined));

  it('ask once for the name of the tester', async () => {
    await tester(undefined);
    await open('named', untested);
    void workbench.command('linkwright.layOutReadings');
    await expect.poll(title).toBe('Who measures?');
    await type('M. Ashdown');
    await expect.poll(text).toMatch(/tested +\S+ \S+ by "M. Ashdown"/u);
    await workbench.command('undo');
    await expect.poll(text).toBe(untested);
    await putCursor('KQ-OPS-B3 "');
    await workbench.command('linkwright.layOutReadings');
    await expect.poll(text).toMatch(/tested +\S+ \S+ by "M. Ashdown"/u);
  });

  it('are laid out so that typing is numbers only', async () => {
    await open('laid', untested);
    await workbench.command('linkwright.layOutReadings');
    await expect.poll(text).toMatch(/^ {2}4 +- +- +- +-$/mu);
    const selected = () =>
      workbench.host((vscode) => {
        const { document, selection } = vscode.window.activeTextEditor!;
        return document.getText(selection);
      });
    await expect.poll(selected).toBe('-');
    await workbench.command('workbench.action.focusActiveEditorGroup');
    await workbench.page.keyboard.type('0.97');
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +- +- +-$/mu);
  });

  it('are asked for one by one, judged at once, questioned when strange, and undone', async () => {
    await open('entered', untested);
    void workbench.command('linkwright.enterReadings');
    await pick('Fibre by fibre');
    await pick('Every fibre, upwards');
    await expect.poll(title).toContain('KQ-OPS-B3 · fibre 1 · 850 nm A>B (0 of 16 read)');
    expect(await message()).toMatch(/OPS\/R2\/A:01 to B3\/R1\/A:01, limit \d\.\d\d dB/u);
    await type('0,97');
    await expect.poll(message).toMatch(/fibre 1: 0\.97 dB, pass, margin \+\d\.\d\d at 850 nm A>B/u);
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +- +- +-$/mu);
    await workbench.pictures('enter-readings');

    // The unit of another column, and a sign: questioned, and kept only when Enter is pressed again.
    await type('-0.99');
    await expect.poll(message).toMatch(/more light arrived.*Enter writes it all the same/su);
    await workbench.pictures('enter-readings-questioned');
    await type('0.9.9');
    await expect.poll(message).toMatch(/0\.9\.9/u);
    await type('0.99');
    await expect.poll(title).toContain('fibre 1 · 1300 nm A>B');

    // What was mistyped is put right in its cell, and taken out of it again.
    await type('back');
    await expect.poll(message).toContain('Written as 0.99, to be put right');
    await workbench.pictures('enter-readings-back');
    await type('0.89');
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +0\.89 +- +-$/mu);
    await type('back');
    await expect.poll(title).toContain('850 nm B>A');
    await type('-');
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +- +- +-$/mu);
    await type('back');
    await expect.poll(title).toContain('850 nm B>A');
    await type('0.99');
    await expect.poll(title).toContain('fibre 1 · 1300 nm A>B');

    await type('');
    await expect.poll(title).toContain('1300 nm B>A');
    await type('dark');
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +0\.99 +- +dark$/mu);
    await expect.poll(title).toContain('fibre 2 · 850 nm A>B');
    await workbench.page.keyboard.press('Escape');
    await workbench.command('undo');
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +0\.99 +- +-$/mu);
  });

  it('of one direction are asked for at every wavelength, and the row that is written is seen', async () => {
    await open('one-way', untested.replaceAll('01..04', '01..48'));
    void workbench.command('linkwright.enterReadings');
    await pick('A>B');
    await pick('Every second fibre, downwards');
    await expect.poll(title).toContain('fibre 48 · 850 nm A>B');
    await type('0.97 dB');
    await expect.poll(title).toContain('fibre 48 · 1300 nm A>B');
    await type('0.66');
    await expect.poll(title).toContain('fibre 46 · 850 nm A>B');
    const row = () =>
      workbench.host((vscode) => {
        const { document, selection, visibleRanges } = vscode.window.activeTextEditor!;
        const isSeen = visibleRanges.some((range) => range.contains(selection.active));
        return `${document.lineAt(selection.active.line).text}|${isSeen}`;
      });
    await expect.poll(row).toMatch(/^ {2}48 +0\.97 +- +0\.66 +-\|true$/u);
    await type('9.6');
    await expect.poll(message).toContain('these parts usually lose');
    // Faster than any answer comes.
    for (const value of ['0.98', '0.67', '0.96']) {
      await box().locator('input').first().fill(value);
      await workbench.page.keyboard.press('Enter');
    }
    await expect.poll(title).toContain('fibre 44 · 1300 nm A>B');
    await expect.poll(text).toMatch(/^ {2}46 +0\.98 +- +0\.67 +-$/mu);
    expect(await text()).toMatch(/^ {2}44 +0\.96 +- +- +-$/mu);
    await workbench.page.keyboard.press('Escape');
  });

  it('copied from a spreadsheet are shown before they are written', async () => {
    await open('pasted', untested);
    await workbench.command('linkwright.layOutReadings');
    await expect.poll(text).toMatch(/^ {2}4 +- +- +- +-$/mu);
    await workbench.host((vscode) => vscode.env.clipboard.writeText('1\t0,97\t0,99\n3\t0,93\t'));
    void workbench.command('linkwright.pasteReadings');
    await box().locator('.monaco-list-row', { hasText: 'Write 3 readings' }).waitFor();
    await workbench.pictures('paste-readings');
    expect(await box().innerText()).toMatch(/1\s+0\.97\s+0\.99\s+-\s+-/u);
    expect(await text()).not.toContain('0.97');
    await workbench.page.keyboard.press('Enter');
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +0\.99 +- +-$/mu);
    expect(await text()).toMatch(/^ {2}3 +0\.93 +- +- +-$/mu);
  });

  it('are asked for panel by panel on a walk, in the direction that is chosen', async () => {
    const second = untested
      .slice(untested.indexOf('link KQ-OPS-B3'), untested.indexOf('# One cord'))
      .replace('KQ-OPS-B3', 'KQ-OPS-B4')
      .replace('A:01..04', 'A:05..08')
      .replace('B3/R1', 'B4/R1');
    await open('walked', untested.replace('# One cord', `${second}# One cord`));
    void workbench.command('linkwright.enterReadings');
    await box().locator('.monaco-list-row', { hasText: 'OPS/R2, panel A first' }).waitFor();
    await pick('Panel by panel');
    await pick('Every wavelength and direction');
    await pick('Every fibre, downwards');
    await expect.poll(title).toContain('KQ-OPS-B4 · fibre 4 · 850 nm A>B (0 of 32 read) (1/32)');
    await workbench.pictures('enter-panel-by-panel');
    for (const value of ['1.02', '1.01', '0.71', '0.69']) {
      const before = await title();
      await type(value);
      await expect.poll(title).not.toBe(before);
    }
    await expect.poll(title).toContain('KQ-OPS-B4 · fibre 3 · 850 nm A>B');
    await workbench.page.keyboard.press('Escape');
    expect(await text()).toMatch(/^readings KQ-OPS-B4/mu);
    expect(await text()).toMatch(/^ {2}4 +1\.02 +1\.01 +0\.71 +0\.69$/mu);
  });

  it('follow the text when it is edited by hand meanwhile', async () => {
    await open('by-hand', untested);
    void workbench.command('linkwright.enterReadings');
    await pick('850 nm A>B');
    await pick('Every fibre, downwards');
    await expect.poll(title).toContain('fibre 4 · 850 nm A>B');
    await type('1.02');
    await expect.poll(text).toMatch(/^ {2}4 +1\.02/mu);
    await workbench.host(async (vscode) => {
      const editor = vscode.window.activeTextEditor!;
      await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), '# A note\n'));
    });
    await type('0.93');
    await expect.poll(text).toMatch(/^ {2}3 +0\.93 +- +- +-\n {2}4 +1\.02/mu);
    await expect.poll(title).toContain('fibre 2 · 850 nm A>B (2 of 16 read)');
    // The next but one is written by hand: it counts, and is not asked for.
    await workbench.host(async (vscode) => {
      const editor = vscode.window.activeTextEditor!;
      const row = /^ {2}1 +(?=-)/mu.exec(editor.document.getText())!;
      const at = editor.document.positionAt(row.index + row[0].length);
      await editor.edit((edit) => edit.replace(new vscode.Range(at, at.translate(0, 1)), '0.97'));
    });
    await type('');
    await expect.poll(title).toContain('fibre 2 · 850 nm A>B (3 of 16 read)');
    await type('1.08');
    await expect.poll(() => box().isVisible()).toBe(false);
    await expect.poll(text).toMatch(/^ {2}1 +0\.97 +- +- +-\n {2}2 +1\.08/mu);
    await workbench.page.keyboard.press('Escape');
  });
});
