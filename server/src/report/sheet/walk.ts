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

export interface Panel<T> {
  /** `OPS/R2, panel A`. */
  readonly name: string;
  /** Port by port. */
  readonly places: readonly T[];
}

/** What has ports, panel by panel in walking order; what has none comes last, as it came. */
export function panelsOf<T extends { readonly port: string }>(
  places: readonly T[],
): readonly Panel<T>[] {
  const rooms = new Map<string, number>();
  const panels = new Map<string, { readonly of: Port; readonly places: T[] }>();
  for (const each of places) {
    const of = partsOfPort(each.port);
    if (!rooms.has(of.room)) rooms.set(of.room, rooms.size);
    const key = JSON.stringify([each.port === '', of.room, of.panel]);
    const panel = panels.get(key) ?? { of, places: [] };
    panels.set(key, panel);
    panel.places.push(each);
  }
  const named = ({ of }: { readonly of: Port }) => Object.values(of).some((part) => part !== '');
  return [...panels.values()]
    .sort(
      (a, b) =>
        Number(named(b)) - Number(named(a)) ||
        rooms.get(a.of.room)! - rooms.get(b.of.room)! ||
        inNumbers(a.of.panel, b.of.panel),
    )
    .map(({ of, places }) => ({
      name: [of.room, of.panel && `panel ${of.panel}`].filter(Boolean).join(', '),
      places: places.toSorted((a, b) =>
        inNumbers(partsOfPort(a.port).position, partsOfPort(b.port).position),
      ),
    }));
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

const bySize = new Intl.Collator('en', { numeric: true });

/** Numbers inside names by their size. */
function inNumbers(a: string, b: string): number {
  return bySize.compare(a, b);
}
