import { expect, it } from 'vitest';
import { useWorkbench } from './host/workbench.ts';

const workbench = useWorkbench();

it('activates on the first plan that is opened', async () => {
  await workbench.open('activation', { 'first.lwl': '# an empty plan\n' });
  await expect
    .poll(() =>
      workbench.host((vscode) => vscode.extensions.getExtension('linkwright.linkwright')?.isActive),
    )
    .toBe(true);
  const language = await workbench.host(
    (vscode) => vscode.window.activeTextEditor?.document.languageId,
  );
  expect(language).toBe('linkwright');
  await workbench.pictures('first-plan');
});
