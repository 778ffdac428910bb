/** Colours of the editor's four default themes, from memory, as it hands them to a page. */

export interface ThemeColours {
  readonly kind:
    | 'vscode-dark'
    | 'vscode-light'
    | 'vscode-high-contrast'
    | 'vscode-high-contrast-light';
  readonly paper: string;
  readonly ink: string;
  readonly fail: string;
  readonly warning: string;
  readonly info: string;
  readonly purple: string;
  readonly link: string;
  readonly focus: string;
  readonly hover: string;
  readonly border?: string;
}

export const themes = {
  dark: {
    kind: 'vscode-dark',
    paper: '#1f1f1f',
    ink: '#cccccc',
    fail: '#f14c4c',
    warning: '#cca700',
    info: '#59a4f9',
    purple: '#b180d7',
    link: '#4daafc',
    focus: '#0078d4',
    hover: '#2a2d2e',
  },
  light: {
    kind: 'vscode-light',
    paper: '#ffffff',
    ink: '#3b3b3b',
    fail: '#e51400',
    warning: '#bf8803',
    info: '#0063d3',
    purple: '#652d90',
    link: '#005fb8',
    focus: '#005fb8',
    hover: '#f2f2f2',
  },
  'high contrast dark': {
    kind: 'vscode-high-contrast',
    paper: '#000000',
    ink: '#ffffff',
    fail: '#f48771',
    warning: '#ffd370',
    info: '#59a4f9',
    purple: '#b180d7',
    link: '#21a6ff',
    focus: '#f38518',
    hover: '#000000',
    border: '#6fc3df',
  },
  'high contrast light': {
    kind: 'vscode-high-contrast-light',
    paper: '#ffffff',
    ink: '#292929',
    fail: '#b5200d',
    warning: '#895503',
    info: '#0063d3',
    purple: '#652d90',
    link: '#0f4a85',
    focus: '#006bbd',
    hover: '#ffffff',
    border: '#0f4a85',
  },
} as const satisfies Readonly<Record<string, ThemeColours>>;

export type ThemeName = keyof typeof themes;

/** The custom properties that the editor sets on a page. */
export function propertiesOf(theme: ThemeColours): string {
  const border = theme.border ? `--vscode-contrastBorder:${theme.border};` : '';
  return (
    `--vscode-editor-background:${theme.paper};--vscode-editor-foreground:${theme.ink};` +
    `--vscode-editorError-foreground:${theme.fail};--vscode-editorWarning-foreground:${theme.warning};` +
    `--vscode-editorInfo-foreground:${theme.info};--vscode-charts-purple:${theme.purple};` +
    `--vscode-textLink-foreground:${theme.link};--vscode-focusBorder:${theme.focus};` +
    `--vscode-list-hoverBackground:${theme.hover};${border}`
  );
}
