/**
 * `npm run generate`: writes everything that is generated, each part by its own
 * generator. With `--check` nothing is written, and what is stale is named.
 */
import { spawnSync } from 'node:child_process';
import { globSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './paths.ts';

const generators = globSync('{grammar,server}/generate.ts', { cwd: root }).sort();
let stale = false;
for (const generator of generators) {
  const done = spawnSync(process.execPath, [join(root, generator), ...process.argv.slice(2)], {
    cwd: root,
    stdio: 'inherit',
  });
  stale ||= done.status !== 0;
}
process.exit(stale ? 1 : 0);
