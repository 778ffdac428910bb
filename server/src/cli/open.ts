/** From the paths of a command line to a project with everything read. */
import { relative, resolve, sep } from 'node:path';
import { URI } from 'vscode-uri';
import { DiskFiles, kindOfPath } from '../project/disk.ts';
import type { FileSource } from '../project/files.ts';
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

/** Where plan files come from, and what stands at an address there. */
export interface PlanSource extends FileSource {
  kindOf(address: string): Promise<Kind | undefined>;
}

type Kind = 'folder' | 'file';

interface Looked {
  readonly address: string;
  readonly kind: Kind;
}

/** The disk as it is. */
export const onDisk: PlanSource = Object.assign(new DiskFiles(), { kindOf: kindOfPath });

/** Reads folders and files. Includes may reach everything in the working folder, or in a path given outside it. */
export async function openPaths(paths: readonly string[], asOf: Instant): Promise<Opened> {
  const looked = await lookAt(paths);
  const opened = await openFrom(onDisk, looked, asOf);
  refuseNone(opened.files, paths);
  return opened;
}

/** The same from any source; what is not there is left out. */
export async function openAddresses(
  source: PlanSource,
  addresses: readonly string[],
  asOf: Instant,
): Promise<Opened> {
  const looked = await Promise.all(
    addresses.map(async (address): Promise<readonly Looked[]> => {
      const kind = await source.kindOf(address);
      return kind ? [{ address, kind }] : [];
    }),
  );
  return openFrom(source, looked.flat(), asOf);
}

async function openFrom(
  source: PlanSource,
  looked: readonly Looked[],
  asOf: Instant,
): Promise<Opened> {
  const here = toAddress('.');
  const project = new LiveProject({ asOf });
  const asked = new Set<string>();
  const folders = new Set<string>();
  for (const { address, kind } of looked) {
    const folder = kind === 'folder' ? address : address.slice(0, address.lastIndexOf('/'));
    folders.add(address === here || isWithin(address, here) ? here : folder);
    for (const uri of kind === 'folder' ? await source.list(address) : [address]) asked.add(uri);
  }
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
  const found = new Set<string>();
  for (const { address, kind } of await lookAt(paths)) {
    for (const uri of kind === 'folder' ? await onDisk.list(address) : [address]) found.add(uri);
  }
  refuseNone([...found], paths);
  return [...found];
}

async function lookAt(paths: readonly string[]): Promise<readonly Looked[]> {
  return Promise.all(
    (paths.length > 0 ? paths : ['.']).map(async (path) => {
      const address = toAddress(path);
      const kind = await onDisk.kindOf(address);
      if (!kind) throw new CommandError(`There is no file or folder "${path}".`);
      return { address, kind };
    }),
  );
}

function refuseNone(found: readonly string[], paths: readonly string[]): void {
  if (found.length > 0) return;
  const where = paths.length > 0 ? paths.join(', ') : 'this folder';
  throw new CommandError(`There is no plan (a file ending in ${planEnding}) in ${where}.`);
}

export function toAddress(path: string): string {
  const address = sameAddress(URI.file(resolve(path)).toString());
  return address.endsWith('/') && address.length > 8 ? address.slice(0, -1) : address;
}

/** The path as a person in the working folder writes it, with `/` on every system. */
export function toPath(uri: string): string {
  const path = relative(process.cwd(), URI.parse(uri).fsPath);
  return path.split(sep).join('/') || '.';
}
