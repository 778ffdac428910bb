/**
 * `npm test`: types, form and unused code, then every test in one run of vitest, the
 * real VS Code included. The last line counts what the runner has really run.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { dist, root } from './paths.ts';

interface Report {
  readonly numTotalTests: number;
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numFailedTestSuites: number;
  readonly success: boolean;
}

const report = join(dist, 'test-report.json');
mkdirSync(dist, { recursive: true });
rmSync(report, { force: true });

const filters = process.argv.slice(2);
const sound = [
  step('types', 'typescript/bin/tsc', ['-p', '.']),
  step('generated files', '../client/build/generate.ts', ['--check']),
  step('unused code', 'knip/bin/knip.js', ['--no-progress']),
  step('form and lint', '@biomejs/biome/bin/biome', ['check', '--diagnostic-level=warn']),
].every(Boolean);
const ran = step('tests', 'vitest/vitest.mjs', [
  'run',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report}`,
  ...filters,
]);

const { numTotalTests, numPassedTests, numFailedTests, success } = read();
// A file that could not be loaded, or a workbench that did not start, counts no test of its own.
const failed = ran && success ? numFailedTests : Math.max(numFailedTests, 1);
if (!sound)
  process.stdout.write(
    'Types, generated files, unused code or form are not in order; see above.\n',
  );
process.stdout.write(`${numPassedTests} passed, ${failed} failed\n`);
process.exit(sound && ran && success && numTotalTests > 0 && failed === 0 ? 0 : 1);

function step(name: string, script: string, words: readonly string[]): boolean {
  process.stdout.write(`— ${name}\n`);
  const done = spawnSync(process.execPath, [join(root, 'node_modules', script), ...words], {
    cwd: root,
    stdio: 'inherit',
  });
  return done.status === 0;
}

function read(): Report {
  try {
    return JSON.parse(readFileSync(report, 'utf8')) as Report;
  } catch {
    return {
      numTotalTests: 0,
      numPassedTests: 0,
      numFailedTests: 0,
      numFailedTestSuites: 0,
      success: false,
    };
  }
}
