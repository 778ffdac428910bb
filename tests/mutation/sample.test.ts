/**
 * A fixed sample of what `npm run prove -- changes` does with all of optics and
 * evaluation: each line below is changed in every way that is known, one at a
 * time, and a test of its own folder has to notice what the compiler does not refuse.
 * It also holds that the proof runs.
 */
import { execFile } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, test } from 'vitest';
import config from './stryker.config.json' with { type: 'json' };

const root = join(import.meta.dirname, '../..');

const mutate = [
  between('server/src/optics/joints.ts', 'export function coreStepLoss(', '/**\n * Joint of'),
  between('server/src/evaluate/decide.ts', 'export function decide(', '/** Whether a verdict'),
];
const testFiles = ['tests/optics/optics.test.ts', 'tests/evaluate/decide.test.ts'];

interface Report {
  readonly files: Readonly<Record<string, { readonly mutants: readonly Changed[] }>>;
}
interface Changed {
  readonly status: string;
  readonly replacement?: string;
  readonly location: { readonly start: { readonly line: number } };
}

test('no change of the sample goes unnoticed', { timeout: 300_000 }, async () => {
  const folder = mkdtempSync(join(tmpdir(), 'linkwright-sample-'));
  const report = join(folder, 'report.json');
  const settings = join(folder, 'settings.json');
  const sample = {
    ...config,
    mutate,
    testFiles,
    incremental: false,
    tempDirName: '.cache/mutation/sample',
    reporters: ['json'],
    jsonReporter: { fileName: report },
    thresholds: { ...config.thresholds, break: null },
    logLevel: 'error',
  };
  writeFileSync(settings, JSON.stringify(sample));
  try {
    await promisify(execFile)(
      process.execPath,
      [join(root, 'node_modules/@stryker-mutator/core/bin/stryker.js'), 'run', settings],
      { cwd: root, env: outside() },
    );
    const { files } = JSON.parse(readFileSync(report, 'utf8')) as Report;
    const changes = Object.entries(files).flatMap(([file, { mutants }]) =>
      mutants.map(({ status, replacement, location }) => ({
        status,
        change: `${file}:${location.start.line} ${replacement}`,
      })),
    );
    const refused = changes.filter(({ status }) => status === 'CompileError');
    const tried = changes.filter((change) => !refused.includes(change));
    expect(tried.filter(({ status }) => status !== 'Killed' && status !== 'Timeout')).toEqual([]);
    expect(tried.length).toBeGreaterThan(30);
    expect(refused.length).toBeGreaterThan(3);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});

/** The lines from one text up to another, as a range of lines. */
function between(file: string, from: string, to: string): string {
  const text = readFileSync(join(root, file), 'utf8');
  const [first, last] = [from, to].map((part) => text.split(part)[0]?.split('\n').length ?? 1);
  if (!text.includes(from) || !text.includes(to)) throw new Error(`${file} has no ${from}`);
  return `${file}:${first}-${last}`;
}

/** Without what the runner of this test has put there for its own workers. */
function outside(): NodeJS.ProcessEnv {
  return Object.fromEntries(
    Object.entries(process.env).filter(([name]) => !/^(VITEST|NODE_ENV|TEST$|VITE_)/u.test(name)),
  );
}
