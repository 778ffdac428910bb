/** Packs the staged folders: the extension as a .vsix, the command line as an npm tarball. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { commandStage, dist, extensionStage, root, rootManifest } from './paths.ts';

/** Path of the packaged extension. */
export function packageExtension(): string {
  const vsix = join(dist, `${rootManifest.name}-${rootManifest.version}.vsix`);
  const vsce = join(root, 'node_modules/@vscode/vsce/vsce');
  run(process.execPath, [
    vsce,
    'package',
    '--no-dependencies',
    '--no-rewrite-relative-links',
    '--allow-missing-repository',
    '--out',
    vsix,
  ]);
  return vsix;

  function run(program: string, words: readonly string[]): void {
    const done = spawnSync(program, words, { cwd: extensionStage, encoding: 'utf8' });
    if (done.status !== 0) {
      throw new Error(`The extension could not be packaged:\n${done.stdout}\n${done.stderr}`);
    }
  }
}

/** Path of the npm tarball with the command line. */
export function packageCommand(): string {
  const done = spawnSync('npm', ['pack', '--ignore-scripts', '--pack-destination', dist], {
    cwd: commandStage,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  if (done.status !== 0) throw new Error(`npm pack failed:\n${done.stderr}`);
  return join(dist, `${rootManifest.name}-${rootManifest.version}.tgz`);
}
