/** The cable that a link belongs to, where many are looked at by their cables. */
import type { LinkResult } from '../evaluate/result.ts';

/** The first cable that it takes fibres of; empty where it takes none. */
export function cableOf({ link }: LinkResult): string {
  if (link.kind === 'section') return link.name;
  for (const element of link.path) {
    if (element.kind === 'segment' && element.cable) return element.cable.name;
    const inner = element.kind === 'link' ? element.link?.path : undefined;
    const first = inner?.find((each) => each.kind === 'segment' && each.cable);
    if (first?.kind === 'segment' && first.cable) return first.cable.name;
  }
  return '';
}

/** The order of cables by their names; links in no cable stand last. */
export function byCable(a: string, b: string): number {
  if (a === '' || b === '') return a === b ? 0 : a === '' ? 1 : -1;
  return a.localeCompare(b, 'en', { numeric: true });
}
