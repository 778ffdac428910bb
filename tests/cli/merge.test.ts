/** `linkwright merge` as people call it, and as git does when it merges branches of a real repository. */
import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dist } from '../../client/build/paths.ts';
import { planned as base, readings, row } from '../merge/planned.ts';
import { judge } from '../support/judge.ts';
import { Folder } from './run.ts';

const ours = base + readings('2026-03-14', 'R. Vale', row(1, '0.52', '0.55'));
const theirs =
  base + readings('2026-03-15', 'T. Holm', row(1, '0.58', '0.59'), row(2, '0.50', '0.51'));

let folder: Folder;
beforeEach(() => {
  folder = new Folder({ base, ours, theirs });
});
afterEach(() => folder.remove());
const read = (path: string) => readFileSync(join(folder.path, path), 'utf8');

describe('the command', () => {
  it('writes what both typed over ours, and says nothing', () => {
    expect(folder.run('merge', 'base', 'ours', 'theirs', 'plan.lwl')).toEqual({
      code: 0,
      out: '',
      error: '',
    });
    expect(read('ours')).toContain('R. Vale');
    expect(read('ours')).toContain('T. Holm');
    expect([read('base'), read('theirs')]).toEqual([base, theirs]);
  });

  it('ends with 1 and says where to look if a choice is left', () => {
    writeFileSync(join(folder.path, 'ours'), base.replace('100 m', '110 m'));
    writeFileSync(join(folder.path, 'theirs'), base.replace('100 m', '120 m'));
    expect(folder.run('merge', 'base', 'ours', 'theirs', 'berths/plan.lwl')).toEqual({
      code: 1,
      out: '',
      error: 'berths/plan.lwl: both sides changed 1 place. Choose between the markers.\n',
    });
    expect(read('ours')).toContain('<<<<<<< ours\n  segment     110 m OM4\n=======\n');
  });

  it('says that two people measured the same', () => {
    const laid = (...cells: string[]) => base + readings('2026-03-14', 'R. Vale', row(1, ...cells));
    writeFileSync(join(folder.path, 'base'), laid('-', '-'));
    writeFileSync(join(folder.path, 'ours'), laid('0.52', '-'));
    writeFileSync(join(folder.path, 'theirs'), laid('0.58', '-'));
    expect(folder.run('merge', 'base', 'ours', 'theirs', 'plan.lwl')).toEqual({
      code: 0,
      out: '',
      error: 'plan.lwl: both sides measured; what they typed stands in a block behind ours.\n',
    });
  });

  it.each([
    ['a file is missing', () => {}, ['base', 'ours', 'nowhere'], 'Cannot read nowhere'],
    [
      'a file is no text',
      () => writeFileSync(join(folder.path, 'theirs'), Buffer.from([0x6c, 0xff, 0xfe, 0x0a])),
      ['base', 'ours', 'theirs'],
      'theirs is not a text in UTF-8',
    ],
    ['a file is not named', () => {}, ['base', 'ours'], 'missing required argument'],
  ])('ends with 2 and writes nothing if %s', (_, prepare, words, message) => {
    prepare();
    const { code, error } = folder.run('merge', ...words);
    expect(code).toBe(2);
    expect(error).toContain(message);
    expect(read('ours')).toBe(ours);
  });

  it('keeps the rights of the file', () => {
    chmodSync(join(folder.path, 'ours'), 0o640);
    folder.run('merge', 'base', 'ours', 'theirs');
    expect(statSync(join(folder.path, 'ours')).mode & 0o777).toBe(0o640);
  });
});

/** A repository with the drivers of the shipped examples, the program at its place in this build. */
class Repository {
  readonly folder = new Folder();

  constructor() {
    const shipped = (name: string) =>
      readFileSync(join(import.meta.dirname, '../../examples/review', name), 'utf8');
    this.git('init', '--quiet', '--initial-branch', 'main');
    const program = `'${process.execPath}' '${join(dist, 'linkwright.cjs')}'`;
    const config = join(this.folder.path, '.git', 'config');
    const drivers = shipped('gitconfig.txt').replace(
      'driver = linkwright merge',
      `driver = ${program} merge`,
    );
    writeFileSync(config, `${readFileSync(config, 'utf8')}\n${drivers}`);
    this.write('.gitattributes', shipped('gitattributes.txt'));
  }

  git(...words: string[]): { code: number | null; out: string } {
    const { status, stdout, stderr } = spawnSync('git', words, {
      cwd: this.folder.path,
      encoding: 'utf8',
      env: {
        ...process.env,
        GIT_CONFIG_GLOBAL: '/dev/null',
        GIT_CONFIG_NOSYSTEM: '1',
        GIT_AUTHOR_NAME: 'R. Vale',
        GIT_AUTHOR_EMAIL: 'r.vale@kestrel-quay.example',
        GIT_COMMITTER_NAME: 'R. Vale',
        GIT_COMMITTER_EMAIL: 'r.vale@kestrel-quay.example',
      },
    });
    return { code: status, out: stdout + stderr };
  }

  write(path: string, text: string | Uint8Array): void {
    const whole = join(this.folder.path, path);
    mkdirSync(dirname(whole), { recursive: true });
    writeFileSync(whole, text);
  }

  read(path: string): string {
    return readFileSync(join(this.folder.path, path), 'utf8');
  }

  commit(path: string, text: string | Uint8Array, message: string): void {
    this.write(path, text);
    this.git('add', '--all');
    expect(this.git('commit', '--quiet', '-m', message)).toEqual({ code: 0, out: '' });
  }
}

describe('git', () => {
  let repository: Repository;
  beforeEach(() => {
    repository = new Repository();
  });
  afterEach(() => repository.folder.remove());

  /** `main` and `berth` part at `from`; the second is merged into the first. */
  function merged(path: string, from: string, main: string, berth: string | Uint8Array) {
    repository.commit(path, from, 'Lay out the plan');
    repository.git('switch', '--quiet', '--create', 'berth');
    repository.commit(path, berth, 'Measure berth 3');
    repository.git('switch', '--quiet', 'main');
    repository.commit(path, main, 'Measure at the same time');
    return repository.git('merge', '--no-edit', 'berth');
  }

  it.each(['plan.lwl', "berth 3/plan of R. Vale's.lwl", 'Überfahrt/平面図 № 3.lwl'])(
    'merges the readings of two testers without a choice, in %s',
    (path) => {
      const { code, out } = merged(path, base, ours, theirs);
      expect([code, out]).toEqual([0, expect.stringContaining('Merge made')]);
      expect(repository.git('status', '--porcelain').out).toBe('');
      const link = judge(repository.read(path)).plan.result.link('KQ-OPS-B3');
      const typed = link!.readings.flatMap(({ reading, attempt, current }) =>
        reading
          ? [`${reading.fibre} ${reading.direction} ${reading.by} ${attempt} ${current}`]
          : [],
      );
      expect(typed.sort()).toEqual([
        '1 A>B R. Vale 1 false',
        '1 A>B T. Holm 2 true',
        '1 B>A R. Vale 1 false',
        '1 B>A T. Holm 2 true',
        '2 A>B T. Holm 1 true',
        '2 B>A T. Holm 1 true',
      ]);
    },
  );

  it('stops where both changed one figure, with its markers at that line', () => {
    const { code, out } = merged(
      'plan.lwl',
      base,
      base.replace('100 m', '110 m').replace('0.10 dB', '0.12 dB'),
      base.replace('100 m', '120 m').replace('both', 'A>B'),
    );
    expect([code, out]).toEqual([1, expect.stringContaining('plan.lwl')]);
    expect(repository.git('status', '--porcelain').out).toBe('UU plan.lwl\n');
    const text = repository.read('plan.lwl');
    expect(text).toContain('<<<<<<< ours\n  segment     110 m OM4\n=======\n');
    expect(text).toContain('uncertainty 0.12 dB');
    expect(text).toContain('directions  A>B');
  });

  it('merges a plan that both began', () => {
    repository.commit('note.txt', 'begin\n', 'Begin');
    repository.git('switch', '--quiet', '--create', 'berth');
    repository.commit('plan.lwl', theirs, 'Measure berth 3');
    repository.git('switch', '--quiet', 'main');
    repository.commit('plan.lwl', ours, 'Measure at the same time');
    expect(repository.git('merge', '--no-edit', 'berth').code).toBe(0);
    expect(repository.read('plan.lwl').match(/^link /gmu)).toHaveLength(1);
    expect(repository.read('plan.lwl').match(/^readings /gmu)).toHaveLength(2);
  });

  it('keeps a file that is no text as a choice', () => {
    const { code } = merged('plan.lwl', base, ours, Buffer.from(`\uFEFF${theirs}`, 'utf16le'));
    expect(code).toBe(1);
    expect(repository.read('plan.lwl')).toBe(ours);
  });

  it('tells of a conflict and keeps our state where the program is not there', () => {
    repository.git('config', 'merge.linkwright.driver', 'no-such-program merge %O %A %B %P');
    expect(merged('plan.lwl', base, ours, theirs).code).toBe(1);
    expect(repository.git('status', '--porcelain').out).toBe('UU plan.lwl\n');
    expect(repository.read('plan.lwl')).toBe(ours);
  });

  it('names the declaration that a change stands in', () => {
    repository.commit('plan.lwl', ours, 'Measure');
    repository.write(
      'plan.lwl',
      ours.replace('0.55', '0.56').replace('connector   LC\n}', 'connector   SC\n}'),
    );
    const heads = repository
      .git('diff', '--unified=0')
      .out.split('\n')
      .filter((line) => line.startsWith('@@'));
    expect(heads.map((line) => line.replace(/^@@.*@@ /u, ''))).toEqual([
      'link KQ-OPS-B3',
      'readings KQ-OPS-B3',
    ]);
  });

  it('compares by words without taking a number apart', () => {
    repository.commit('plan.lwl', ours, 'Measure');
    repository.write('plan.lwl', ours.replace('0.55', '0.56'));
    const { out } = repository.git('diff', '--word-diff=plain', '--unified=0');
    expect(out).toContain('1          0.52         [-0.55-]{+0.56+}');
  });

  it('needs what stands in the examples, and nothing else', () => {
    expect(existsSync(join(dist, 'linkwright.cjs'))).toBe(true);
    expect(repository.git('check-attr', 'merge', 'diff', '--', 'a b/x.lwl').out).toBe(
      'a b/x.lwl: merge: linkwright\na b/x.lwl: diff: linkwright\n',
    );
  });
});
