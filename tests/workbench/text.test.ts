/** What a person sees in the text: findings underlined, hints, hover, completion, formatting. */
import { readFileSync } from 'node:fs';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const file = 'text/first-link.lwl';

/** Text of the visible editor with its hints, as drawn; blanks are drawn as non-breaking. */
async function drawn(): Promise<string> {
  const lines = await workbench.page.locator('.editor-instance .view-line').allInnerTexts();
  return lines.join('\n').replaceAll('\u00a0', ' ');
}

/** What stands above the links: the lenses, as drawn. */
async function lenses(): Promise<string> {
  const lines = await workbench.page.locator('.codelens-decoration').allInnerTexts();
  return lines.join('\n').replaceAll('\u00a0', ' ');
}

/** Replaces one text in the file by another, as typed. */
async function replace(what: string, by: string): Promise<void> {
  await workbench.host(
    async (vscode, { what, by }) => {
      const editor = vscode.window.activeTextEditor;
      const at = editor?.document.getText().indexOf(what) ?? -1;
      if (!editor || at < 0) throw new Error(`The text has no ${what}`);
      const start = editor.document.positionAt(at);
      const end = editor.document.positionAt(at + what.length);
      await editor.edit((edit) => edit.replace(new vscode.Range(start, end), by));
    },
    { what, by },
  );
}

/** Puts the cursor on the first place where this text stands. */
async function putCursor(at: string): Promise<void> {
  await workbench.host(async (vscode, at) => {
    const editor = vscode.window.activeTextEditor;
    if (!editor) throw new Error('No editor is open');
    const start = editor.document.positionAt(editor.document.getText().indexOf(at) + 1);
    editor.selection = new vscode.Selection(start, start);
    editor.revealRange(editor.selection);
  }, at);
}

describe('in the text', () => {
  beforeAll(async () => {
    await workbench.open('text', { 'first-link.lwl': example });
  });

  /** Each test begins with the example as it was. */
  beforeEach(async () => {
    await workbench.host(async (vscode, text) => {
      const editor = vscode.window.activeTextEditor;
      if (!editor || editor.document.getText() === text) return;
      const end = editor.document.lineCount;
      await editor.edit((edit) => edit.replace(new vscode.Range(0, 0, end, 0), text));
    }, example);
  });

  it('a clean plan has no error', async () => {
    await expect.poll(drawn).toContain('margin');
    const findings = await workbench.findings(file, () => true);
    expect(findings.filter(({ severity }) => severity === 0)).toEqual([]);
  });

  it('hints say limits at the head of the columns and a margin at every row', async () => {
    await expect.poll(drawn).toMatch(/1300 nm B>A\s*limit \d/);
    await expect.poll(drawn).toMatch(/0\.64\s*margin \+\d/);
    // Whole, margin and all.
    await expect
      .poll(drawn)
      .toMatch(/berth 3" \{\s*limit .*recalled at 1300 nm · margin \+\d\.\d\d\s/);
    await workbench.pictures('hints');
  });

  it('a changed reading changes its verdict', async () => {
    await replace('1.02 ', '4.02 ');
    await expect.poll(drawn).toMatch(/fail, \d+\.\d+ over/);
    await workbench.pictures('reading-over-the-limit');
    await replace('4.02 ', '1.02 ');
    await expect.poll(drawn).not.toContain('fail');
    await expect.poll(lenses).toMatch(/^pass/);
  });

  it('the lens above a link says its verdict again after each change', async () => {
    await expect.poll(lenses).toMatch(/^pass/);
    for (let time = 0; time < 2; time++) {
      await replace('1.02 ', '4.02 ');
      await expect.poll(lenses).toMatch(/^fail/);
      await replace('4.02 ', '1.02 ');
      await expect.poll(lenses).toMatch(/^pass/);
    }
  });

  it('a hover shows how the limit is built, with its source', async () => {
    await putCursor('KQ-OPS-B3 "');
    await expect.poll(lenses).toMatch(/^pass/);
    await workbench.command('linkwright.showLimit');
    const hover = workbench.page.locator('.monaco-hover:not(.hidden)').first();
    await hover.waitFor();
    await expect.poll(() => hover.innerText()).toContain('TIA-568.3-E');
    await workbench.pictures('hover');
    await workbench.page.keyboard.press('Escape');
  });

  it('on a line inside a link it is the limit of that link, with what weighs most in it', async () => {
    await putCursor('carries     10GBASE-SR');
    await workbench.command('linkwright.showLimit');
    const hover = workbench.page.locator('.monaco-hover:not(.hidden)').first();
    await hover.waitFor();
    await expect.poll(() => hover.innerText()).toContain('What weighs most');
    await workbench.page.keyboard.press('Escape');
  });

  it('a fibre of another core is underlined where it joins', async () => {
    await replace('segment     180 m OM4', 'segment     180 m OM4\n  segment     20 m OM1');
    const findings = await workbench.findings(file, (names) =>
      names.includes('core-size-mismatch'),
    );
    expect(findings.find(({ name }) => name === 'core-size-mismatch')?.message).toMatch(/62\.5 µm/);
    await workbench.page.locator('.squiggly-error, .squiggly-warning').first().waitFor();
    // The editor asks for lenses a moment after an edit, and not while another part has the focus.
    await expect.poll(lenses).toBe('invalid · 10GBASE-SR not supported');
    await workbench.command('workbench.actions.view.problems');
    await workbench.page.locator('.markers-panel .monaco-list-row').first().waitFor();
    await workbench.pictures('finding');
    await workbench.command('workbench.action.closePanel');
  });

  it('completion offers the words of a block while they are typed', async () => {
    await putCursor('carries     10GBASE-SR');
    await workbench.command('editor.action.insertLineAfter');
    await workbench.page.keyboard.type('spl');
    const offers = workbench.page.locator('.suggest-widget.visible .monaco-list-row');
    await expect
      .poll(() => offers.allInnerTexts())
      .toContainEqual(expect.stringContaining('splice'));
    await workbench.page.keyboard.press('Escape');
  });

  it('formatting lays out what was typed anyhow', async () => {
    await replace('  connector   LC\n  carries', ' connector LC\n  carries');
    await workbench.command('editor.action.formatDocument');
    await expect
      .poll(() => workbench.host((vscode) => vscode.window.activeTextEditor?.document.getText()))
      .toBe(example);
  });

  it('the definition of a library fibre opens, and cannot be typed into', async () => {
    await putCursor('OM4\n  connector');
    await workbench.command('editor.action.revealDefinition');
    await expect
      .poll(() => workbench.host((vscode) => vscode.window.activeTextEditor?.document.uri.scheme))
      .toBe('linkwright-library');
    const text = await workbench.host((vscode) =>
      vscode.window.activeTextEditor?.document.getText(),
    );
    expect(text).toContain('OM4');
  });
});

describe('the status bar', () => {
  it('says how many readings are there and goes to the next missing one', async () => {
    await workbench.open('coverage', { 'gap.lwl': example.replace('1.05 ', '-    ') });
    await putCursor('0.93');
    const item = workbench.page.locator('[id="linkwright.linkwright.linkwright.coverage"]');
    await expect
      .poll(() => item.innerText())
      .toMatch(/KQ-OPS-B3 15 of 16, worst margin [+−][\d.]+ dB, next fibre 2 850 nm B>A/);
    await workbench.command('linkwright.nextMissingReading');
    const line = await workbench.host((vscode) => {
      const editor = vscode.window.activeTextEditor;
      return editor?.document.lineAt(editor.selection.active.line).text;
    });
    expect(line).toMatch(/^ {2}2 /);
  });
});
