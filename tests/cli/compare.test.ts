/** `linkwright compare`: which two states, what it says of them, and the exit code that scripts rely on. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { afterEach, describe, expect, it } from 'vitest';
import { emptyFolder, git, MadeRepository, removeAll } from '../git/made.ts';
import { asOf, plan, readings, whole } from './compared-plan.ts';
import { Folder, type Ran, runIn } from './run.ts';

let folder: Folder | undefined;

afterEach(() => {
  folder?.remove();
  folder = undefined;
  removeAll();
});

const longer = whole.replace('180 m', '240 m');

function compared(files: Readonly<Record<string, string>>, ...words: string[]): Ran {
  folder = new Folder(files);
  return folder.run('compare', ...words, ...asOf);
}

describe('compare OLD NEW', () => {
  it('ends with 0 where nothing of engineering changed, whatever the layout', () => {
    const laid = `# a remark\n${whole.replaceAll('  fibres      1..2', '  fibres 1..2')}`;
    for (const now of [whole, laid, whole.replaceAll('\n', '\r\n')]) {
      const { code, out, error } = compared({ 'old/a.lwl': whole, 'new/a.lwl': now }, 'old', 'new');
      expect({ code, error }).toEqual({ code: 0, error: '' });
      expect(out).toContain('old, compared with new · Example · no engineering change');
    }
  });

  it('says what changed, where, and what that does to margins', () => {
    const { code, out } = compared({ 'old/a.lwl': whole, 'new/a.lwl': longer }, 'old', 'new');
    expect(code).toBe(1);
    expect(out).toContain('new/a.lwl:13; old/a.lwl:13 before');
    expect(out).toContain('was 180 m, now 240 m');
    // 60 m more at 3.0 dB/km (TIA-568.3-E, 850 nm) allow 0.18 dB more.
    expect(out).toMatch(
      /KQ-1 1\.\.2 {2}worst of 2, 850 nm A>B {2}pass stays {2}\+0\.94 {2}\+1\.12/u,
    );
  });

  it('compares two files whatever they are called', () => {
    const { code, out } = compared(
      { 'monday.lwl': whole, 'friday.lwl': longer },
      'monday.lwl',
      'friday.lwl',
    );
    expect(code).toBe(1);
    expect(out).toContain('was 180 m, now 240 m');
  });

  it('follows includes above the folders that are compared', () => {
    const files = {
      'old/plans/a.lwl': `include "../shared/readings.lwl"\n\n${plan}`,
      'old/shared/readings.lwl': readings('0.90', '1.10'),
      'new/plans/a.lwl': `include "../shared/readings.lwl"\n\n${plan}`,
      'new/shared/readings.lwl': readings('0.90', '0.70'),
    };
    const { code, out } = compared(files, 'old/plans', 'new/plans');
    expect(code).toBe(1);
    expect(out).toContain('new/shared/readings.lwl:7; old/shared/readings.lwl:7 before');
    expect(out).toContain('was 1.10 dB, now 0.70 dB');
    expect(out).toContain('1 engineering change');
  });

  it('tells a plan that is new, and one that is gone, apart', () => {
    const other = whole.replaceAll('KQ-1', 'KQ-9').replace('"Example"', '"Other"');
    const more = { 'old/a.lwl': whole, 'new/a.lwl': whole, 'new/b.lwl': other };
    expect(compared(more, 'old', 'new')).toMatchObject({ code: 1 });
    const { out } = folder!.run('compare', 'old', 'new', ...asOf);
    expect(out).toMatch(/plan Other/u);
    expect(out).toMatch(/^1 plan is as it was\.$/mu);
    const back = folder?.run('compare', 'new', 'old', ...asOf, '--format', 'json');
    const forms = JSON.parse(back?.out ?? '') as readonly {
      plan: string;
      changes: { form: string }[];
    }[];
    expect(forms.map(({ plan: path, changes }) => [path, changes.map(({ form }) => form)])).toEqual(
      [
        ['old/a.lwl', []],
        ['new/b.lwl', ['gone']],
      ],
    );
  });

  it('fails for what it is told to only', () => {
    const files = { 'old/a.lwl': whole, 'new/a.lwl': whole.replace('0.90', '0.80') };
    const failing = (...on: string[]) => compared(files, 'old', 'new', '--fail-on', ...on).code;
    expect(failing('evidence')).toBe(1);
    expect(failing('change')).toBe(1);
    expect(failing('rule')).toBe(0);
    const harmless = { 'old/a.lwl': plan, 'new/a.lwl': plan.replace('0.15 dB', '0.16 dB') };
    expect(compared(harmless, 'old', 'new', '--fail-on', 'evidence,rule').code).toBe(0);
    expect(compared(harmless, 'old', 'new').code).toBe(1);
  });

  it.each([
    ['one path alone', ['old'], 'Name two states'],
    ['three paths', ['old', 'new', 'old'], 'Name two states'],
    ['a path that is not there', ['old', 'nowhere'], 'There is no file or folder "nowhere".'],
    ['a folder without plans', ['old', 'empty'], 'There is no plan'],
    ['a file that is no plan', ['empty/readme.json', 'new'], 'neither a plan nor a record'],
    [
      'a form that it does not know',
      ['old', 'new', '--format', 'poem'],
      'Allowed choices are text',
    ],
    ['no repository', ['--git', 'HEAD'], 'lies in no git repository'],
  ])('ends with 2 for %s', (_, words, says) => {
    const files = { 'old/a.lwl': whole, 'new/a.lwl': whole, 'empty/readme.json': '{}' };
    const { code, out, error } = compared(files, ...words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toContain(says);
  });
});

describe('compare --git', () => {
  const made = () => {
    const repository = new MadeRepository().write({ 'plans/a.lwl': whole });
    repository.commit();
    return repository;
  };
  const run = (at: MadeRepository | string, ...words: string[]) =>
    runIn(typeof at === 'string' ? at : at.path, 'compare', '--git', ...words, ...asOf);

  it('holds the working copy against a revision, and two revisions against each other', () => {
    const repository = made().write({ 'plans/a.lwl': longer });
    expect(run(repository, 'HEAD')).toMatchObject({ code: 1, error: '' });
    expect(run(repository, 'HEAD').out).toContain('the working copy');
    repository.commit();
    expect(run(repository, 'HEAD').code).toBe(0);
    expect(run(repository, 'HEAD~1', 'HEAD').out).toContain('was 180 m, now 240 m');
    expect(run(repository, 'HEAD', 'HEAD~1').out).toContain('was 240 m, now 180 m');
    expect(run(repository, 'HEAD~1', 'HEAD', 'plans').code).toBe(1);
  });

  it('tells a path from a revision, and asks where a word is both', () => {
    const repository = made().write({ 'plans/a.lwl': longer, 'other/b.lwl': plan });
    expect(run(repository, 'HEAD', 'other').out).not.toContain('180 m');
    expect(run(repository, 'HEAD', 'plans/a.lwl').out).toContain('was 180 m, now 240 m');
    repository.git('branch', 'plans');
    expect(run(repository, 'HEAD', 'plans')).toMatchObject({ code: 2 });
    expect(run(repository, 'HEAD', './plans').out).toContain('was 180 m, now 240 m');
  });

  it('sees that a file, a folder or a link has another name, and nothing else', () => {
    const repository = made();
    repository.git('mv', 'plans', 'site plans');
    repository.commit();
    repository.git('mv', 'site plans/a.lwl', 'site plans/größe – 北.lwl');
    const { out } = run(repository, 'HEAD~1');
    expect(out).not.toMatch(/evidence|was 180 m/u);
    repository.write({ 'site plans/größe – 北.lwl': whole.replaceAll('KQ-1', 'KQ-2') });
    const renamed = run(repository, 'HEAD~1', '--format', 'json').out;
    const { changes } = JSON.parse(renamed) as { changes: { kind: string; guard: unknown }[] };
    expect(changes.map(({ kind }) => kind)).toContain('identity');
    expect(changes.filter(({ guard }) => guard)).toEqual([]);
  });

  it('is quiet about a change that was merged and reverted', () => {
    const repository = made();
    repository.git('switch', '--quiet', '--create', 'longer');
    repository.write({ 'plans/a.lwl': longer }).commit();
    repository.git('switch', '--quiet', 'main');
    repository.write({ 'plans/b.lwl': '# another file\n' }).commit();
    repository.git('merge', '--quiet', '--no-edit', 'longer');
    expect(run(repository, 'main~1', 'main').out).toContain('was 180 m, now 240 m');
    repository.git('revert', '--no-edit', '-m', '1', 'HEAD');
    expect(run(repository, 'HEAD~2', 'HEAD').code).toBe(0);
    expect(run(repository, 'longer', 'HEAD').out).toContain('was 240 m, now 180 m');
  });

  it('works in a folder below, in a second working copy, and in a repository without one', () => {
    const repository = made();
    repository.write({ 'plans/a.lwl': longer }).commit();
    expect(run(join(repository.path, 'plans'), 'HEAD~1').out).toContain(
      'a.lwl:13; a.lwl:13 before',
    );
    const beside = join(emptyFolder(), 'beside');
    repository.git('worktree', 'add', '--quiet', beside, 'HEAD~1');
    expect(run(beside, 'main').out).toContain('was 240 m, now 180 m');
    const bare = join(emptyFolder(), 'bare.git');
    git(repository.path, 'clone', '--quiet', '--bare', repository.path, bare);
    expect(run(bare, 'main~1', 'main').out).toContain('plans/a.lwl:13; plans/a.lwl:13 before');
    expect(run(bare, 'main')).toMatchObject({ code: 2, out: '' });
    expect(run(bare, 'main').error).toContain('Name two revisions');
  });

  it('says what a shallow clone cannot compare, and compares what it can', () => {
    const repository = made();
    repository.write({ 'plans/a.lwl': longer }).commit();
    const shallow = join(emptyFolder(), 'shallow');
    git(repository.path, 'clone', '--quiet', '--depth=1', `file://${repository.path}`, shallow);
    const asked = run(shallow, 'HEAD~1');
    expect(asked).toMatchObject({ code: 2, out: '' });
    expect(asked.error).toContain('shallow clone');
    writeFileSync(join(shallow, 'plans/a.lwl'), whole);
    expect(run(shallow, 'HEAD').out).toContain('was 240 m, now 180 m');
  });

  it.each([
    ['-x', 'unknown option|is no revision'],
    ['nowhere', 'There is no revision "nowhere"'],
    ['a..b', 'two revisions'],
  ])('ends with 2 for the revision %s', (revision, says) => {
    const { code, error } = run(made(), revision);
    expect(code).toBe(2);
    expect(error).toMatch(new RegExp(says, 'u'));
  });

  it('refuses paths outside the repository, and a path that no revision holds', () => {
    const repository = made();
    expect(run(repository, 'HEAD', '..').error).toMatch(/outside the repository|no plan/u);
    expect(run(repository, 'HEAD', './nothing.lwl').error).toContain('There is no plan');
  });

  it('tells a plan that was deleted in the working copy', () => {
    const repository = made().write({ 'other.lwl': plan.replaceAll('KQ-1', 'KQ-7') });
    repository.commit();
    repository.git('rm', '--quiet', 'plans/a.lwl');
    const { code, out } = run(repository, 'HEAD', './plans/a.lwl');
    expect(code).toBe(1);
    expect(out).toMatch(/plan Example/u);
  });
});

describe('the JSON form', () => {
  it('fits its published schema, in every kind of effect', () => {
    const changed = longer
      .replace('0.90', '0.80')
      .replace('connector   LC\n}', 'connector   LC\n  carries     10GBASE-SR\n}');
    const { out } = compared(
      { 'old/a.lwl': whole, 'new/a.lwl': changed },
      'old',
      'new',
      '--format',
      'json',
    );
    const form = JSON.parse(out);
    const validate = new Ajv().compile(
      JSON.parse(readFileSync('server/comparison.schema.json', 'utf8')),
    );
    expect(validate(form), JSON.stringify(validate.errors)).toBe(true);
    expect(form).toMatchObject({ version: 1, document: 'comparison', plan: 'new/a.lwl' });
    const kinds = new Set(form.effects.map(({ kind }: { kind: string }) => kind));
    expect(kinds).toEqual(new Set(['reading', 'design', 'application', 'object']));
    const evidence = form.changes.find(({ kind }: { kind: string }) => kind === 'evidence');
    expect(evidence).toMatchObject({ was: '0.90 dB', now: '0.80 dB', guard: { answered: null } });
    for (const change of form.changes) {
      for (const index of change.effects)
        expect(form.effects[index].causes).toContain(form.changes.indexOf(change));
    }
  });
});
