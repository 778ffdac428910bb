/**
 * Asks the compiler of each change before any test does: `npm test` begins with it,
 * so a change that it refuses is noticed there, and counts neither way. Asked by the
 * runner, as one of its checkers.
 */
import { execFile } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { promisify } from 'node:util';
import type { Change } from './drawn.ts';

/** As the runner gives it: why the compiler refuses a change, or that it does not. */
type Answer =
  | { readonly status: 'passed' }
  | { readonly status: 'compileError'; readonly reason: string };

/** What the reason of a refused change begins with. */
export const refused = 'types:';

/**
 * Which changes the compiler refuses, by their ids. Each stands in a copy of its file
 * beside it, which nothing imports, so that one run tells of all of them. What a change
 * does to the types of other files is not seen: it is left to the tests. So are changes
 * of a file that is refused as a copy, unchanged.
 */
export async function typesOf(
  root: string,
  changes: readonly Change[],
): Promise<Readonly<Record<string, Answer>>> {
  const folder = join(root, '.cache/mutation', `types-${process.pid}`);
  try {
    for (const part of ['server', 'grammar']) {
      cpSync(join(root, part), join(folder, part), { recursive: true });
    }
    writeFileSync(
      join(folder, 'tsconfig.json'),
      JSON.stringify({
        extends: '../../../tsconfig.json',
        compilerOptions: { types: ['node'] },
        include: ['server', 'grammar'],
      }),
    );
    const copyOf = (file: string, id: string) =>
      join(folder, relative(root, file)).replace(/(?=\.tsx?$)/u, `.as-${id}`);
    const texts = new Map(
      changes.map(({ fileName }) => [fileName, readFileSync(fileName, 'utf8')]),
    );
    for (const [file, text] of texts) writeFileSync(copyOf(file, 'it-is'), text);
    for (const change of changes) {
      const text = changedText(texts.get(change.fileName) ?? '', change);
      writeFileSync(copyOf(change.fileName, change.id), text);
    }
    const errors = await errorsIn(root, folder);
    return Object.fromEntries(
      changes.map(({ id, fileName }): [string, Answer] => {
        const error = errors.get(copyOf(fileName, id));
        const apart = errors.has(copyOf(fileName, 'it-is'));
        return error === undefined || apart
          ? [id, { status: 'passed' }]
          : [id, { status: 'compileError', reason: `${refused} ${error}` }];
      }),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The text with the change in its place. */
export function changedText(text: string, { location, replacement }: Change): string {
  const lines = text.split('\n');
  const offset = ({ line, column }: Change['location']['start']) =>
    lines.slice(0, line).reduce((sum, each) => sum + each.length + 1, column);
  return text.slice(0, offset(location.start)) + replacement + text.slice(offset(location.end));
}

/** The first error of each file that has one. */
async function errorsIn(root: string, folder: string): Promise<ReadonlyMap<string, string>> {
  const compiler = join(root, 'node_modules/typescript/bin/tsc');
  const words = [compiler, '--noEmit', '--pretty', 'false', '-p', folder];
  const told = await promisify(execFile)(process.execPath, words, {
    cwd: folder,
    maxBuffer: 2 ** 28,
  }).catch((error: { readonly stdout?: string }) => {
    if (typeof error.stdout !== 'string' || error.stdout === '') throw error;
    return { stdout: error.stdout };
  });
  const errors = new Map<string, string>();
  for (const [, file = '', what = ''] of told.stdout.matchAll(
    /^(.+?)\(\d+,\d+\): error (.+)$/gmu,
  )) {
    const path = join(folder, file);
    if (!errors.has(path)) errors.set(path, what);
  }
  return errors;
}

class Typed {
  async init(): Promise<void> {
    mkdirSync('.cache/mutation', { recursive: true });
  }

  check(changes: readonly Change[]): Promise<Readonly<Record<string, Answer>>> {
    return typesOf(process.cwd(), changes);
  }

  /** All in one go: one run of the compiler tells of every change. */
  async group(changes: readonly Change[]): Promise<string[][]> {
    return [changes.map(({ id }) => id)];
  }
}

export const strykerPlugins = [{ kind: 'Checker', name: 'typed', injectableClass: Typed }];
