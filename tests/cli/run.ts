/** The command line as people run it: the bundled program, in a folder of its own. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { dist } from '../../client/build/paths.ts';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly error: string;
}

/** The program in a folder that somebody else made. */
export function runIn(folder: string, ...words: string[]): Ran {
  return runWith({}, folder, ...words);
}

/** The same with more in its environment. */
export function runWith(
  env: Readonly<Record<string, string>>,
  folder: string,
  ...words: string[]
): Ran {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(dist, 'linkwright.cjs'), ...words],
    { cwd: folder, encoding: 'utf8', env: { ...process.env, ...env, NO_COLOR: '1' } },
  );
  return { code: status, out: stdout, error: stderr };
}

/** A folder with files, removed again by `remove`. */
export class Folder {
  readonly path = mkdtempSync(join(tmpdir(), 'linkwright-cli-'));

  constructor(files: Readonly<Record<string, string | Uint8Array>> = {}) {
    for (const [name, content] of Object.entries(files)) {
      mkdirSync(dirname(join(this.path, name)), { recursive: true });
      writeFileSync(join(this.path, name), content);
    }
  }

  run(...words: string[]): Ran {
    return runIn(this.path, ...words);
  }

  remove(): void {
    rmSync(this.path, { recursive: true });
  }
}
