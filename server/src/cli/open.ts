/** From the paths of a command line to a project with everything read. */
import { relative, resolve, sep } from 'node:path';
import { URI } from 'vscode-uri';
import { DiskFiles, kindOfPath } from '../project/disk.ts';
import {
  isWithin,
  LiveProject,
  loadFiles,
  loadWanted,
  planEnding,
  sameAddress,
} from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';
import { CommandError } from './console.ts';

export interface Opened {
  readonly project: LiveProject;
  /** Plans that hold at least one of the files asked for, in order of their address. */
  readonly plans: readonly Plan[];
  /** Files asked for, and what those plans include. */
  readonly files: readonly string[];
}

/** Reads folders and files. Includes may reach everything in the working folder, or in a path given outside it. */
export async function openPaths(paths: readonly string[], asOf: Instant): Promise<Opened> {
  const here = toAddress('.');
  const source = new DiskFiles();
  const project = new LiveProject({ asOf });
  const asked = new Set<string>();
  const folders = new Set<string>();
  for (const { address, kind } of await lookAt(paths)) {
    const folder = kind === 'folder' ? address : address.slice(0, address.lastIndexOf('/'));
    folders.add(address === here || isWithin(address, here) ? here : folder);
    for (const uri of kind === 'folder' ? await source.list(address) : [address]) asked.add(uri);
  }
  refuseNone(asked, paths);
  project.folders = [...folders];
  await loadFiles(project, source, [...asked]);
  await loadWanted(project, source);
  const unread = [...asked].filter((uri) => !project.has(uri));
  if (unread.length > 0) throw new CommandError(`Cannot read ${unread.map(toPath).join(', ')}.`);
  const plans = project.plans.filter(({ files }) => files.some((uri) => asked.has(uri)));
  const files = new Set([...asked, ...plans.flatMap((plan) => plan.files)]);
  return { project, plans, files: [...files] };
}

/** Addresses of all plan files that paths name, each once, in order. */
export async function filesIn(paths: readonly string[]): Promise<readonly string[]> {
  const source = new DiskFiles();
  const found = new Set<string>();
  for (const { address, kind } of await lookAt(paths)) {
    for (const uri of kind === 'folder' ? await source.list(address) : [address]) found.add(uri);
  }
  refuseNone(found, paths);
  return [...found];
}

async function lookAt(
  paths: readonly string[],
): Promise<readonly { readonly address: string; readonly kind: 'folder' | 'file' }[]> {
  return Promise.all(
    (paths.length > 0 ? paths : ['.']).map(async (path) => {
      const address = toAddress(path);
      const kind = await kindOfPath(address);
      if (!kind) throw new CommandError(`There is no file or folder "${path}".`);
      return { address, kind };
    }),
  );
}

function refuseNone(found: ReadonlySet<string>, paths: readonly string[]): void {
  if (found.size > 0) return;
  const where = paths.length > 0 ? paths.join(', ') : 'this folder';
  throw new CommandError(`There is no plan (a file ending in ${planEnding}) in ${where}.`);
}

function toAddress(path: string): string {
  const address = sameAddress(URI.file(resolve(path)).toString());
  return address.endsWith('/') && address.length > 8 ? address.slice(0, -1) : address;
}

/** The path as a person in the working folder writes it, with `/` on every system. */
export function toPath(uri: string): string {
  const path = relative(process.cwd(), URI.parse(uri).fsPath);
  return path.split(sep).join('/') || '.';
}
