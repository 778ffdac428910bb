/**
 * `npm run prove`: the laws over far more generated input than `npm test` has
 * time for; each law for a minute at most. The seed is new each time and printed;
 * give it, and how many cases a law, to run the same input again. Then the error
 * study writes its page anew.
 */
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { join } from 'node:path';
import { root } from './paths.ts';

const seed = process.argv[2] ?? String(randomInt(2 ** 31));
const runs = process.argv[3] ?? '5000';
/** What a law may take; those over whole plans meet as many cases as they can in it. */
const seconds = process.argv[4] ?? '60';
process.stdout.write(
  `At most ${runs} cases and ${seconds} s a law, seed ${seed}: npm run prove -- ${seed} ${runs} ${seconds}\n`,
);
const done = spawnSync(
  process.execPath,
  [join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--project=laws', '--test-timeout=600000'],
  {
    cwd: root,
    stdio: 'inherit',
    env: {
      ...process.env,
      LINKWRIGHT_SEED: seed,
      LINKWRIGHT_RUNS: runs,
      LINKWRIGHT_SECONDS: seconds,
    },
  },
);
/** What is told of mistakes in a batch, and how often wrongly: some minutes, the same in every run. */
const study = spawnSync(process.execPath, [join(root, 'tests/studies/study.ts')], {
  cwd: root,
  stdio: 'inherit',
});
process.exit(done.status || study.status || 0);
