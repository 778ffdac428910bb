/**
 * Which files make which plan. A plan is a `plan` file and all it includes; a
 * file under no plan is judged with what it includes.
 */
import type { Include } from '../model/api.ts';
import { type IncludeProblem, type IncludeTarget, includeTarget, standsAlone } from './include.ts';

/** What the graph needs to know of a document. */
export interface GraphFile {
  readonly uri: string;
  readonly hasPlan: boolean;
  readonly includes: readonly Include[];
}

export interface ResolvedInclude {
  readonly include: Include;
  readonly target?: string;
  readonly problem?: IncludeProblem;
}

export interface PlanFiles {
  readonly root: string;
  /** The root, then what it includes, in order of first mention, depth first. */
  readonly files: readonly string[];
  /** Of each file, what its include lines name; a circle is said where it closes. */
  readonly includes: ReadonlyMap<string, readonly ResolvedInclude[]>;
}

export interface FileGraph {
  readonly plans: readonly PlanFiles[];
  /** Addresses that includes name and that are not here: to be loaded, or missing. */
  readonly wanted: readonly string[];
}

export function buildGraph(
  files: ReadonlyMap<string, GraphFile>,
  folders: readonly string[],
): FileGraph {
  const wanted = new Set<string>();
  const resolved = new Map<string, readonly ResolvedInclude[]>();
  for (const file of files.values()) {
    const includes = file.includes.map((include): ResolvedInclude => {
      const { uri, problem } = targetOf(file.uri, include, folders);
      if (!uri) return { include, problem };
      if (files.has(uri)) return { include, target: uri };
      wanted.add(uri);
      return { include, problem: 'missing' };
    });
    resolved.set(file.uri, standsAlone(file.uri) ? [] : includes);
  }
  const plans = rootsOf(files, resolved).map((root) => planOf(root, resolved));
  return { plans, wanted: [...wanted] };
}

/** Addresses that one file includes, wherever they are. */
export function wantedBy(file: GraphFile, folders: readonly string[]): readonly string[] {
  if (standsAlone(file.uri)) return [];
  return file.includes.flatMap((include) => targetOf(file.uri, include, folders).uri ?? []);
}

interface Known {
  readonly from: string;
  readonly folders: readonly string[];
  readonly target: IncludeTarget;
}

const known = new WeakMap<Include, Known>();

/** Addresses are read once for each include line: the graph is built again after every file that comes. */
function targetOf(from: string, include: Include, folders: readonly string[]): IncludeTarget {
  const there = known.get(include);
  if (there?.from === from && there.folders === folders) return there.target;
  const target = includeTarget(from, include.path, folders);
  known.set(include, { from, folders, target });
  return target;
}

/** Every `plan` file, every file that none includes, and one of each circle that nothing else reaches. */
function rootsOf(
  files: ReadonlyMap<string, GraphFile>,
  resolved: ReadonlyMap<string, readonly ResolvedInclude[]>,
): readonly string[] {
  const included = new Set<string>();
  for (const [uri, includes] of resolved) {
    for (const { target } of includes) if (target && target !== uri) included.add(target);
  }
  const addresses = [...files.keys()].sort();
  const roots = addresses.filter((uri) => files.get(uri)!.hasPlan || !included.has(uri));
  const reached = new Set<string>();
  for (const root of roots) reach(root, resolved, reached);
  for (const uri of addresses) {
    if (reached.has(uri)) continue;
    roots.push(uri);
    reach(uri, resolved, reached);
  }
  return roots;
}

function reach(
  from: string,
  resolved: ReadonlyMap<string, readonly ResolvedInclude[]>,
  reached: Set<string>,
): void {
  const waiting = [from];
  for (let uri = waiting.pop(); uri !== undefined; uri = waiting.pop()) {
    if (reached.has(uri)) continue;
    reached.add(uri);
    for (const { target } of resolved.get(uri) ?? []) if (target) waiting.push(target);
  }
}

/** A chain of includes may be thousands long, so nothing here calls itself. */
function planOf(
  root: string,
  resolved: ReadonlyMap<string, readonly ResolvedInclude[]>,
): PlanFiles {
  const files: string[] = [];
  const includes = new Map<string, ResolvedInclude[]>();
  const seen = new Set<string>([root]);
  const open = new Set<string>();
  const way: { readonly uri: string; readonly left: Iterator<ResolvedInclude> }[] = [];
  const enter = (uri: string): void => {
    files.push(uri);
    includes.set(uri, []);
    open.add(uri);
    way.push({ uri, left: (resolved.get(uri) ?? []).values() });
  };
  enter(root);
  for (let here = way.at(-1); here; here = way.at(-1)) {
    const { done, value } = here.left.next();
    if (done) {
      open.delete(here.uri);
      way.pop();
      continue;
    }
    const { include, target } = value;
    const circle = target !== undefined && open.has(target);
    includes.get(here.uri)!.push(circle ? { include, problem: 'circle' } : value);
    if (target === undefined || seen.has(target)) continue;
    seen.add(target);
    enter(target);
  }
  return { root, files, includes };
}
