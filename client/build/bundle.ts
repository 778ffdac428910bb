/** Builds everything that is shipped into `dist/`: bundles, and the folders that are packaged. */
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type BuildOptions, build, type Plugin } from 'esbuild';
import { commandManifest, extensionManifest, highlighting } from './manifest.ts';
import { commandStage, dist, extensionStage, root } from './paths.ts';
import { packagedReadme } from './readme.ts';

const common: BuildOptions = {
  absWorkingDir: root,
  bundle: true,
  charset: 'utf8',
  legalComments: 'none',
  loader: { '.lwl': 'text' },
  logLevel: 'warning',
  minify: true,
  sourcemap: true,
  sourcesContent: false,
};

/** VS Code 1.102 and the command line run on Node 22. */
const forNode: BuildOptions = {
  ...common,
  platform: 'node',
  format: 'cjs',
  target: 'node22',
  mainFields: ['module', 'main'],
};

const forBrowser: BuildOptions = { ...common, platform: 'browser', target: 'es2023' };

function fontLicence(): string {
  const file = join(root, 'node_modules/dejavu-fonts-ttf/LICENSE');
  return readFileSync(file, 'utf8').replaceAll('*/', '* /');
}

/** A file of its own, loaded when somebody asks for what is in it. */
const apart = (filter: RegExp, path: string): Plugin => ({
  name: `apart-${path}`,
  setup: ({ onResolve }) => onResolve({ filter }, () => ({ path, external: true })),
});

/** Fonts, and what sets a PDF. */
const pdfApart = apart(/\/paper\/pdf\.ts$/, './pdf.cjs');
/** What writes Parquet. */
const parquetApart = apart(/\/parquet\.ts$/, './parquet.cjs');
/** What reads tables of readings. */
const importApart = apart(/\/import\/index\.ts$/, './import.cjs');
/** What parses workbooks: a thread of its own. Its folder is named, since what writes workbooks is a file of that name as well. */
const workbookApart = apart(/\/import\/workbook\.ts$/, './workbook.cjs');
/** What writes sheets and records. */
const papersApart = apart(/\/report\/papers\.ts$/, './papers.cjs');

/** Pages carry their sheet in themselves. */
const withPages: BuildOptions = {
  jsx: 'automatic',
  jsxImportSource: 'preact',
  loader: { '.lwl': 'text', '.css': 'text' },
};

const bundles: readonly (BuildOptions & { readonly from: string; readonly to: string })[] = [
  {
    ...forNode,
    from: 'server/src/server.ts',
    to: 'server.cjs',
    plugins: [papersApart, importApart],
  },
  {
    ...forNode,
    from: 'server/src/import/index.ts',
    to: 'import.cjs',
    plugins: [workbookApart],
  },
  { ...forNode, from: 'server/src/workbook/thread.ts', to: 'workbook.cjs' },
  {
    ...forNode,
    ...withPages,
    from: 'server/src/report/papers.ts',
    to: 'papers.cjs',
    plugins: [pdfApart],
  },
  {
    ...forNode,
    from: 'server/src/cli/main.ts',
    to: 'linkwright.cjs',
    ...withPages,
    banner: { js: '#!/usr/bin/env node' },
    plugins: [pdfApart, parquetApart, workbookApart],
  },
  { ...forNode, from: 'server/src/report/fleet/parquet.ts', to: 'parquet.cjs', sourcemap: false },
  {
    ...forNode,
    from: 'server/src/report/paper/pdf.ts',
    to: 'pdf.cjs',
    loader: { '.ttf': 'binary' },
    sourcemap: false,
    // Who passes the font on passes its licence on.
    banner: { js: `/*\n${fontLicence()}\n*/` },
  },
  { ...forNode, from: 'client/src/extension.ts', to: 'extension.cjs', external: ['vscode'] },
  {
    ...forBrowser,
    from: 'client/src/preview/page/main.tsx',
    to: 'preview.js',
    format: 'iife',
    jsx: 'automatic',
    jsxImportSource: 'preact',
  },
  {
    ...forBrowser,
    from: 'client/src/preview/page/changes.tsx',
    to: 'changes.js',
    format: 'iife',
    jsx: 'automatic',
    jsxImportSource: 'preact',
  },
  {
    ...forBrowser,
    from: 'client/src/extension.browser.ts',
    to: 'extension.browser.js',
    format: 'cjs',
    external: ['vscode'],
  },
  {
    ...forBrowser,
    ...withPages,
    from: 'server/src/server.browser.ts',
    to: 'server.browser.js',
    format: 'iife',
    plugins: [pdfApart],
    // The parser of CSV with what it needs of Node, made for browsers.
    alias: { 'csv-parse': 'csv-parse/browser/esm' },
  },
];

/** Bundles and stages; afterwards `dist/` holds what users get, unpacked. */
export async function bundle(): Promise<void> {
  mkdirSync(dist, { recursive: true });
  await Promise.all(
    bundles
      .filter(({ from }) => existsSync(join(root, from)))
      .map(({ from, to, ...options }) =>
        build({ ...options, entryPoints: [from], outfile: join(dist, to) }),
      ),
  );
  stageExtension();
  stageCommand();
}

function stageExtension(): void {
  startOver(extensionStage);
  copyDocuments(extensionStage);
  for (const file of [
    'extension.cjs',
    'server.cjs',
    'papers.cjs',
    'import.cjs',
    'workbook.cjs',
    'pdf.cjs',
    'preview.js',
    'preview.css',
    'changes.js',
    'changes.css',
    'extension.browser.js',
    'server.browser.js',
  ]) {
    copyIfThere(join(dist, file), join(extensionStage, 'dist', file));
  }
  for (const image of ['icon.png', 'file-light.svg', 'file-dark.svg']) {
    copyIfThere(join(root, 'client/images', image), join(extensionStage, 'images', image));
  }
  const staged = highlighting.filter((file) =>
    copyIfThere(join(root, 'grammar/highlighting', file), join(extensionStage, 'language', file)),
  );
  copyIfThere(
    join(root, 'server/mapping.schema.json'),
    join(extensionStage, 'language/mapping.schema.json'),
  );
  copyIfThere(join(root, 'examples'), join(extensionStage, 'examples'));
  const browser = existsSync(join(extensionStage, 'dist/extension.browser.js'));
  writeJson(join(extensionStage, 'package.json'), extensionManifest(new Set(staged), browser));
}

function stageCommand(): void {
  startOver(commandStage);
  copyDocuments(commandStage);
  for (const file of ['linkwright.cjs', 'pdf.cjs', 'parquet.cjs', 'workbook.cjs']) {
    copyIfThere(join(dist, file), join(commandStage, 'dist', file));
  }
  writeJson(join(commandStage, 'package.json'), commandManifest());
}

function copyDocuments(stage: string): void {
  const readme = readFileSync(join(root, 'README.md'), 'utf8');
  writeFileSync(join(stage, 'README.md'), packagedReadme(readme));
  for (const file of ['CHANGELOG.md', 'LICENSE']) {
    copyIfThere(join(root, file), join(stage, file));
  }
}

function startOver(folder: string): void {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
}

function copyIfThere(from: string, to: string): boolean {
  if (!existsSync(from)) return false;
  cpSync(from, to, { recursive: true });
  return true;
}

function writeJson(file: string, value: object): void {
  writeFileSync(file, `${JSON.stringify(value, null, 2)}\n`);
}

if (import.meta.main) await bundle();
