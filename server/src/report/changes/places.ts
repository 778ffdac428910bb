/** Places of the two states as words, and as addresses where an editor can show them. */
import type { StatePlace } from '../../compare/types.ts';
import type { SidePlace } from './view.ts';

/** Gives places of one comparison; `root` is the address of the plan, empty where nobody can go there. */
export function placer(root: string) {
  return (place: StatePlace | undefined, side: SidePlace['side']): SidePlace | undefined => {
    if (!place) return undefined;
    const line = place.range.start.line + 1;
    const label = `${place.path}, line ${line}${side === 'was' ? ' before' : ''}`;
    const at = addressOf(root, place.path);
    return {
      side,
      label,
      file: place.path,
      line,
      ...(at === undefined ? {} : { at: { uri: at, range: place.range } }),
    };
  };
}

export type Placer = ReturnType<typeof placer>;

/** A path as people write it, from the folder of the plan. */
function addressOf(root: string, path: string): string | undefined {
  const folder = root.slice(0, root.lastIndexOf('/') + 1);
  if (folder === '') return undefined;
  const segments = folder.split('/').slice(0, -1);
  for (const segment of path.split('/')) {
    if (segment === '..') segments.pop();
    else if (segment !== '.' && segment !== '') segments.push(encodeURIComponent(segment));
  }
  return segments.join('/');
}
