/**
 * A plan in a real git repository, compared with a revision by keyboard: the
 * changes beside the text, gone to and back, the text as it was in a diff editor,
 * and what the links in the text say of the last commit.
 */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, inject, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';
import { isWritten } from './host/written.ts';

const workbench = useWorkbench();
const { workspace } = inject('workbench');
const folder = join(workspace, 'review');
const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const changed = example.replace('1.02 ', '4.02 ');

function git(...words: string[]): void {
  const who = ['-c', 'user.name=R. Vale', '-c', 'user.email=r.vale@kestrel-quay.example'];
  execFileSync('git', [...who, ...words], { cwd: folder, stdio: 'ignore' });
}

async function page(): Promise<string> {
  const frame = await workbench.webview();
  return (await frame.locator('body').innerText()).replaceAll('\u00a0', ' ');
}

async function drawn(what: string): Promise<string> {
  const lines = await workbench.page.locator(what).allInnerTexts();
  return lines.join('\n').replaceAll('\u00a0', ' ');
}

/** What the active editor shows: scheme, line of the cursor, selected text. */
function inText(): Promise<{ scheme: string; line: string }> {
  return workbench.host((vscode) => {
    const editor = vscode.window.activeTextEditor;
    return {
      scheme: editor?.document.uri.scheme ?? '',
      line: editor?.document.lineAt(editor.selection.active.line).text.trim() ?? '',
    };
  });
}

beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'first-link.lwl'), example);
  git('init', '--quiet', '--initial-branch=main');
  git('add', '--all');
  git('commit', '--quiet', '--message', 'First readings');
  await workbench.open('review', { 'first-link.lwl': changed });
});

describe('beside the text', () => {
  it('the editor knows the repository', async () => {
    const commit = () =>
      workbench.host(async (vscode, path) => {
        const extension = vscode.extensions.getExtension('vscode.git');
        const git = (await extension?.activate())?.getAPI(1);
        return git?.getRepository(vscode.Uri.file(path))?.state.HEAD?.commit ?? '';
      }, folder);
    await expect.poll(commit, { timeout: 60_000 }).toMatch(/^[0-9a-f]{40}$/u);
  });

  it('a link says by itself what changed since the last commit, and its hint what the verdict was', async () => {
    await expect
      .poll(() => drawn('.codelens-decoration'))
      .toMatch(/changed since HEAD: fail was pass, margin −\d\.\d\d was \+\d\.\d\d/u);
    await expect.poll(() => drawn('.editor-instance .view-line')).toMatch(/· was pass/u);
    await workbench.pictures('changes-beside');
  });
});

describe('the changes since a revision', () => {
  it('open by keyboard, at a branch that is typed', async () => {
    const { keyboard } = workbench.page;
    await workbench.page.locator('.editor-instance .view-line').first().click();
    await keyboard.press('F1');
    await workbench.page.locator('.quick-input-widget input').first().waitFor();
    await keyboard.type('Compare with a revision');
    await expect
      .poll(() => drawn('.quick-input-list .focused'))
      .toContain('Linkwright: Compare with a revision');
    await keyboard.press('Enter');
    await expect.poll(() => drawn('.quick-input-widget')).toMatch(/HEAD[\s\S]*branches/u);
    await workbench.pictures('changes-choose');
    await keyboard.type('main');
    await expect.poll(() => drawn('.quick-input-list .focused')).toContain('main');
    await keyboard.press('Enter');
    await expect.poll(page).toContain('Changes since main');
    await expect.poll(page).toMatch(/was 1\.02 dB, now 4\.02 dB/u);
    expect(await page()).toContain('reading-altered');
    await workbench.pictures('changes');
  });

  it('lead to the text as it is', async () => {
    const frame = await workbench.webview();
    await frame.locator('.cause-where .goto').first().click();
    await expect
      .poll(inText)
      .toMatchObject({ scheme: 'file', line: expect.stringMatching(/4\.02/u) });
  });

  it('are marked where the cursor stands', async () => {
    const frame = await workbench.webview();
    await expect.poll(() => frame.locator('.change.at-cursor').count()).toBe(1);
    await workbench.host((vscode) => {
      const editor = vscode.window.visibleTextEditors.find(
        ({ document }) => document.languageId === 'linkwright',
      );
      if (editor) editor.selection = new vscode.Selection(0, 0, 0, 0);
    });
    await expect.poll(() => frame.locator('.change.at-cursor').count()).toBe(0);
  });

  it('go on while somebody types', async () => {
    await workbench.host(async (vscode) => {
      const editor = vscode.window.visibleTextEditors.find(
        ({ document }) => document.languageId === 'linkwright',
      );
      const at = editor?.document.getText().indexOf('4.02 ') ?? -1;
      if (!editor || at < 0) throw new Error('The reading is not there');
      const start = editor.document.positionAt(at);
      await editor.edit((edit) =>
        edit.replace(new vscode.Range(start, start.translate(0, 4)), '5.03'),
      );
    });
    await expect.poll(page).toMatch(/now 5\.03 dB/u);
  });

  it('lead to the text as it was, beside the text as it is', async () => {
    const frame = await workbench.webview();
    await frame.locator('.change .goto', { hasText: 'as it was' }).first().click();
    const shown = () =>
      workbench.host((vscode) =>
        vscode.window.visibleTextEditors.map(({ document, selection }) => ({
          scheme: document.uri.scheme,
          line: document.lineAt(selection.active.line).text.trim(),
          holds: document.getText().includes('1.02 '),
        })),
      );
    await expect.poll(shown).toContainEqual({
      scheme: 'linkwright-was',
      line: expect.stringMatching(/1\.02/u),
      holds: true,
    });
    await workbench.page.locator('.monaco-diff-editor').first().waitFor();
    await workbench.pictures('changes-as-it-was');
  });

  it('open from the link that changed, at that link', async () => {
    await workbench.clear();
    await workbench.show('review/first-link.lwl');
    // The editor comes back to where it was scrolled to.
    await workbench.host((vscode) =>
      vscode.window.activeTextEditor?.revealRange(new vscode.Range(0, 0, 0, 0)),
    );
    await expect.poll(() => drawn('.codelens-decoration')).toContain('changed since main');
    await workbench.page.locator('.codelens-decoration a').nth(1).click();
    await expect.poll(page).toMatch(/Changes since main/u);
  });

  it('are there again in a window that is loaded anew', { timeout: 240_000 }, async () => {
    await workbench.command('workbench.action.files.saveAll');
    const state = 'revision[\\\\"]*:[\\\\"]*main';
    await expect.poll(() => isWritten(workbench.page, state)).toBe(true);
    await workbench.reload();
    await expect.poll(page, { timeout: 120_000 }).toMatch(/was 1\.02 dB, now 4\.02 dB/u);
    expect(await page()).toContain('Changes since main');
  });
});
