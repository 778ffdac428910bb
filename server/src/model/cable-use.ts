/** Which fibres of which cables a link takes. */
import type { LinkModel, Place } from './types.ts';

/** One fibre of a cable that a link takes. */
export interface CableUse {
  readonly cable: string;
  readonly fibre: number;
  /** Reels in which it takes the fibre; undefined: the cable is one piece. */
  readonly reels?: ReadonlySet<string>;
  /** It lies there unused: the link keeps it as a spare. */
  readonly spare: boolean;
  /** The segment that takes it. */
  readonly place: Place;
}

/** Fibres that a link takes itself; a channel takes none: its links do. Of a section the cable is the object itself. */
export function cableUse(link: LinkModel): readonly CableUse[] {
  if (link.kind === 'section') return [];
  const dead = new Set(link.dead.map(({ fibre }) => fibre));
  const spare = new Set(link.spare.filter((fibre) => !dead.has(fibre)));
  const trunk = new Set(link.path);
  const reelsAt = new Map<Place, Set<string>>();
  const uses: CableUse[] = [];
  for (const element of pathsOf(link)) {
    if (element.kind !== 'segment' || !element.cable) continue;
    const { place, reel } = element;
    const known = reelsAt.get(place);
    if (known) {
      // Another reel of the same line: it takes the same fibres.
      if (reel !== undefined) known.add(reel);
      continue;
    }
    const reels = reel === undefined ? undefined : new Set([reel]);
    reelsAt.set(place, reels ?? new Set());
    for (const [index, fibre] of (element.cableFibres ?? []).entries()) {
      // Only along what all light of the link takes do its own numbers follow those of the cable.
      const own = trunk.has(element) ? link.fibres[index] : undefined;
      const unused = own !== undefined && spare.has(own);
      uses.push({ cable: element.cable.name, fibre, reels, spare: unused, place });
    }
  }
  return uses;
}

/** Elements of the path and of all ways, those that ways share once. */
function pathsOf(link: LinkModel): Iterable<LinkModel['path'][number]> {
  return new Set([...link.path, ...link.ways.flatMap(({ path }) => path)]);
}
