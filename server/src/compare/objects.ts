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
  const [old, now] = [before.result, after.result];
  const former = formerNames(old, now, edits);
  const taken = new Set(former.values());
  const isGone = (name: string) => !taken.has(name) && now.link(name) === undefined;
  const goneBehind = new Map<string | undefined, ObjectPair[]>();
  let last: string | undefined;
  for (const name of old.order) {
    if (isGone(name)) {
      const pair: ObjectPair = { name, before: old.link(name) };
      const others = goneBehind.get(last);
      if (others) others.push(pair);
      else goneBehind.set(last, [pair]);
    } else {
      last = name;
    }
  }
  const pairs: ObjectPair[] = [...(goneBehind.get(undefined) ?? [])];
  for (const name of now.order) {
    const formerly = former.get(name);
    pairs.push({
      name,
      ...(formerly !== undefined && { formerly }),
      before: old.link(formerly ?? name),
      after: now.link(name),
    });
    pairs.push(...(goneBehind.get(formerly ?? name) ?? []));
  }
  return pairs;
}

/** By the name an object has now, the one it had: only where neither stands on both sides. */
function formerNames(
  old: PlanResult,
  now: PlanResult,
  edits: readonly Edit[],
): ReadonlyMap<string, string> {
  const former = new Map<string, string>();
  const taken = new Set<string>();
  const pair = (was: string | undefined, is: string | undefined) => {
    if (was === undefined || is === undefined || was === is) return;
    if (former.has(is) || taken.has(was)) return;
    const wasThere = old.link(was) !== undefined && now.link(was) === undefined;
    const isThere = now.link(is) !== undefined && old.link(is) === undefined;
    if (!wasThere || !isThere) return;
    former.set(is, was);
    taken.add(was);
  };
  for (const name of now.order) for (const was of now.link(name)?.link.was ?? []) pair(was, name);
  // A name that is taken back again is said by the old side.
  for (const name of old.order) for (const is of old.link(name)?.link.was ?? []) pair(name, is);
  for (const { kind, was, now: is } of edits) if (kind === 'identity') pair(was, is);
  return former;
}
