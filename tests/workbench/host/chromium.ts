/** Finds Chromium, or installs Debian's where the system allows it. */
import { spawnSync } from 'node:child_process';

const names = ['chromium', 'chromium-browser', 'google-chrome'];

/** Path of a Chromium; installs Debian's package as root where none is there. */
export function findChromium(): string {
  const found = look();
  if (found) return found;
  const apt = spawnSync('apt-get', ['--version']).status === 0;
  if (!apt || process.getuid?.() !== 0) {
    throw new Error(
      'The workbench tests need Chromium, and none of chromium, chromium-browser, google-chrome ' +
        'is on the path. Install it (on Debian: apt-get install chromium) or name it in ' +
        'LINKWRIGHT_CHROMIUM.',
    );
  }
  process.stderr.write("Installing Debian's chromium for the workbench tests …\n");
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  for (const words of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    const done = spawnSync('apt-get', words, { env, encoding: 'utf8' });
    if (done.status !== 0) {
      throw new Error(`apt-get ${words.join(' ')} failed:\n${done.stderr}`);
    }
  }
  const installed = look();
  if (!installed) throw new Error('apt-get installed chromium, yet it is not on the path.');
  return installed;
}

function look(): string | undefined {
  if (process.env.LINKWRIGHT_CHROMIUM) return process.env.LINKWRIGHT_CHROMIUM;
  for (const name of names) {
    const found = spawnSync('which', [name], { encoding: 'utf8' }).stdout?.trim();
    if (found) return found;
  }
  return undefined;
}
