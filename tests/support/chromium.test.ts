/** What is done for a Chromium follows from what the machine has, and where nothing can be done it says so. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { decide } from './chromium.ts';

const onPath = '/usr/bin/chromium';

it('uses the one that is named, before one on the path', () => {
  const named = { path: '/opt/own/chrome', runs: true };
  expect(decide({ named, onPath, apt: true, root: true })).toEqual({
    do: 'use',
    path: '/opt/own/chrome',
  });
});

it('takes no other where the one that is named is not there', () => {
  const named = { path: '/opt/gone/chrome', runs: false };
  expect(decide({ named, onPath, apt: true, root: true })).toEqual({
    do: 'stop',
    because: 'LINKWRIGHT_CHROMIUM names /opt/gone/chrome, and no program is there.',
  });
});

it('installs nothing where one is on the path', () => {
  expect(decide({ onPath, apt: true, root: true })).toEqual({ do: 'use', path: onPath });
});

it('installs Debian’s package where it may', () => {
  const decision = decide({ apt: true, root: true });
  expect(decision.do === 'install' && decision.commands.map((words) => words.join(' '))).toEqual([
    'apt-get update',
    'apt-get install -y --no-install-recommends chromium',
  ]);
});

it.each([
  [{ apt: true, root: false }, 'only root may install it here'],
  [{ apt: false, root: true }, 'there is no apt-get to install it with'],
])('says what to do where it may not: %j', (machine, why) => {
  const decision = decide(machine);
  expect(decision.do === 'stop' && decision.because).toContain(why);
  expect(decision.do === 'stop' && decision.because).toContain('LINKWRIGHT_CHROMIUM');
});

it('says the same as a program, on a machine with an empty path', () => {
  const empty = mkdtempSync(join(tmpdir(), 'linkwright-path-'));
  const module = pathToFileURL(join(import.meta.dirname, 'chromium.ts')).href;
  const { LINKWRIGHT_CHROMIUM: _, ...rest } = process.env;
  const run = spawnSync(
    process.execPath,
    ['--input-type=module', '-e', `await (await import('${module}')).findChromium();`],
    { env: { ...rest, PATH: empty }, encoding: 'utf8' },
  );
  rmSync(empty, { recursive: true });
  expect(run.status).toBe(1);
  expect(run.stderr).toContain('The tests that look at pages need Chromium.');
  expect(run.stderr).toContain('there is no apt-get to install it with');
});
