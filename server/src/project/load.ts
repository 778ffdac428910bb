/** Fills a project ahead of every question: all plan files of the folders, and whatever they include. */
import type { DecodedFile } from './decode.ts';
import type { FileSource } from './files.ts';
import type { LiveProject } from './project.ts';

/** Files read at one time: enough to keep a disk busy, few enough for any limit on open files. */
const atOnce = 16;

/** Reads every plan file in the folders and below. Files that an editor has open keep the editor's text. */
export async function loadFolders(
  project: LiveProject,
  source: FileSource,
  folders: readonly string[],
): Promise<void> {
  for (const folder of folders) await loadFiles(project, source, await source.list(folder));
  await loadWanted(project, source);
}

/** Reads single files. */
export async function loadFiles(
  project: LiveProject,
  source: FileSource,
  uris: readonly string[],
): Promise<void> {
  for (let from = 0; from < uris.length; from += atOnce) {
    project.putAll(await read(source, uris.slice(from, from + atOnce)));
  }
}

/**
 * Reads what includes name and nobody has read yet, until nothing more is named. All of it comes
 * into the project at once: a chain of a thousand files is one new order of files, not a thousand.
 */
export async function loadWanted(project: LiveProject, source: FileSource): Promise<void> {
  for (let { wanted } = project; wanted.length > 0; { wanted } = project) {
    const come = new Map<string, DecodedFile | undefined>();
    const waiting = [...wanted];
    const named = new Set(wanted);
    while (waiting.length > 0) {
      for (const [uri, file] of await read(source, waiting.splice(0, atOnce))) {
        come.set(uri, file);
        const further = file ? project.includedBy(uri, file) : [];
        for (const each of further) if (!named.has(each)) waiting.push(each);
        for (const each of further) named.add(each);
      }
    }
    project.putAll([...come]);
    project.lookedFor([...come.keys()]);
  }
}

async function read(
  source: FileSource,
  uris: readonly string[],
): Promise<readonly (readonly [uri: string, file: DecodedFile | undefined])[]> {
  const files = await Promise.all(uris.map((uri) => source.read(uri)));
  return uris.map((uri, index) => [uri, files[index]] as const);
}
