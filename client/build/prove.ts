/**
 * `npm run prove`: the laws over far more generated input than `npm test` has
 * time for. The seed is new each time and printed; give it as an argument to run
 * the same input again.
 */
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { join } from 'node:path';
import { root } from './paths.ts';

const seed = process.argv[2] ?? String(randomInt(2 ** 31));
const runs = process.argv[3] ?? '5000';
process.stdout.write(`${runs} cases a law, seed ${seed}: npm run prove -- ${seed} ${runs}\n`);
const done = spawnSync(
  process.execPath,
  [join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--project=laws', '--test-timeout=3600000'],
  {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, LINKWRIGHT_SEED: seed, LINKWRIGHT_RUNS: runs },
  },
);
process.exit(done.status ?? 1);
