/**
 * Which files make which plan. A plan is a `plan` file and all it includes; a
 * file under no plan is judged with what it includes.
 */
import type { Include } from '../model/api.ts';
import { type IncludeProblem, includeTarget, standsAlone } from './include.ts';

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
      const { uri, problem } = includeTarget(file.uri, include.path, folders);
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

function planOf(
  root: string,
  resolved: ReadonlyMap<string, readonly ResolvedInclude[]>,
): PlanFiles {
  const files: string[] = [];
  const includes = new Map<string, readonly ResolvedInclude[]>();
  const open = new Set<string>();
  const visit = (uri: string): void => {
    files.push(uri);
    open.add(uri);
    const own = resolved.get(uri) ?? [];
    const judged = own.map((each): ResolvedInclude => {
      if (!each.target) return each;
      if (open.has(each.target)) return { include: each.include, problem: 'circle' };
      if (!seen.has(each.target)) {
        seen.add(each.target);
        visit(each.target);
      }
      return each;
    });
    includes.set(uri, judged);
    open.delete(uri);
  };
  const seen = new Set<string>([root]);
  visit(root);
  return { root, files, includes };
}
