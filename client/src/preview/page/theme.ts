/** Colours follow the editor's theme. */
import { raiseContrast } from './contrast.ts';

/** The editor says by classes of the body which theme is on; colours follow at once, contrast is looked at anew. */
export function followTheme(): void {
  const look = () => raiseContrast(document.body);
  const theme = () => document.body.dataset.vscodeThemeId ?? document.body.className;
  let before = theme();
  look();
  new MutationObserver(() => {
    const now = theme();
    if (now === before) return;
    before = now;
    look();
  }).observe(document.body, {
    attributes: true,
    attributeFilter: ['class', 'data-vscode-theme-id'],
  });
}
