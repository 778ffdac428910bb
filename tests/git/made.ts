/** A real git repository in a folder of its own, made by the git that is installed. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { URI } from 'vscode-uri';

/** Nobody's own configuration takes part. */
const alone = {
  ...process.env,
  GIT_CONFIG_GLOBAL: '/dev/null',
  GIT_CONFIG_NOSYSTEM: '1',
  GIT_AUTHOR_NAME: 'R. Vale',
  GIT_AUTHOR_EMAIL: 'r.vale@kestrel-quay.example',
  GIT_COMMITTER_NAME: 'R. Vale',
  GIT_COMMITTER_EMAIL: 'r.vale@kestrel-quay.example',
  GIT_AUTHOR_DATE: '2026-03-14T09:05:00Z',
  GIT_COMMITTER_DATE: '2026-03-14T09:05:00Z',
};

/** An empty folder; `removeAll` takes all of them away again. */
export function emptyFolder(): string {
  const path = realpathSync(mkdtempSync(join(tmpdir(), 'linkwright-git-')));
  made.push(path);
  return path;
}

const made: string[] = [];

export function removeAll(): void {
  for (const path of made.splice(0)) rmSync(path, { recursive: true, force: true });
}

/** What git answers in a folder, without the line end. */
export function git(folder: string, ...words: string[]): string {
  return execFileSync('git', words, {
    cwd: folder,
    encoding: 'utf8',
    env: alone,
    stdio: ['ignore', 'pipe', 'pipe'],
  }).trimEnd();
}

export class MadeRepository {
  readonly path: string;

  constructor(path = emptyFolder()) {
    this.path = path;
    git(path, 'init', '--quiet', '--initial-branch=main');
  }

  write(files: Readonly<Record<string, string | Uint8Array>>): this {
    for (const [name, content] of Object.entries(files)) {
      mkdirSync(dirname(join(this.path, name)), { recursive: true });
      writeFileSync(join(this.path, name), content);
    }
    return this;
  }

  link(name: string, target: string): this {
    mkdirSync(dirname(join(this.path, name)), { recursive: true });
    symlinkSync(target, join(this.path, name));
    return this;
  }

  /** All that is there, as one commit; its full name. */
  commit(message = 'as it is'): string {
    this.git('add', '--all');
    this.git('commit', '--quiet', '--allow-empty', '--message', message);
    return this.git('rev-parse', 'HEAD');
  }

  git(...words: string[]): string {
    return git(this.path, ...words);
  }

  /** The address of a file or folder in it. */
  address(name = ''): string {
    return URI.file(join(this.path, name)).toString();
  }
}
