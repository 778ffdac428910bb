/** Writes a document whole or not at all, and says in plain words why it could not. */
import { randomBytes } from 'node:crypto';
import { open, realpath, rename, stat, unlink, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { CommandError, reason } from './command-error.ts';

/** Writes beside the file and renames: whoever looks sees the old file or the new one, never half of it. */
export async function writeWhole(path: string, content: string | Uint8Array): Promise<void> {
  const known = await stat(path).catch(() => undefined);
  // A device or a pipe cannot be replaced; what is written to it is gone at once anyway.
  if (known && !known.isFile() && !known.isDirectory()) {
    await writeFile(path, content).catch((error: unknown) => refuse(path, error, false));
    return;
  }
  if (known?.isDirectory()) {
    throw new CommandError(`Cannot write ${path}: a folder has that name. Name a file in it.`);
  }
  const target = known ? await realpath(path) : path;
  const beside = join(dirname(target), `.${basename(target)}.${randomBytes(6).toString('hex')}`);
  try {
    await writeNew(beside, content, known?.mode);
    await rename(beside, target);
  } catch (error) {
    await unlink(beside).catch(() => {});
    refuse(path, error, known !== undefined);
  }
}

/** On the disk before it is given its name: after a power cut too the name stands for a whole file. */
async function writeNew(
  path: string,
  content: string | Uint8Array,
  mode: number | undefined,
): Promise<void> {
  const file = await open(path, 'wx', mode);
  try {
    await file.writeFile(content);
    await file.sync();
  } finally {
    await file.close();
  }
}

function refuse(path: string, error: unknown, known: boolean): never {
  const kept = known ? ' The file is as it was.' : '';
  throw new CommandError(`Cannot write ${path}: ${why(path, error)}${kept}`);
}

function why(path: string, error: unknown): string {
  switch ((error as NodeJS.ErrnoException).code) {
    case 'ENOSPC':
    case 'EDQUOT':
      return 'there is no room left on the disk. Make room, or name a file elsewhere.';
    case 'EFBIG':
      return 'a file may not grow so large here. Raise the limit, or write less at once.';
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return `you may not write in the folder ${dirname(path)}. Name a file in a folder of your own.`;
    case 'ENOENT':
    case 'ENOTDIR':
      return `there is no folder ${dirname(path)}. Make it first, or name a file elsewhere.`;
    default:
      return `${reason(error)}.`;
  }
}
