/** Where things lie in the repository; everything made goes under one ignored folder. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

export const dist = join(root, 'dist');

/** The extension as it is packaged and as the tests run it. */
export const extensionStage = join(dist, 'stage-extension');

/** The command line as it is packaged. */
export const commandStage = join(dist, 'stage-command');

interface RootManifest {
  readonly name: string;
  readonly displayName: string;
  readonly version: string;
  readonly description: string;
  readonly license: string;
  readonly publisher: string;
  readonly engines: { readonly vscode: string };
}

export const rootManifest = JSON.parse(
  readFileSync(join(root, 'package.json'), 'utf8'),
) as RootManifest;
