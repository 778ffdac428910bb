/**
 * Who may know whom. The table is the architecture's own: a folder imports what
 * its row names and nothing else, so that the core stays pure and the edges thin.
 */
import { globSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, posix } from 'node:path';
import { describe, expect, it } from 'vitest';

interface Row {
  /** Folder or file; the longest that fits a source decides. */
  readonly of: string;
  /** Folders and files of this repository; the own folder is always allowed. */
  readonly own: readonly string[];
  /** Packages from npm, by name or by a pattern ending in `*`. */
  readonly packages: readonly string[];
  /** Built-in modules of Node. */
  readonly node?: 'none' | 'any' | readonly string[];
}

const core = ['grammar/src', 'grammar/library', 'server/src/optics'];
const pure = [...core, 'server/src/model', 'server/src/evaluate', 'server/src/checks'];
const protocolTypes = ['vscode-languageserver-types', 'vscode-languageserver-protocol'];

const table: readonly Row[] = [
  { of: 'grammar/src/quantity', own: [], packages: [] },
  { of: 'grammar', own: [], packages: ['chevrotain'] },
  { of: 'server/src/optics', own: ['grammar/src/quantity'], packages: [] },
  { of: 'server/src/model', own: core, packages: [] },
  {
    of: 'server/src/evaluate',
    own: ['server/src/model', 'server/src/optics', 'grammar/src/quantity'],
    packages: [],
  },
  {
    of: 'server/src/checks',
    own: ['grammar/src', 'server/src/model', 'server/src/evaluate', 'server/src/optics'],
    packages: [],
  },
  { of: 'server/src/project', own: pure, packages: ['vscode-uri'] },
  { of: 'server/src/compare', own: [...pure, 'server/src/project'], packages: [] },
  {
    of: 'server/src/import',
    own: [...pure, 'server/src/project'],
    packages: ['csv-parse', 'fflate', 'read-excel-file', 'jsonc-parser', 'zod', '@noble/hashes'],
  },
  {
    of: 'server/src/workbook',
    own: ['server/src/import'],
    packages: [],
    node: ['node:path', 'node:worker_threads'],
  },
  {
    of: 'server/src/features',
    own: [
      ...pure,
      'server/src/project',
      'server/src/compare',
      'server/src/report',
      'server/src/import',
    ],
    packages: protocolTypes,
  },
  {
    of: 'server/src/report',
    own: [
      'server/src/model',
      'server/src/evaluate',
      'server/src/checks',
      'server/src/compare',
      'server/src/optics',
      'grammar/src/quantity',
    ],
    packages: [
      'preact',
      'preact-render-to-string',
      'd3-scale',
      'd3-shape',
      '@noble/hashes',
      'zod',
      'pdfmake',
      'dejavu-fonts-ttf',
      'write-excel-file',
      'hyparquet-writer',
    ],
  },
  { of: 'server/src/merge', own: ['grammar/src'], packages: [] },
  {
    of: 'server/src/git',
    own: ['server/src/project/decode.ts', 'server/src/project/files.ts'],
    packages: ['vscode-uri'],
    node: ['node:child_process', 'node:fs/promises', 'node:path'],
  },
  {
    of: 'server/src/cli',
    own: [
      ...pure,
      'server/src/project',
      'server/src/compare',
      'server/src/git',
      'server/src/merge',
      'server/src/report',
      'server/src/import',
      'server/src/session/node.ts',
      'server/src/workbook/begin.ts',
    ],
    // The manifest, for its version.
    packages: ['commander', 'zod', 'vscode-uri', 'fflate', 'package.json'],
    node: 'any',
  },
  {
    of: 'server/src/session',
    own: ['server/src', 'client/src/preview/messages.ts', 'grammar/src'],
    packages: ['vscode-languageserver', 'vscode-uri', 'vscode-languageserver-*', 'zod'],
  },
  {
    // Where a repository lies is asked of the disk; it is left out of the web.
    of: 'server/src/session/git-history.ts',
    own: ['server/src/session', 'server/src/git', 'server/src/project'],
    packages: ['vscode-uri'],
    node: ['node:fs/promises', 'node:path'],
  },
  { of: 'server/src/server.ts', own: ['server/src/session'], packages: [] },
  {
    of: 'server/src/server.browser.ts',
    own: ['server/src/session', 'server/src/project'],
    packages: ['vscode-languageserver'],
  },
  {
    of: 'server/src/server.browser.ts',
    own: ['server/src'],
    packages: ['vscode-languageserver'],
  },
  {
    of: 'server/src/session',
    own: [...pure, 'server/src/project', 'server/src/features', 'server/src/report'],
    packages: ['vscode-languageserver', 'vscode-languageserver-protocol', 'zod'],
  },
  {
    of: 'client/src',
    own: [],
    packages: ['vscode', 'vscode-languageclient', 'vscode-uri', 'zod'],
    node: ['node:path'],
  },
  {
    of: 'client/src/preview/page',
    own: ['client/src/preview', 'server/src/report', 'server/src/evaluate/result.ts'],
    packages: ['preact', 'd3-scale', 'd3-shape', 'zod'],
  },
];

/** `node:fs` stands in one file of the project folder only: the loader of the disk. */
const nodeFsInProject = 1;

const sources = ['client/src', 'server/src', 'grammar/src']
  .flatMap((folder) => globSync(`${folder}/**/*.{ts,tsx}`))
  .map((path) => path.replaceAll('\\', '/'))
  .filter((path) => !path.endsWith('.d.ts'));

describe('the direction of dependencies', () => {
  it('has sources to read', () => {
    expect(sources.length).toBeGreaterThan(5);
  });

  it('is that of the table', () => {
    const broken = sources.flatMap((source) =>
      importsOf(source)
        .filter((target) => !allowed(source, target))
        .map((target) => `${source} imports ${target}`),
    );
    expect(broken).toEqual([]);
  });

  it('reads the disk in one file of the project only', () => {
    const readers = sources
      .filter((source) => source.startsWith('server/src/project/'))
      .filter((source) => importsOf(source).some((target) => target.startsWith('node:')));
    expect(readers.length).toBeLessThanOrEqual(nodeFsInProject);
  });

  it('would notice an import that the table does not name', () => {
    expect(allowed('server/src/evaluate/verdict.ts', 'grammar/src/tree.ts')).toBe(false);
    expect(allowed('server/src/evaluate/verdict.ts', 'node:fs')).toBe(false);
    expect(allowed('grammar/src/quantity/exact.ts', 'chevrotain')).toBe(false);
    expect(allowed('client/src/extension.ts', 'server/src/project/types.ts')).toBe(false);
    expect(allowed('server/src/features/hover.ts', 'vscode')).toBe(false);
    expect(allowed('server/src/evaluate/verdict.ts', 'grammar/src/quantity/index.ts')).toBe(true);
  });
});

/** Repository paths, package names and `node:` names that a file imports, types included. */
function importsOf(source: string): string[] {
  const text = readFileSync(source, 'utf8')
    .replaceAll(/\/\*[\s\S]*?\*\//g, '')
    .replaceAll(/^\s*\/\/.*$/gm, '');
  const found = [
    ...text.matchAll(/^\s*(?:import|export)\s[^'"`;]*?from\s*['"]([^'"]+)['"]/gm),
    ...text.matchAll(/^\s*import\s*['"]([^'"]+)['"]/gm),
    ...text.matchAll(/\bimport\(\s*['"]([^'"]+)['"]\s*\)/g),
    ...text.matchAll(/\brequire\(\s*['"]([^'"]+)['"]\s*\)/g),
  ].map((match) => match[1] ?? '');
  return found.map((name) => {
    if (name.startsWith('.'))
      return posix.normalize(join(dirname(source), name).replaceAll('\\', '/'));
    if (name.startsWith('node:') || builtinModules.includes(name)) {
      return `node:${name.replace(/^node:/, '')}`;
    }
    return name;
  });
}

function allowed(source: string, target: string): boolean {
  const row = table
    .filter((each) => within(source, each.of))
    .sort((a, b) => b.of.length - a.of.length)[0];
  if (!row) return false;
  if (target.startsWith('node:')) {
    if (source.startsWith('server/src/project/'))
      return target.startsWith('node:fs') || target === 'node:path' || target === 'node:url';
    return row.node === 'any' || (Array.isArray(row.node) && row.node.includes(target));
  }
  if (/^(client|server|grammar)\//.test(target)) {
    return within(target, row.of) || row.own.some((each) => within(target, each));
  }
  return row.packages.some((name) => fits(target, name));
}

function within(path: string, folder: string): boolean {
  return path === folder || path.startsWith(`${folder}/`);
}

/** A package's sub-paths belong to it: `preact/hooks` is `preact`. */
function fits(target: string, name: string): boolean {
  if (name.endsWith('*')) return target.startsWith(name.slice(0, -1));
  return target === name || target.startsWith(`${name}/`);
}
