/**
 * `npm run prove`: the laws over far more generated input than `npm test` has
 * time for, each law for a minute at most; the error study, which writes its page
 * anew; commands killed while they write; and changed lines of optics and evaluation,
 * each of which a test has to notice. One of the four alone:
 * `npm run prove -- laws|study|kills|changes`.
 *
 * The seed of the laws is new each time and printed; give it, and how many cases
 * and seconds a law, to run the same input again: `npm run prove -- laws 7 5000 60`.
 * The same holds for the moments at which commands are killed: `npm run prove -- kills 7 50`.
 * Behind `changes` may stand the files to change; what was found before and cannot
 * have moved since is kept in `.cache/mutation`. `changes drawn [seed [share [files]]]`
 * tries a random sample of them, and says between which bounds the score of all lies.
 */
import { spawnSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { existsSync, globSync, rmSync } from 'node:fs';
import { constants, setPriority } from 'node:os';
import { join } from 'node:path';
import { addCounts, type Counts, countsIn, scoreInWords } from '../../tests/mutation/drawn.ts';
import { placesDrawn } from '../../tests/mutation/places.ts';
import runnerSettings from '../../tests/mutation/stryker.config.json' with { type: 'json' };
import { root } from './paths.ts';

const parts: Readonly<Record<string, (...words: string[]) => number | Promise<number>>> = {
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

  /** Each command that writes, killed at so many moments of its run and as many of its writing. */
  kills(seed = String(randomInt(2 ** 31)), times = '50') {
    process.stdout.write(
      `${times} kills each, seed ${seed}: npm run prove -- kills ${seed} ${times}\n`,
    );
    return run(
      'node_modules/vitest/vitest.mjs',
      ['run', '--project=protocol', 'tests/cli/killed.test.ts'],
      { LINKWRIGHT_SEED: seed, LINKWRIGHT_KILLS: times },
    );
  },

  /** Hours for all of it the first time; its closing table says the score, and 85 % is the least. */
  async changes(...words) {
    setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
    const runner = 'node_modules/@stryker-mutator/core/bin/stryker.js';
    const settings = ['run', 'tests/mutation/stryker.config.json'];
    const report = join(root, '.cache/mutation/report.json');
    if (words.length === 0) {
      // What each test runs is kept for every change at once: for all files that is more than fits.
      const all = globSync(runnerSettings.mutate, { cwd: root }).sort();
      let counts: Counts = { noticed: 0, tried: 0, refused: 0 };
      for (let at = 0; at < all.length; at += 10) {
        rmSync(report, { force: true });
        // A run keeps what it has tried, and that alone.
        const kept = ['--incrementalFile', `.cache/mutation/whole-${at / 10}.json`];
        run(runner, [...settings, ...kept, ...only(all.slice(at, at + 10))]);
        if (!existsSync(report)) return 1;
        counts = addCounts(counts, countsIn(report));
      }
      process.stdout.write(`${scoreInWords(counts)}\n`);
      return counts.noticed * 100 >= counts.tried * runnerSettings.thresholds.break ? 0 : 1;
    }
    if (words[0] !== 'drawn') return run(runner, [...settings, ...only(words)]);

    const [, seed = String(randomInt(2 ** 31)), share = '0.02', ...files] = words;
    process.stdout.write(
      `A share of ${share}, seed ${seed}: npm run prove -- changes drawn ${seed} ${share}\n`,
    );
    const drawn = [
      ...['--plugins', [...runnerSettings.plugins, './tests/mutation/drawn.ts'].join()],
      ...['--checkers', ['drawn', ...runnerSettings.checkers].join()],
      // What was not drawn counts as settled there: no other run may take it up.
      ...['--incrementalFile', `.cache/mutation/drawn-${seed}-${share}.json`],
    ];
    const among = globSync(files.length > 0 ? files : runnerSettings.mutate, { cwd: root });
    const places = await placesDrawn(root, among, seed, Number(share));
    if (places.length === 0) {
      process.stdout.write('Nothing was drawn.\n');
      return 0;
    }
    // A list of thousands goes into no command line; then all of the files are made ready.
    const changed = places.length > 2000 ? among : places;
    const status = run(runner, [...settings, ...drawn, ...only(changed)], {
      LINKWRIGHT_DRAWN: `${seed}:${share}`,
    });
    process.stdout.write(`${scoreInWords(countsIn(report))}\n`);
    return status;
  },
};

const [first = '', ...rest] = process.argv.slice(2);
if (first && !Object.hasOwn(parts, first)) {
  process.stderr.write(`no part named "${first}"; there are: ${Object.keys(parts).join(', ')}\n`);
  process.exit(2);
}
const outcomes: (number | undefined)[] = [];
if (first) outcomes.push(await parts[first]?.(...rest));
else for (const part of Object.values(parts)) outcomes.push(await part());
process.exitCode = outcomes.every((status) => status === 0) ? 0 : 1;

function only(files: readonly string[]): string[] {
  return files.length > 0 ? ['--mutate', files.join(',')] : [];
}

function run(script: string, words: readonly string[], settings: NodeJS.ProcessEnv = {}): number {
  const { status } = spawnSync(process.execPath, [join(root, script), ...words], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...settings },
  });
  return status ?? 1;
}
