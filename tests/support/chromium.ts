/**
 * The Chromium that shows pages in tests: the one that is named or on the path,
 * else Debian's, installed where the system lets us. What to do follows from
 * what the machine has, by a function of its own.
 */
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { root } from '../../client/build/paths.ts';
import { underLock } from './lock.ts';

/** Starts a Chromium that shows nothing on the screen and asks nobody anything by itself. */
export async function launchChromium(): Promise<Browser> {
  return chromium.launch({
    executablePath: await findChromium(),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-background-networking',
      '--disable-component-update',
      '--no-first-run',
    ],
  });
}

/** Path of a Chromium that can be started; installs Debian's package where none is there. */
export async function findChromium(): Promise<string> {
  const decision = decide(lookAround());
  if (decision.do === 'use') return decision.path;
  if (decision.do === 'stop') throw new Error(decision.because);
  // Several test files ask at once, and only one may install.
  return underLock(join(root, '.cache/chromium.lock'), () => {
    const now = decide(lookAround());
    return now.do === 'use' ? now.path : install(decision.commands);
  });
}

/** What a machine has towards a Chromium. */
export interface Machine {
  /** What LINKWRIGHT_CHROMIUM names, and whether that can be run. */
  readonly named?: { readonly path: string; readonly runs: boolean };
  /** The first of the usual names that is on the path. */
  readonly onPath?: string;
  readonly apt: boolean;
  readonly root: boolean;
}

export type Decision =
  | { readonly do: 'use'; readonly path: string }
  | { readonly do: 'install'; readonly commands: readonly (readonly string[])[] }
  | { readonly do: 'stop'; readonly because: string };

const names = ['chromium', 'chromium-browser', 'google-chrome'];
const advice =
  'Install it (on Debian: apt-get install chromium) or name one in LINKWRIGHT_CHROMIUM.';

export function decide({ named, onPath, apt, root }: Machine): Decision {
  if (named) {
    if (named.runs) return { do: 'use', path: named.path };
    const because = `LINKWRIGHT_CHROMIUM names ${named.path}, and no program is there.`;
    return { do: 'stop', because };
  }
  if (onPath) return { do: 'use', path: onPath };
  if (apt && root) {
    return {
      do: 'install',
      commands: [
        ['apt-get', 'update'],
        ['apt-get', 'install', '-y', '--no-install-recommends', 'chromium'],
      ],
    };
  }
  const why = apt ? 'only root may install it here' : 'there is no apt-get to install it with';
  return {
    do: 'stop',
    because: `The tests that look at pages need Chromium. None of ${names.join(', ')} is on the path, and ${why}. ${advice}`,
  };
}

function lookAround(): Machine {
  const named = process.env.LINKWRIGHT_CHROMIUM;
  return {
    ...(named ? { named: { path: named, runs: runnable(named) } } : {}),
    onPath: names.map(whereIs).find((path) => path !== undefined),
    apt: whereIs('apt-get') !== undefined,
    root: process.getuid?.() === 0,
  };
}

function whereIs(program: string): string | undefined {
  const folders = (process.env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return folders.map((folder) => join(folder, program)).find(runnable);
}

function runnable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function install(commands: readonly (readonly string[])[]): string {
  process.stderr.write('No Chromium is on the path: installing Debian’s for the tests …\n');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const [program = '', ...words] of commands) {
    const done = spawnSync(program, words, { env, encoding: 'utf8' });
    if (done.status === 0) continue;
    const said = `${done.error?.message ?? ''}${done.stderr ?? ''}`.trim();
    throw new Error(
      `Chromium could not be installed: ${[program, ...words].join(' ')} failed. ${advice}\n${said}`,
    );
  }
  const after = decide(lookAround());
  if (after.do !== 'use') {
    throw new Error(`apt-get ended well, yet no Chromium is on the path. ${advice}`);
  }
  return after.path;
}
