/**
 * Asks the git that is installed, and only asks: no shell, no hook, no pager, no
 * lock, no question to anybody, nothing over the network, whatever the
 * repository's own configuration says.
 */
import { spawn } from 'node:child_process';
import { access, constants } from 'node:fs/promises';
import { delimiter, isAbsolute, join } from 'node:path';

/** What git could not do, in words for the person who asked. */
export class GitError extends Error {}

export interface Said {
  readonly code: number | null;
  readonly out: Buffer;
  readonly error: string;
}

/** A question takes milliseconds; a repository on a disk that is gone never answers. */
const patience = 120_000;

const always = [
  '--no-pager',
  '--no-optional-locks',
  // What was committed, not what somebody says it be taken for.
  '--no-replace-objects',
  '--literal-pathspecs',
  '-c',
  'protocol.allow=never',
  '-c',
  'core.fsmonitor=false',
  '-c',
  'core.hooksPath=/dev/null',
];

/** Of the surroundings, what would lead git to another repository than that of the folder, or make it write or ask. */
const leftOut: ReadonlySet<string> = new Set([
  'GIT_DIR',
  'GIT_WORK_TREE',
  'GIT_INDEX_FILE',
  'GIT_PREFIX',
  'GIT_NAMESPACE',
  'GIT_COMMON_DIR',
  'GIT_EXTERNAL_DIFF',
  'GIT_PROXY_COMMAND',
  'GIT_SSH',
  'GIT_SSH_COMMAND',
  'GIT_ASKPASS',
  'SSH_ASKPASS',
]);

/** Asks in a folder; `input` is handed over as standard input. */
export async function ask(folder: string, words: readonly string[], input = ''): Promise<Said> {
  const program = await installed();
  return new Promise((said, failed) => {
    const child = spawn(program, ['-C', folder, ...always, ...words], {
      env: surroundings(process.env),
      stdio: ['pipe', 'pipe', 'pipe'],
      timeout: patience,
      windowsHide: true,
    });
    const out: Buffer[] = [];
    const error: Buffer[] = [];
    child.stdout.on('data', (piece: Buffer) => out.push(piece));
    child.stderr.on('data', (piece: Buffer) => error.push(piece));
    child.on('error', (problem) => failed(new GitError(`git does not start: ${problem.message}.`)));
    child.on('close', (code) =>
      said({ code, out: Buffer.concat(out), error: Buffer.concat(error).toString('utf8').trim() }),
    );
    // It may have ended before it read all: what it said tells why.
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

/** The environment in which git is asked. */
export function surroundings(given: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  const kept = Object.entries(given).filter(([name]) => !leftOut.has(name));
  return {
    ...Object.fromEntries(kept),
    GIT_TERMINAL_PROMPT: '0',
    GIT_OPTIONAL_LOCKS: '0',
    GIT_NO_LAZY_FETCH: '1',
    // Older ones do not know the last: no way of fetching has this name.
    GIT_ALLOW_PROTOCOL: 'none',
    LC_ALL: 'C',
  };
}

const names = process.platform === 'win32' ? ['git.exe'] : ['git'];

/** Looked for where programs are installed, never in the folder that is worked in. */
async function installed(): Promise<string> {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    if (!isAbsolute(folder)) continue;
    for (const name of names) {
      const path = join(folder, name);
      const there = await access(path, constants.X_OK).then(
        () => true,
        () => false,
      );
      if (there) return path;
    }
  }
  throw new GitError(
    'git is not installed here, or not in PATH. Install it, or compare two folders instead.',
  );
}
