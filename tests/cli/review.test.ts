/** What the folder of examples for reviewers offers, run as a code host and git would run it. */
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { dist } from '../../client/build/paths.ts';
import { emptyFolder, MadeRepository, removeAll } from '../git/made.ts';
import { plan, readings, whole } from './compared-plan.ts';

afterEach(removeAll);

/** Comes with the server that plans are measured against. */
const yaml = createRequire(createRequire(import.meta.url).resolve('yaml-language-server'))(
  'yaml',
) as { parse(text: string): unknown };

const example = (name: string) => readFileSync(join('examples/review', name), 'utf8');

/** A repository with a plan, and the program in a folder of its own as people have it in PATH. */
function made() {
  const programs = emptyFolder();
  const program = join(programs, 'linkwright');
  writeFileSync(
    program,
    `#!/bin/sh\nexec "${process.execPath}" "${join(dist, 'linkwright.cjs')}" "$@" \n`,
  );
  chmodSync(program, 0o755);
  const repository = new MadeRepository().write({ 'plan.lwl': whole });
  const base = repository.commit();
  const run = (script: string, variables: Readonly<Record<string, string>> = {}) => {
    const { status, stdout, stderr } = spawnSync('sh', ['-e', '-c', script], {
      cwd: repository.path,
      encoding: 'utf8',
      env: { ...process.env, ...variables, PATH: `${programs}:${process.env.PATH}` },
    });
    return { code: status, out: stdout, error: stderr };
  };
  return { repository, base, run };
}

const edited = whole.replace('0.90', '0.80');
const remeasured = `${whole}\n${readings('0.70', '1.00').replace('2026-03-14 09:05 to 09:40', '2026-03-14 10:05 to 10:40')}`;

describe('the workflow', () => {
  interface Step {
    readonly run?: string;
  }
  const workflow = yaml.parse(example('github-workflow.yml')) as {
    readonly permissions: unknown;
    readonly jobs: { readonly plans: { readonly steps: readonly Step[] } };
  };
  const [install, say, show] = workflow.jobs.plans.steps.flatMap(({ run }) => run ?? []);

  it('may read the repository and nothing more', () => {
    expect(workflow.permissions).toEqual({ contents: 'read' });
    expect(install).toBe('npm install --global ./tools/linkwright-0.1.0.tgz');
  });

  it('says what changes, and stops at edited evidence only', () => {
    const { repository, base, run } = made();
    const summary = join(emptyFolder(), 'summary.md');
    const variables = { BASE: base, GITHUB_STEP_SUMMARY: summary };
    repository.write({ 'plan.lwl': remeasured }).commit();
    expect(run(say!, variables)).toMatchObject({ code: 0, error: '' });
    expect(readFileSync(summary, 'utf8')).toContain('## Changes of the plan: 1 engineering change');
    repository.write({ 'plan.lwl': edited }).commit();
    expect(run(say!, variables).code).toBe(1);
    expect(run(show!, variables)).toMatchObject({
      code: 1,
      out: expect.stringMatching(/^::error file=plan\.lwl,line=32,.*title=reading-altered::/mu),
    });
  });
});

describe('the job', () => {
  const job = yaml.parse(example('gitlab-job.yml')) as {
    readonly plans: { readonly script: readonly string[] };
  };
  const script = job.plans.script.join('\n');

  it('writes all three reports before it fails', () => {
    const { repository, base, run } = made();
    repository.write({ 'plan.lwl': edited }).commit();
    expect(run(script, { CI_MERGE_REQUEST_DIFF_BASE_SHA: base }).code).toBe(1);
    for (const [name, says] of [
      ['changes.md', 'reading-altered'],
      ['quality.json', '"check_name": "reading-altered"'],
      ['results.xml', '<failure message='],
    ] as const) {
      expect(readFileSync(join(repository.path, name), 'utf8')).toContain(says);
    }
  });

  it('lets a new attempt through', () => {
    const { repository, base, run } = made();
    repository.write({ 'plan.lwl': remeasured }).commit();
    expect(run(script, { CI_MERGE_REQUEST_DIFF_BASE_SHA: base }).code).toBe(0);
  });
});

describe('the question before a commit', () => {
  it('lets a new attempt through, and no edited reading', () => {
    const { repository, run } = made();
    const hook = join(repository.path, '.git/hooks/pre-commit');
    writeFileSync(hook, example('pre-commit.txt'));
    chmodSync(hook, 0o755);
    const commit = () => {
      const words = 'commit --quiet --all -m x';
      const ran = run(`git -c user.name=x -c user.email=x@kestrel-quay.example ${words}`);
      // git hands on what a hook says as its own messages.
      return { code: ran.code, said: ran.out + ran.error };
    };
    repository.write({ 'plan.lwl': edited });
    expect(commit()).toMatchObject({
      code: 1,
      said: expect.stringContaining('[reading-altered]'),
    });
    repository.write({ 'plan.lwl': remeasured });
    expect(commit()).toMatchObject({ code: 0 });
    repository.git('switch', '--quiet', '--orphan', 'fresh');
    repository.write({ 'plan.lwl': plan.replace('OM4', 'OM44') });
    repository.git('add', '--all');
    expect(commit().said).toContain('[unknown-reference]');
  });
});

describe('the page for reviewers', () => {
  it('names every file that lies beside it, and only those', () => {
    const page = example('README.md');
    const linked = [...page.matchAll(/\]\(([^)]+)\)/gu)].map(([, path = '']) => path);
    for (const path of linked) expect(existsSync(join('examples/review', path)), path).toBe(true);
    for (const name of [
      'github-workflow.yml',
      'gitlab-job.yml',
      'pre-commit.txt',
      'gitattributes.txt',
      'gitconfig.txt',
    ]) {
      expect(linked).toContain(name);
    }
  });
});
