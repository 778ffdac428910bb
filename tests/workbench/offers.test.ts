/** What would make a link hold, taken from the editor's own list of fixes, by keyboard alone. */
import { expect, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();

/** 3.0 × 0.190 + 3 × 0.75 = 2.82 dB of 2.9; with 60 m more 3.0 dB, 0.10 dB too many. */
const crowded = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     130 m OM4
  connector   LC
  segment     120 m OM4
  connector   LC
  carries     10GBASE-SR
}
`;

const text = () =>
  workbench.host((vscode) => vscode.window.activeTextEditor?.document.getText() ?? '');

it('a fix is chosen from the list, the text says it, and the finding is gone', async () => {
  const file = 'offers/crowded.lwl';
  await workbench.open('offers', { 'crowded.lwl': crowded });
  const names = (found: readonly { readonly name: string }[]) => found.map(({ name }) => name);
  const before = await workbench.findings(file, (all) => all.some((name) => name.includes('loss')));
  await workbench.page.locator('.editor-instance .view-lines').first().click();
  await workbench.host((vscode) => {
    const editor = vscode.window.activeTextEditor!;
    const at = editor.document.positionAt(editor.document.getText().indexOf('10GBASE') + 2);
    editor.selection = new vscode.Selection(at, at);
  });
  const offers = workbench.page.locator('.action-widget .monaco-list-row.action');
  // The list shuts when the text gets new hints or lenses: it is asked for until it stays.
  await expect
    .poll(
      async () => {
        const open = await offers.allInnerTexts();
        if (open.length === 0) await workbench.command('editor.action.quickFix');
        return open.join('\n');
      },
      { interval: 1000 },
    )
    .toContain('one pair LC fewer');
  await workbench.pictures('offers');
  const list = (await offers.allInnerTexts()).map((each) => each.trim());
  const wanted = list.findIndex((each) => each.includes('one pair LC fewer'));
  for (let step = 0; step < wanted; step++) await workbench.page.keyboard.press('ArrowDown');
  await workbench.page.keyboard.press('Enter');
  await expect
    .poll(text)
    .toBe(crowded.replace('130 m OM4\n  connector   LC\n  segment     120 m OM4', '250 m OM4'));
  const gone = names(before).find((name) => name.includes('loss'))!;
  expect(names(await workbench.findings(file, (all) => !all.includes(gone)))).not.toContain(gone);
});
