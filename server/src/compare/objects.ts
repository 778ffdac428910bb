/**
 * Objects of both sides beside each other: by name, and by the name that one
 * had before, whichever side says so.
 */
import type { LinkResult, PlanResult } from '../evaluate/result.ts';
import type { Edit, PlanState } from './types.ts';

/** One object as it was and as it is; one side is missing where it is new, or gone. */
export interface ObjectPair {
  /** As it is called now; one that is gone as it was called. */
  readonly name: string;
  readonly formerly?: string;
  readonly before?: LinkResult;
  readonly after?: LinkResult;
}

/** In order of the new text; one that is gone stands behind what it stood behind. */
export function objectPairs(
  before: PlanState,
  after: PlanState,
  edits: readonly Edit[],
): readonly ObjectPair[] {
  const [old, now] = [resultsOf(before.result), resultsOf(after.result)];
  const former = formerNames(old, now, edits);
  const taken = new Set(former.values());
  const goneBehind = new Map<string | undefined, ObjectPair[]>();
  let last: string | undefined;
  for (const [name, result] of old) {
    if (taken.has(name) || now.has(name)) {
      last = name;
      continue;
    }
    const pair: ObjectPair = { name, before: result };
    const others = goneBehind.get(last);
    if (others) others.push(pair);
    else goneBehind.set(last, [pair]);
  }
  const pairs: ObjectPair[] = [...(goneBehind.get(undefined) ?? [])];
  for (const [name, result] of now) {
    const formerly = former.get(name);
    const was = old.get(formerly ?? name);
    pairs.push({
      name,
      ...(formerly !== undefined && { formerly }),
      ...(was && { before: was }),
      after: result,
    });
    pairs.push(...(goneBehind.get(formerly ?? name) ?? []));
  }
  return pairs;
}

type Results = ReadonlyMap<string, LinkResult>;

/** In order of the text. */
function resultsOf({ order, link }: PlanResult): Results {
  const results = new Map<string, LinkResult>();
  for (const name of order) {
    const result = link(name);
    if (result) results.set(name, result);
  }
  return results;
}

/** By the name an object has now, the one it had: only where neither stands on both sides. */
function formerNames(
  old: Results,
  now: Results,
  edits: readonly Edit[],
): ReadonlyMap<string, string> {
  const former = new Map<string, string>();
  const taken = new Set<string>();
  const pair = (was: string | undefined, is: string | undefined) => {
    if (was === undefined || is === undefined || former.has(is) || taken.has(was)) return;
    if (!old.has(was) || now.has(was) || !now.has(is) || old.has(is)) return;
    former.set(is, was);
    taken.add(was);
  };
  for (const [name, { link }] of now) for (const was of link.was) pair(was, name);
  // A name that is taken back again is said by the old side.
  for (const [name, { link }] of old) for (const is of link.was) pair(name, is);
  for (const { kind, was, now: is } of edits) if (kind === 'identity') pair(was, is);
  return former;
}
