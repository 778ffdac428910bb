/** What a test cord mates with: the far or near end of every link that its set-up measured. */
import type { ConnectorType, LinkModel, PathElement, Setup, TestCord } from '../model/types.ts';
import type { LinkContext } from './check.ts';

export interface Mating {
  readonly setup: Setup;
  readonly cord: TestCord;
  /** The link's joint or plug that the cord meets, and the fibre behind it. */
  readonly end: Extract<PathElement, { kind: 'connector' | 'plug' }>;
  readonly endType?: ConnectorType;
  readonly fibre?: Extract<PathElement, { kind: 'segment' }>;
}

/** Each pair of test cord and link end once, for the set-ups that have readings of this link. */
export function* matings({ link, evidence, setup }: LinkContext): Iterable<Mating> {
  if (link.kind !== 'link') return;
  const names = new Set(evidence.readings.map((reading) => reading.setup));
  for (const name of names) {
    const found = setup(name);
    if (!found) continue;
    for (const cord of found.cords) {
      if (cord.role !== 'launch' && cord.role !== 'receive') continue;
      const seen = new Set<string>();
      for (const side of ['start', 'finish'] as const) {
        for (const path of pathsTo(link, side)) {
          const mating = matingAt(path, side);
          if (!mating || seen.has(mating.end.name)) continue;
          seen.add(mating.end.name);
          yield { setup: found, cord, ...mating };
        }
      }
    }
  }
}

/** A tree starts once and finishes at each of its ends. */
function pathsTo(link: LinkModel, side: 'start' | 'finish'): readonly (readonly PathElement[])[] {
  return side === 'start' || link.ways.length === 0
    ? [link.path]
    : link.ways.map(({ path }) => path);
}

function matingAt(
  along: readonly PathElement[],
  side: 'start' | 'finish',
): Pick<Mating, 'end' | 'endType' | 'fibre'> | undefined {
  const path = side === 'start' ? along : [...along].reverse();
  const end = path[0];
  if (!end || (end.kind !== 'connector' && end.kind !== 'plug')) return undefined;
  const fibre = path.find((element) => element.kind === 'segment');
  return { end, endType: end.type, fibre: fibre?.kind === 'segment' ? fibre : undefined };
}
