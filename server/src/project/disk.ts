/** Plan files on a disk: the one place of the project that touches a file system. */
import { readdir, readFile, stat } from 'node:fs/promises';
import { URI, Utils } from 'vscode-uri';
import { type DecodedFile, decodeFile } from './decode.ts';
import { type FileSource, planEnding, skippedFolders } from './files.ts';

export class DiskFiles implements FileSource {
  async list(folder: string): Promise<readonly string[]> {
    const found: string[] = [];
    await collect(URI.parse(folder), found, 0);
    return found.sort();
  }

  async read(uri: string): Promise<DecodedFile | undefined> {
    const address = URI.parse(uri);
    if (address.scheme !== 'file') return undefined;
    try {
      return decodeFile(await readFile(address.fsPath));
    } catch {
      return undefined;
    }
  }
}

/** Whether a path of the command line is a folder, a file, or nothing. */
export async function kindOfPath(uri: string): Promise<'folder' | 'file' | undefined> {
  try {
    return (await stat(URI.parse(uri).fsPath)).isDirectory() ? 'folder' : 'file';
  } catch {
    return undefined;
  }
}

/** Links between folders may form a circle: nobody nests plans this deep. */
const deepest = 24;

async function collect(folder: URI, found: string[], depth: number): Promise<void> {
  if (folder.scheme !== 'file' || depth > deepest) return;
  const entries = await readdir(folder.fsPath, { withFileTypes: true }).catch(() => []);
  for (const entry of entries) {
    const address = Utils.joinPath(folder, entry.name);
    if (entry.isDirectory()) {
      if (!skippedFolders.has(entry.name)) await collect(address, found, depth + 1);
    } else if (entry.name.endsWith(planEnding)) {
      found.push(address.toString());
    }
  }
}
