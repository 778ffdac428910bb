/**
 * Brings a real VS Code (server and web workbench) from npm into an ignored
 * cache folder, named by version, platform and Node ABI. Two runs at once share
 * it: one installs under a lock, and the folder appears whole by a rename.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { root } from '../../../client/build/paths.ts';
import { underLock } from '../../support/lock.ts';

const version = '4.139.1';
const cache = join(root, '.cache', 'workbench');
const name = `${version}-${process.platform}-${process.arch}-abi${process.versions.modules}`;

/** Modules with native code that the extension host cannot do without. */
const native = ['@vscode/native-watchdog', '@vscode/spdlog'];

/** The folder of the VS Code server, installed if it is not there yet. */
export async function installWorkbench(): Promise<string> {
  const home = join(cache, name);
  const server = join(home, 'node_modules/code-server/lib/vscode');
  if (existsSync(home)) return server;
  await underLock(join(cache, `${name}.lock`), () => {
    if (!existsSync(home)) installInto(home);
  });
  return server;
}

function installInto(home: string): void {
  process.stderr.write(`Installing a VS Code for the workbench tests (620 MB, once): ${home}\n`);
  const growing = `${home}.${process.pid}`;
  const server = join(growing, 'node_modules/code-server/lib/vscode');
  rmSync(growing, { recursive: true, force: true });
  mkdirSync(growing, { recursive: true });
  writeFileSync(join(growing, 'package.json'), '{ "private": true }\n');
  npm(growing, ['install', '--no-save', `code-server@${version}`]);
  npm(server, ['install', '--omit=dev']);
  npm(join(server, 'extensions'), ['install', '--omit=dev']);
  npm(server, ['rebuild', ...native], false);
  for (const each of native) {
    if (!existsSync(join(server, 'node_modules', each, 'build/Release'))) {
      throw new Error(`${each} was not built; g++, make and python3 are needed for it.`);
    }
  }
  renameSync(growing, home);
}

function npm(folder: string, words: readonly string[], ignoreScripts = true): void {
  const quiet = ['--no-audit', '--no-fund', '--loglevel=error', '--no-package-lock'];
  // `npm rebuild` runs install scripts whatever the machine's own settings say of them.
  const scripts = ignoreScripts
    ? ['--ignore-scripts']
    : ['--ignore-scripts=false', '--foreground-scripts', '--dangerously-allow-all-scripts'];
  const done = spawnSync('npm', [...words, ...quiet, ...scripts], {
    cwd: folder,
    encoding: 'utf8',
    // The headers of the Node that runs the server; npm's own settings of the outer script
    // (this repository as prefix, its lockfile) must not reach in.
    env: { ...withoutNpm(process.env), npm_config_nodedir: dirname(dirname(process.execPath)) },
  });
  if (done.status !== 0) {
    throw new Error(`npm ${words.join(' ')} failed in ${folder}:\n${done.stdout}\n${done.stderr}`);
  }
}

function withoutNpm(environment: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  return Object.fromEntries(
    Object.entries(environment).filter(
      ([key]) => !/^npm_(package|lifecycle|config_local)/.test(key),
    ),
  );
}
