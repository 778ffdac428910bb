/** What an include line names: a file beside it, inside the workspace. */
import { URI } from 'vscode-uri';

/** Why an include names no file of the plan. */
export type IncludeProblem =
  | 'not-relative'
  | 'backslash'
  | 'no-folder'
  | 'outside'
  | 'missing'
  | 'circle'
  | 'empty';

export type IncludeTarget =
  | { readonly uri: string; readonly problem?: undefined }
  | { readonly uri?: undefined; readonly problem: IncludeProblem };

/** The spelling under which a file is known, however an editor writes its address. */
export function sameAddress(uri: string): string {
  return URI.parse(uri).toString();
}

/**
 * The address of a path written in a file. `folders` are the folders of the
 * workspace; a file outside all of them may include what lies beside it and below.
 */
export function includeTarget(
  from: string,
  path: string,
  folders: readonly string[],
): IncludeTarget {
  if (path === '') return { problem: 'empty' };
  if (path.includes('\\')) return { problem: 'backslash' };
  if (path.startsWith('/') || /^[A-Za-z][A-Za-z0-9+.-]*:/u.test(path)) {
    return { problem: 'not-relative' };
  }
  const base = URI.parse(from);
  const folder = base.path.slice(0, base.path.lastIndexOf('/') + 1);
  if (!standsInFolder(from) || folder === '') return { problem: 'no-folder' };
  const segments: string[] = [];
  for (const segment of `${folder}${path}`.split('/')) {
    if (segment === '..') {
      if (segments.pop() === undefined) return { problem: 'outside' };
    } else if (segment !== '.' && segment !== '') {
      segments.push(segment);
    }
  }
  const uri = base.with({ path: `/${segments.join('/')}` }).toString();
  const around = folders.filter((each) => isWithin(from, each));
  const allowed = around.length > 0 ? around : [base.with({ path: folder }).toString()];
  return allowed.some((each) => isWithin(uri, each)) ? { uri } : { problem: 'outside' };
}

/** Schemes whose documents lie beside others: includes are looked up there. */
function standsInFolder(uri: string): boolean {
  return !standsAlone(uri) && URI.parse(uri).scheme !== 'untitled';
}

/** Scheme under which an editor opens a library file, to read it. */
export const libraryScheme = 'linkwright-library';

/** Documents that are another time's or another place's copy: read for themselves, part of no plan. */
export function standsAlone(uri: string): boolean {
  // Asked of every file each time that one comes, so the address is not read as a whole.
  const scheme = uri.slice(0, uri.indexOf(':'));
  return scheme === 'git' || scheme === 'output' || scheme === libraryScheme;
}

export function isWithin(uri: string, folder: string): boolean {
  return uri.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
}

/** One sentence for each way in which an include can miss. */
export function includeMessage(problem: IncludeProblem, path: string): string {
  switch (problem) {
    case 'empty':
      return 'This include names no file. Write the path of a plan file, from the folder of this one.';
    case 'backslash':
      return `Paths are written with "/", on every system: "${path.replaceAll('\\', '/')}".`;
    case 'not-relative':
      return `"${path}" is not a path from this file's folder. Write it relative, so that the plan works wherever its folder lies.`;
    case 'no-folder':
      return `This text is not saved in a folder yet, so "${path}" cannot be found. Save it beside the file it includes.`;
    case 'outside':
      return `"${path}" lies outside the workspace and is not read. Open the folder that holds both files, or move the file into this one.`;
    case 'missing':
      return `There is no file "${path}" here. Look at the spelling, or create it.`;
    case 'circle':
      return `"${path}" includes this file, directly or through others. One of the includes in the circle has to go.`;
  }
}

export const includeFindingNames: Readonly<Record<IncludeProblem, string>> = {
  empty: 'include-empty',
  backslash: 'include-backslash',
  'not-relative': 'include-not-relative',
  'no-folder': 'include-unsaved',
  outside: 'include-outside-workspace',
  missing: 'include-missing',
  circle: 'include-circle',
};
