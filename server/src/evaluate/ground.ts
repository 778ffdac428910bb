/** What lies in one ground: cables, routes and closures that two stretches of a path share. */
import type { PathElement, Way } from '../model/types.ts';

/** Cables, routes and closures that a path lies in, each with what it is called in a sentence. */
export function groundOf(path: readonly PathElement[]): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  for (const element of path) {
    if (element.kind === 'link' && element.link) {
      for (const [key, words] of groundOf(element.link.path)) found.set(key, words);
    }
    if (element.kind === 'splice' && element.at !== undefined)
      found.set(`closure ${element.at}`, `the closure “${element.at}”`);
    if (element.kind !== 'segment' || !element.cable) continue;
    const { name, routes } = element.cable;
    found.set(`cable ${name}`, `the cable ${name}`);
    for (const route of routes) found.set(`route ${route}`, `“${route}”`);
  }
  return found;
}

/** What a path has in common with another, as it is called in a sentence. */
export function commonGround(
  one: readonly PathElement[],
  other: readonly PathElement[],
): readonly string[] {
  const before = groundOf(one);
  return [...groundOf(other)].flatMap(([key, words]) => (before.has(key) ? [words] : []));
}

/** What two spans of a ring have in common, for each two that have something. */
export function sharedGround(
  ways: readonly Way[],
): readonly { readonly first: Way; readonly second: Way; readonly shared: readonly string[] }[] {
  const spans = ways.filter(({ kind }) => kind === 'span');
  return spans.flatMap((second, index) =>
    spans.slice(0, index).flatMap((first) => {
      const shared = commonGround(first.path, second.path);
      return shared.length > 0 ? [{ first, second, shared }] : [];
    }),
  );
}
