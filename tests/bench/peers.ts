/** The language servers that are measured side by side, each as its users run it: a process over stdio. */
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { dist } from '../../client/build/paths.ts';

const { resolve } = createRequire(import.meta.url);

export interface Peer {
  readonly name: 'ours' | 'json' | 'yaml';
  readonly title: string;
  readonly program: readonly string[];
  readonly languageId: string;
  readonly ending: string;
  /** Milliseconds that it waits on purpose before it looks at a change; stands in its sources. */
  readonly delay: number;
  /** Notification that says that everything has been looked at, also what no editor has open. */
  readonly settled?: string;
  settings(schemaFile: string): Readonly<Record<string, unknown>>;
}

export const peers: readonly Peer[] = [
  {
    name: 'ours',
    title: 'this one',
    program: [process.execPath, join(dist, 'server.cjs'), '--stdio'],
    languageId: 'linkwright',
    ending: 'lwl',
    delay: 0,
    settled: 'linkwright/resultsChanged',
    settings: () => ({}),
  },
  {
    name: 'json',
    title: 'vscode-json-languageserver',
    program: [
      process.execPath,
      resolve('vscode-json-languageserver/bin/vscode-json-languageserver'),
      '--stdio',
    ],
    languageId: 'json',
    ending: 'json',
    // `validationDelayMs` in its jsonServer.js
    delay: 300,
    settings: (file) => ({
      json: {
        validate: { enable: true },
        schemas: [{ fileMatch: ['*.json'], url: pathToFileURL(file).href }],
      },
    }),
  },
  {
    name: 'yaml',
    title: 'yaml-language-server',
    program: [
      process.execPath,
      resolve('yaml-language-server/bin/yaml-language-server'),
      '--stdio',
    ],
    languageId: 'yaml',
    ending: 'yaml',
    // `validationDelayMs` in its yamlSettings.js
    delay: 200,
    settings: (file) => ({
      yaml: {
        validate: true,
        hover: true,
        completion: true,
        schemaStore: { enable: false },
        schemas: { [pathToFileURL(file).href]: '*.yaml' },
      },
    }),
  },
];
