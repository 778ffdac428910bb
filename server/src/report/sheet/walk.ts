/**
 * The order in which a tester walks: rooms as the plan first names them, and in
 * a room the panels and their ports, so that no door is opened twice.
 */
import type { LinkModel } from '../../model/types.ts';

export interface Port {
  readonly room: string;
  readonly panel: string;
  readonly position: string;
}

/** `OPS/R2/A:01`: room `OPS/R2`, panel `A`, position `01`. What a name leaves out is empty. */
export function partsOfPort(name: string): Port {
  const colon = name.lastIndexOf(':');
  const whole = colon < 0 ? name : name.slice(0, colon);
  const slash = whole.lastIndexOf('/');
  return {
    room: slash < 0 ? whole : whole.slice(0, slash),
    panel: slash < 0 ? '' : whole.slice(slash + 1),
    position: colon < 0 ? '' : name.slice(colon + 1),
  };
}

/** `OPS/R2, panel A, 01 to 12` of an end's ports; the plain names where they stand at several panels. */
export function endInWords(ports: readonly string[]): string {
  const parts = ports.map(partsOfPort);
  const [first] = parts;
  const last = parts.at(-1);
  if (!first || !last) return '';
  const together = parts.every(({ room, panel }) => room === first.room && panel === first.panel);
  if (!together) return [...new Set([ports[0], ports.at(-1)])].join(' to ');
  const positions = [...new Set([first.position, last.position])].filter(Boolean).join(' to ');
  return [first.room, first.panel && `panel ${first.panel}`, positions].filter(Boolean).join(', ');
}

/** Links in walking order, by where their A ends are; those whose ends have no names come last. */
export function inWalkingOrder<T extends { readonly link: LinkModel }>(
  links: readonly T[],
): readonly T[] {
  const rooms = new Map<string, number>();
  const placed = links.map((each, index) => {
    const port = partsOfPort(each.link.from[0] ?? '');
    if (!rooms.has(port.room)) rooms.set(port.room, rooms.size);
    return { each, port, index, named: each.link.from.length > 0 };
  });
  return placed
    .sort(
      (a, b) =>
        Number(b.named) - Number(a.named) ||
        rooms.get(a.port.room)! - rooms.get(b.port.room)! ||
        inNumbers(a.port.panel, b.port.panel) ||
        inNumbers(a.port.position, b.port.position) ||
        a.index - b.index,
    )
    .map(({ each }) => each);
}

/** Numbers inside names by their size. */
function inNumbers(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}
