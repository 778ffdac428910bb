/**
 * The manifests that reach users. They are made from tables and never from the
 * repository's own package.json, so that no development dependency and no Node
 * binary can slip into a package.
 */
import { rootManifest } from './paths.ts';

interface Command {
  readonly id: string;
  readonly title: string;
  readonly icon?: string;
  /** Where the palette shows it. */
  readonly when?: string;
}

const inPlan = 'editorLangId == linkwright';

export const commands: readonly Command[] = [
  { id: 'linkwright.openResults', title: 'Open results', icon: '$(list-flat)' },
  { id: 'linkwright.nextMissingReading', title: 'Go to the next missing reading', when: inPlan },
  { id: 'linkwright.layOutReadings', title: 'Lay out readings', when: inPlan },
  { id: 'linkwright.enterReadings', title: 'Enter readings', when: inPlan },
  { id: 'linkwright.pasteReadings', title: 'Paste readings', when: inPlan },
  { id: 'linkwright.compareRevision', title: 'Compare with a revision' },
  { id: 'linkwright.importReadings', title: 'Import readings', when: inPlan },
  { id: 'linkwright.showLimit', title: 'Show how this limit is built', when: inPlan },
  { id: 'linkwright.writeFieldSheet', title: 'Write field sheet', when: inPlan },
  { id: 'linkwright.writeAcceptanceRecord', title: 'Write acceptance record', when: inPlan },
  { id: 'linkwright.newPlan', title: 'New plan' },
  { id: 'linkwright.openExample', title: 'Open example' },
  { id: 'linkwright.restartServer', title: 'Restart the language server' },
];

/** Files of the generated grammar folder that the extension contributes where they exist. */
export const highlighting = [
  'linkwright.tmLanguage.json',
  'language-configuration.json',
  'snippets.json',
] as const;

const settings = {
  'linkwright.hints.enabled': {
    type: 'boolean',
    default: true,
    order: 1,
    description: 'Show limits, margins and verdicts beside the text.',
  },
  'linkwright.hints.most': {
    type: 'number',
    default: 2000,
    minimum: 0,
    order: 2,
    description: 'The greatest number of hints shown at once.',
  },
  'linkwright.precision': {
    type: 'number',
    default: 2,
    minimum: 0,
    maximum: 6,
    order: 3,
    description: 'Decimals of decibels as shown. Comparisons always use unrounded values.',
  },
  'linkwright.lengthUnit': {
    type: 'string',
    enum: ['m', 'ft'],
    default: 'm',
    order: 4,
    description: 'Unit in which lengths are shown. The text is left as it is.',
  },
  'linkwright.tester': {
    type: 'string',
    default: '',
    order: 6,
    description:
      'Your name as it stands in records. New blocks of readings say it; asked for once where it is empty.',
  },
  'linkwright.sinceLastCommit': {
    type: 'boolean',
    default: true,
    order: 7,
    description: 'Say at a link in the text what changed in it since the last commit.',
  },
  'linkwright.severities': {
    type: 'object',
    default: {},
    order: 5,
    additionalProperties: { enum: ['error', 'warning', 'note', 'off'] },
    markdownDescription:
      'How severe a finding is for you, by its name, for example `{ "tester-unnamed": "off" }`. What makes readings invalid or a line unreadable stays an error.',
  },
};

/** The manifest of the packaged extension; `staged` are the grammar files that are there. */
export function extensionManifest(staged: ReadonlySet<string>, browser: boolean): object {
  const at = (file: string) => `./language/${file}`;
  return {
    name: rootManifest.name,
    displayName: rootManifest.displayName,
    version: rootManifest.version,
    description: rootManifest.description,
    license: rootManifest.license,
    publisher: rootManifest.publisher,
    engines: { vscode: rootManifest.engines.vscode },
    icon: 'images/icon.png',
    categories: ['Programming Languages', 'Linters', 'Formatters'],
    keywords: ['fibre', 'fiber', 'cabling', 'loss budget', 'attenuation'],
    main: './dist/extension.cjs',
    ...(browser ? { browser: './dist/extension.browser.js' } : {}),
    // The language and the commands activate by being contributed (VS Code 1.74 and later).
    activationEvents: [
      'onWebviewPanel:linkwright.results',
      'onWebviewPanel:linkwright.changes',
      'workspaceContains:**/*.lwl',
    ],
    extensionKind: ['workspace'],
    capabilities: {
      untrustedWorkspaces: { supported: true },
      virtualWorkspaces: { supported: true },
    },
    contributes: {
      languages: [
        {
          id: 'linkwright',
          aliases: ['Linkwright'],
          extensions: ['.lwl'],
          icon: { light: './images/file-light.svg', dark: './images/file-dark.svg' },
          ...(staged.has('language-configuration.json')
            ? { configuration: at('language-configuration.json') }
            : {}),
        },
      ],
      ...(staged.has('linkwright.tmLanguage.json')
        ? {
            grammars: [
              {
                language: 'linkwright',
                scopeName: 'source.linkwright',
                path: at('linkwright.tmLanguage.json'),
              },
            ],
          }
        : {}),
      ...(staged.has('snippets.json')
        ? { snippets: [{ language: 'linkwright', path: at('snippets.json') }] }
        : {}),
      jsonValidation: [{ fileMatch: '*.columns.json', url: './language/mapping.schema.json' }],
      configuration: { title: 'Linkwright', properties: settings },
      configurationDefaults: {
        '[linkwright]': {
          'editor.formatOnSave': true,
          'editor.formatOnType': true,
          'editor.insertSpaces': true,
          'editor.tabSize': 2,
          'editor.detectIndentation': false,
          'editor.semanticHighlighting.enabled': true,
          // A link's hint says limit, margin and readings; the editor would cut it before the margin.
          'editor.inlayHints.maximumLength': 120,
          'editor.wordBasedSuggestions': 'off',
        },
      },
      commands: commands.map(({ id, title, icon }) => ({
        command: id,
        title,
        category: 'Linkwright',
        ...(icon ? { icon } : {}),
      })),
      menus: {
        commandPalette: commands
          .filter((each) => each.when)
          .map((each) => ({ command: each.id, when: each.when })),
        'editor/title': [{ command: 'linkwright.openResults', when: inPlan, group: 'navigation' }],
      },
    },
  };
}

/** The manifest of the npm package with the command line. */
export function commandManifest(): object {
  return {
    name: rootManifest.name,
    version: rootManifest.version,
    description: rootManifest.description,
    license: rootManifest.license,
    bin: { linkwright: 'dist/linkwright.cjs' },
    engines: { node: '>=22' },
    files: ['dist', 'README.md', 'CHANGELOG.md', 'LICENSE'],
  };
}
