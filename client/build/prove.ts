/**
 * `npm run prove`: the laws over far more generated input than `npm test` has
 * time for, each law for a minute at most; the error study, which writes its page
 * anew; and changed lines of optics and evaluation, each of which a test has to
 * notice. One of the three alone: `npm run prove -- laws|study|changes`.
 *
 * The seed of the laws is new each time and printed; give it, and how many cases
 * and seconds a law, to run the same input again: `npm run prove -- laws 7 5000 60`.
 * Behind `changes` may stand the files to change; what was found before and cannot
 * have moved since is kept in `.cache/mutation`.
 */
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { constants, setPriority } from 'node:os';
import { join } from 'node:path';
import { root } from './paths.ts';

const parts: Readonly<Record<string, (...words: string[]) => number>> = {
  laws(
    seed = String(randomInt(2 ** 31)),
    runs = '5000',
    /** What a law may take; those over whole plans meet as many cases as they can in it. */
    seconds = '60',
  ) {
    process.stdout.write(
      `At most ${runs} cases and ${seconds} s a law, seed ${seed}: npm run prove -- laws ${seed} ${runs} ${seconds}\n`,
    );
    return run(
      'node_modules/vitest/vitest.mjs',
      ['run', '--project=laws', '--test-timeout=600000'],
      {
        LINKWRIGHT_SEED: seed,
        LINKWRIGHT_RUNS: runs,
        LINKWRIGHT_SECONDS: seconds,
      },
    );
  },

  /** What is told of mistakes in a batch, and how often wrongly: some minutes, the same in every run. */
  study() {
    return run('tests/studies/study.ts', []);
  },

  /** Hours for all of it the first time; its closing table says the score, and 85 % is the least. */
  changes(...files) {
    setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
    return run('node_modules/@stryker-mutator/core/bin/stryker.js', [
      'run',
      'tests/mutation/stryker.config.json',
      ...(files.length > 0 ? ['--mutate', files.join(',')] : []),
    ]);
  },
};

const [first = '', ...rest] = process.argv.slice(2);
if (first && !Object.hasOwn(parts, first)) {
  process.stderr.write(`no part named "${first}"; there are: ${Object.keys(parts).join(', ')}\n`);
  process.exit(2);
}
const outcomes = first ? [parts[first]?.(...rest)] : Object.values(parts).map((part) => part());
process.exitCode = outcomes.every((status) => status === 0) ? 0 : 1;

function run(script: string, words: readonly string[], settings: NodeJS.ProcessEnv = {}): number {
  const { status } = spawnSync(process.execPath, [join(root, script), ...words], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...settings },
  });
  return status ?? 1;
}
