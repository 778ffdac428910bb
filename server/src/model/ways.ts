/** What a link is made of where light has several ways through it. */
import type { LinkModel, PathElement } from './types.ts';

/** Every element of a link's path and of its ways, each once, in order. */
export function elementsIn(link: Pick<LinkModel, 'path' | 'ways'>): Iterable<PathElement> {
  if (link.ways.length === 0) return link.path;
  const elements = new Set(link.path);
  for (const way of link.ways) for (const element of way.path) elements.add(element);
  return elements;
}

/** Whether the link is a tree: its numbers are those of its ends. */
export function isTree(link: LinkModel): boolean {
  return link.ways.some(({ kind }) => kind === 'branch');
}

/** The name of a place of a link as it stands in a sentence behind the link's own. */
export function placeOfObject(link: LinkModel | undefined, fibre: number): string {
  return link ? placeName(link, fibre) : `fibre ${fibre}`;
}

/** What one of a link's numbers is called: the port of that end of a tree, else `fibre 7`. */
export function placeName(link: Pick<LinkModel, 'ways'>, fibre: number): string {
  return link.ways.find((way) => way.fibre === fibre)?.name ?? `fibre ${fibre}`;
}
