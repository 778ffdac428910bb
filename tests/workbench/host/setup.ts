/**
 * Starts one VS Code for all workbench tests, by the public way in for extension
 * tests. The executable is our launcher, or the desktop VS Code that
 * LINKWRIGHT_VSCODE names.
 */
import { randomUUID } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { runTests } from '@vscode/test-electron';
import { build } from 'esbuild';
import type { TestProject } from 'vitest/node';
import { extensionStage, root } from '../../../client/build/paths.ts';
import bundled from '../../support/bundled.ts';
import { addressOfDoor } from './door.ts';
import { settings } from './settings.ts';

declare module 'vitest' {
  interface ProvidedContext {
    readonly workbench: {
      /** Root of the open workspace. */
      readonly workspace: string;
      /** File with the port of the door into the extension host; each host has its own. */
      readonly doorFile: string;
      readonly key: string;
      /** Address at which Chromium is driven. */
      readonly debugging: string;
      /** Ignored folder for screenshots. */
      readonly artefacts: string;
      /** The unpacked extension. */
      readonly extension: string;
    };
  }
}

export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const home = join(root, '.cache/workbench', `run-${process.pid}`);
  const workspace = join(home, 'workspace');
  const userData = join(home, 'data');
  const extension = join(home, 'extension');
  const suite = join(home, 'suite.cjs');
  const artefacts = join(root, 'artefacts');
  const doorFile = join(home, 'door');
  const key = randomUUID();
  rmSync(home, { recursive: true, force: true });
  for (const folder of [workspace, join(userData, 'User'), join(home, 'extensions'), artefacts]) {
    mkdirSync(folder, { recursive: true });
  }
  writeFileSync(join(userData, 'User/settings.json'), JSON.stringify(settings, null, 2));

  await bundled();
  // A copy: a build that runs meanwhile must not take the files away.
  cpSync(extensionStage, extension, { recursive: true });
  await build({
    entryPoints: [join(root, 'tests/workbench/host/suite.ts')],
    outfile: suite,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    external: ['vscode'],
  });

  const said: string[] = [];
  const listen = { write: (part: unknown) => said.push(String(part)) };
  const port = await freePort();
  let over: Error | 'done' | undefined;
  const run = runTests({
    vscodeExecutablePath:
      process.env.LINKWRIGHT_VSCODE ?? join(root, 'tests/workbench/host/launch.ts'),
    extensionDevelopmentPath: extension,
    extensionTestsPath: suite,
    extensionTestsEnv: { LINKWRIGHT_DOOR: doorFile, LINKWRIGHT_DOOR_KEY: key },
    launchArgs: [
      workspace,
      `--user-data-dir=${userData}`,
      `--extensions-dir=${join(home, 'extensions')}`,
      `--remote-debugging-port=${port}`,
    ],
    stdout: listen as unknown as NodeJS.WriteStream,
    stderr: listen as unknown as NodeJS.WriteStream,
  }).then(
    () => {
      over = 'done';
    },
    (error: Error) => {
      over = error;
    },
  );

  while (!existsSync(doorFile)) {
    if (over) {
      throw new Error(`VS Code ended before its suite began: ${over}\n${said.join('')}`);
    }
    await pause(100);
  }
  project.provide('workbench', {
    workspace,
    doorFile,
    key,
    debugging: `http://127.0.0.1:${port}`,
    artefacts,
    extension,
  });

  return async () => {
    if (!over) {
      await fetch(await addressOfDoor(doorFile), {
        method: 'POST',
        headers: { authorization: key },
        body: JSON.stringify({ source: null }),
      });
    }
    await run;
    // The editor may still write something down as it ends.
    rmSync(home, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
    if (over instanceof Error) throw new Error(`VS Code ended badly: ${over}\n${said.join('')}`);
  };
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  await new Promise((resolve) => server.close(resolve));
  return port;
}
