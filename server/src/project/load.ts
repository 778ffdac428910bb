/** Fills a project ahead of every question: all plan files of the folders, and whatever they include. */
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

/** Reads single files, and what they include. */
export async function loadFiles(
  project: LiveProject,
  source: FileSource,
  uris: readonly string[],
): Promise<void> {
  for (let from = 0; from < uris.length; from += atOnce) {
    const some = uris.slice(from, from + atOnce);
    const read = await Promise.all(some.map((uri) => source.read(uri)));
    project.putAll(some.map((uri, index) => [uri, read[index]] as const));
  }
}

/** Reads what includes name and nobody has read yet, until nothing more is named. */
export async function loadWanted(project: LiveProject, source: FileSource): Promise<void> {
  for (let { wanted } = project; wanted.length > 0; { wanted } = project) {
    await loadFiles(project, source, wanted);
    project.lookedFor(wanted);
  }
}
