/**
 * `npm run workbench`: a real VS Code in the browser on 127.0.0.1, with the
 * packaged extension installed and a copy of the examples open, for people
 * without a desktop VS Code. It runs until it is stopped with Ctrl+C.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { installWorkbench } from '../../tests/workbench/host/install.ts';
import { startServer } from '../../tests/workbench/host/server.ts';
import { settings } from '../../tests/workbench/host/settings.ts';
import { bundle } from './bundle.ts';
import { packageExtension } from './package.ts';
import { root } from './paths.ts';

await bundle();
const vsix = packageExtension();
const server = await installWorkbench();
const home = join(root, '.cache/workbench/people');
const data = join(home, 'server');
const extensions = join(home, 'extensions');
const workspace = join(home, 'examples');
const userSettings = join(data, 'data/User/settings.json');

rmSync(extensions, { recursive: true, force: true });
mkdirSync(join(data, 'data/User'), { recursive: true });
mkdirSync(extensions, { recursive: true });
if (!existsSync(userSettings)) writeFileSync(userSettings, JSON.stringify(settings, null, 2));
// A copy, kept from run to run: what somebody types there neither dirties the clone nor is lost.
if (!existsSync(workspace)) cpSync(join(root, 'examples'), workspace, { recursive: true });

const installed = spawnSync(
  process.execPath,
  [
    'out/server-main.js',
    '--accept-server-license-terms',
    ...['--server-data-dir', data],
    ...['--extensions-dir', extensions],
    ...['--install-extension', vsix],
  ],
  { cwd: server, encoding: 'utf8', env: { ...process.env, EXTENSIONS_GALLERY: '{}' } },
);
if (installed.status !== 0) {
  throw new Error(`The extension could not be installed:\n${installed.stdout}${installed.stderr}`);
}

const wanted = Number(process.argv[2] ?? 0);
const running = await startServer({ server, data, extensions, driver: false, port: wanted });
process.stdout.write(
  `VS Code with Linkwright and the examples: http://127.0.0.1:${running.port}/?folder=${encodeURIComponent(workspace)}\n` +
    `What you type is kept in ${workspace}\nCtrl+C ends it.\n`,
);
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.on(signal, () => running.process.kill());
}
running.process.on('exit', (code) => process.exit(code ?? 0));
