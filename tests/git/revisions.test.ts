/** Plan files of a revision, read through the git that is installed from repositories that it made. */
import { chmodSync, existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { filesOf, repositoryAt, revisionOf } from '../../server/src/git/index.ts';
import { surroundings } from '../../server/src/git/run.ts';
import { emptyFolder, git, MadeRepository, removeAll } from './made.ts';

// Each asks a program of the machine several times, which waits where much else runs.
vi.setConfig({ testTimeout: 60_000 });

afterEach(() => {
  vi.unstubAllEnvs();
  removeAll();
});

const first = 'plan "Kestrel Quay" {\n}\n';
const second = 'plan "Kestrel Quay, west" {\n}\n';

async function at(repository: MadeRepository, text: string, folder = repository.path) {
  const found = await repositoryAt(folder);
  return filesOf(found, await revisionOf(found, text));
}

describe('files of a revision', () => {
  it('are those of then, under the addresses of now', async () => {
    const made = new MadeRepository().write({ 'plans/a.lwl': first, 'readme.txt': 'x' });
    made.commit();
    made.write({ 'plans/a.lwl': second, 'plans/b.lwl': second }).commit();
    const then = await at(made, 'HEAD~1');
    expect(await then.list(made.address())).toEqual([made.address('plans/a.lwl')]);
    expect(await then.read(made.address('plans/a.lwl'))).toEqual({ text: first });
    expect(await then.read(made.address('plans/b.lwl'))).toBeUndefined();
    const now = await at(made, 'main');
    expect(await now.list(made.address('plans'))).toHaveLength(2);
    expect(await now.read(made.address('plans/a.lwl'))).toEqual({ text: second });
  });

  it('may have spaces, letters of any kind, quotes, tabs and line ends in their names', async () => {
    const names = ['west wing/plan 1.lwl', 'größe/køy – 北.lwl', 'it’s "so".lwl', 'a\tb\nc.lwl'];
    const made = new MadeRepository();
    for (const [index, name] of names.entries()) made.write({ [name]: `# ${index}\n` });
    made.commit();
    const then = await at(made, 'HEAD');
    expect(new Set(await then.list(made.address()))).toEqual(
      new Set(names.map((name) => made.address(name))),
    );
    for (const [index, name] of names.entries()) {
      expect(await then.read(made.address(name))).toEqual({ text: `# ${index}\n` });
    }
  });

  it('are read many at a time, empty and large ones too', async () => {
    const files = Object.fromEntries(
      Array.from({ length: 200 }, (_, index) => [
        `f${index}.lwl`,
        index === 7 ? '' : `# ${index}\n`.repeat(index * 20 + 1),
      ]),
    );
    const made = new MadeRepository().write(files);
    made.commit();
    const then = await at(made, 'HEAD');
    const read = await Promise.all(Object.keys(files).map((name) => then.read(made.address(name))));
    expect(read.map((file) => file?.text)).toEqual(Object.values(files));
  });

  it('are told by kind: file, folder, nothing', async () => {
    const made = new MadeRepository().write({ 'plans/a.lwl': first });
    made.commit();
    const then = await at(made, 'HEAD');
    expect(
      ['', 'plans', 'plans/a.lwl', 'plan', '../elsewhere'].map((name) =>
        then.kindOf(made.address(name)),
      ),
    ).toEqual(['folder', 'folder', 'file', undefined, undefined]);
  });

  it('follow symbolic links of files and folders, but not out of the repository, nor in circles', async () => {
    const made = new MadeRepository()
      .write({ 'real/a.lwl': first })
      .link('same.lwl', 'real/a.lwl')
      .link('alias', 'real')
      .link('deep/up.lwl', '../alias/a.lwl')
      .link('outside.lwl', '../secret.lwl')
      .link('absolute.lwl', '/etc/hostname')
      .link('round.lwl', 'round.lwl');
    made.commit();
    const then = await at(made, 'HEAD');
    const read = (name: string) => then.read(made.address(name));
    for (const name of ['same.lwl', 'alias/a.lwl', 'deep/up.lwl']) {
      expect(await read(name), name).toEqual({ text: first });
    }
    for (const name of ['outside.lwl', 'absolute.lwl', 'round.lwl', 'alias']) {
      expect(await read(name), name).toBeUndefined();
    }
  });

  it('leave out repositories within, and folders of tools', async () => {
    const inner = new MadeRepository().write({ 'inner.lwl': second });
    inner.commit();
    const made = new MadeRepository().write({ 'a.lwl': first, 'node_modules/x/y.lwl': second });
    git(made.path, '-c', 'protocol.file.allow=always', 'submodule', 'add', '-q', inner.path, 'sub');
    made.commit();
    expect(await (await at(made, 'HEAD')).list(made.address())).toEqual([made.address('a.lwl')]);
  });

  it('are found from a folder below, from another working copy, and by any name of a commit', async () => {
    const made = new MadeRepository().write({ 'plans/a.lwl': first });
    const commit = made.commit();
    made.git('tag', 'issued');
    made.git('tag', '--annotate', '--message', 'x', 'issued-2');
    made.write({ 'plans/a.lwl': second }).commit();
    for (const text of ['issued', 'issued-2', commit, commit.slice(0, 8), 'HEAD^', 'main~1']) {
      const then = await at(made, text, join(made.path, 'plans'));
      expect(await then.read(made.address('plans/a.lwl')), text).toEqual({ text: first });
    }
    const other = join(emptyFolder(), 'beside');
    made.git('worktree', 'add', '--quiet', other, 'issued');
    const found = await repositoryAt(other);
    expect(found).toEqual({ root: other, bare: false });
    const files = await filesOf(found, await revisionOf(found, 'main'));
    expect(await files.read(`file://${other}/plans/a.lwl`)).toEqual({ text: second });
  });

  it('can be those of a repository without a working copy', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    made.commit();
    const bare = join(emptyFolder(), 'bare.git');
    git(made.path, 'clone', '--quiet', '--bare', made.path, bare);
    const found = await repositoryAt(bare);
    expect(found).toEqual({ root: bare, bare: true });
    const files = await filesOf(found, await revisionOf(found, 'main'));
    expect(await files.list(`file://${bare}`)).toEqual([`file://${bare}/a.lwl`]);
  });
});

describe('what cannot be read', () => {
  it.each([
    ['-n', 'is no revision'],
    ['--help', 'is no revision'],
    ['--output=x', 'is no revision'],
    ['', 'is no revision'],
    ['a\nb', 'is no revision'],
    ['HEAD..main', 'two revisions'],
    ['nowhere', 'Look at the spelling'],
    ['HEAD:a.lwl', 'There is no revision'],
    ['main; touch owned', 'There is no revision'],
    ['$(touch owned)', 'There is no revision'],
    ['@{u}', 'There is no revision'],
  ])('%j is refused in words', async (text, says) => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    made.commit();
    await expect(at(made, text)).rejects.toThrow(says);
    expect(readdirSync(made.path).sort()).toEqual(['.git', 'a.lwl']);
  });

  it('says that there are no commits yet', async () => {
    await expect(at(new MadeRepository(), 'HEAD')).rejects.toThrow('It has no commits yet.');
  });

  it('says that a folder lies in no repository', async () => {
    vi.stubEnv('GIT_CEILING_DIRECTORIES', '/');
    await expect(repositoryAt(emptyFolder())).rejects.toThrow('lies in no git repository');
  });

  it('says that git is not installed, and does not take one from the folder worked in', async () => {
    vi.stubEnv('PATH', `.:${emptyFolder()}`);
    await expect(repositoryAt('.')).rejects.toThrow('git is not installed here');
  });

  it('says what a shallow clone lacks', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    made.commit();
    made.write({ 'a.lwl': second }).commit();
    const shallow = join(emptyFolder(), 'shallow');
    git(made.path, 'clone', '--quiet', '--depth=1', `file://${made.path}`, shallow);
    const found = await repositoryAt(shallow);
    await expect(revisionOf(found, 'HEAD~1')).rejects.toThrow('shallow clone');
    const files = await filesOf(found, await revisionOf(found, 'HEAD'));
    expect(await files.read(`file://${shallow}/a.lwl`)).toEqual({ text: second });
  });

  it('fetches nothing that a clone left behind, and says so', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    made.git('config', 'uploadpack.allowFilter', 'true');
    made.commit();
    made.write({ 'a.lwl': second }).commit();
    const partial = join(emptyFolder(), 'partial');
    git(made.path, 'clone', '-q', '--filter=blob:none', `file://${made.path}`, partial);
    const found = await repositoryAt(partial);
    const then = await filesOf(found, await revisionOf(found, 'HEAD~1'));
    await expect(then.read(`file://${partial}/a.lwl`)).rejects.toThrow('Fetch them first');
    const now = await filesOf(found, await revisionOf(found, 'HEAD'));
    expect(await now.read(`file://${partial}/a.lwl`)).toEqual({ text: second });
  });

  it('names a file that is too large, without reading it', async () => {
    const made = new MadeRepository().write({ 'big.lwl': Buffer.alloc(65 * 1024 * 1024, 0x23) });
    made.commit();
    const then = await at(made, 'HEAD');
    await expect(then.read(made.address('big.lwl'))).rejects.toThrow(
      'big.lwl of "HEAD" has 69 MB. At most 67 MB are read',
    );
  });
});

describe('a question changes and runs nothing', () => {
  it('whatever the repository’s own configuration says', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    made.commit();
    const trap = join(made.path, '.git', 'trap.sh');
    const sprung = join(emptyFolder(), 'sprung');
    writeFileSync(trap, `#!/bin/sh\ntouch ${sprung}\n`);
    chmodSync(trap, 0o755);
    for (const key of ['core.fsmonitor', 'core.pager', 'core.editor', 'core.sshCommand']) {
      made.git('config', key, trap);
    }
    made.git('config', 'diff.external', trap);
    made.git('config', 'filter.x.smudge', trap);
    made.git('config', 'diff.x.textconv', trap);
    mkdirSync(join(made.path, '.git', 'info'), { recursive: true });
    writeFileSync(join(made.path, '.git', 'info', 'attributes'), '*.lwl filter=x diff=x\n');
    const before = readdirSync(join(made.path, '.git')).sort();
    const then = await at(made, 'HEAD');
    expect(await then.read(made.address('a.lwl'))).toEqual({ text: first });
    expect(existsSync(sprung)).toBe(false);
    expect(readdirSync(join(made.path, '.git')).sort()).toEqual(before);
  });

  it('reads what was committed, where a replacement of it is written down', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    const one = made.commit();
    const two = made.write({ 'a.lwl': second }).commit();
    made.git('replace', one, two);
    expect(await (await at(made, one)).read(made.address('a.lwl'))).toEqual({ text: first });
  });

  it('is led to no other repository by the surroundings of a hook', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first });
    made.commit();
    vi.stubEnv('GIT_DIR', join(emptyFolder(), '.git'));
    vi.stubEnv('GIT_INDEX_FILE', '/nowhere/index');
    expect(await (await at(made, 'HEAD')).list(made.address())).toHaveLength(1);
  });

  it('asks nobody, fetches nothing and takes no lock', () => {
    expect(surroundings({ GIT_SSH_COMMAND: 'x', GIT_DIR: 'y', HOME: '/home/tester' })).toEqual({
      HOME: '/home/tester',
      GIT_TERMINAL_PROMPT: '0',
      GIT_OPTIONAL_LOCKS: '0',
      GIT_NO_LAZY_FETCH: '1',
      GIT_ALLOW_PROTOCOL: 'none',
      LC_ALL: 'C',
    });
  });

  it('also works where objects lie packed', async () => {
    const made = new MadeRepository().write({ 'a.lwl': first, 'b.lwl': second });
    made.commit();
    made.git('gc', '--quiet');
    rmSync(join(made.path, '.git', 'index'));
    expect(await (await at(made, 'HEAD')).read(made.address('b.lwl'))).toEqual({ text: second });
  });
});
