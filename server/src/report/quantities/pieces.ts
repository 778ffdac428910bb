/**
 * What the objects of a plan are made of, piece by piece, each physical piece
 * once: a stretch that the ends of a tree share, a cable that several links take
 * fibres of, a port that two links meet at. A piece says for how many fibres it
 * stands.
 */
import type { LinkResult } from '../../evaluate/result.ts';
import type { Cable, LinkModel, PathElement, Place, Repair } from '../../model/types.ts';
import { isTree } from '../../model/ways.ts';

export interface PhysicalPiece {
  readonly element: PathElement;
  /** For so many fibres it stands once. */
  readonly fibres: number;
  /** How many such pieces there are. */
  readonly times: number;
  /** Link, channel, ring, cable or repair that it belongs to. */
  readonly of: string;
}

export function piecesIn(
  results: readonly LinkResult[],
  cables: readonly Cable[],
): readonly PhysicalPiece[] {
  const meetings = new Set<string>();
  const repairs = new Set<string>();
  const joints = new Set(
    cables.flatMap((cable) => cable.joints.flatMap((joint) => (joint ? keyOf(joint.place) : []))),
  );
  const ofCables = cables.flatMap((cable) => [
    ...cable.joints.flatMap((element) =>
      element ? [{ element, fibres: cable.count, times: 1, of: cable.name }] : [],
    ),
    ...repaired(cable.repairs, repairs),
  ]);
  const ofObjects = results.flatMap(({ link }) => {
    // A cable that was tested by itself is there already.
    if (link.kind === 'section') return [];
    const own = (isTree(link) ? ofTree(link) : ofPath(link)).filter(
      ({ element }) =>
        element.kind !== 'link' &&
        !(element.kind === 'segment' && element.cable) &&
        !(element.kind === 'splice' && joints.has(keyOf(element.place))),
    );
    return [...metOnce(link, own, meetings), ...repaired(link.repairs, repairs)];
  });
  return [...ofCables, ...ofObjects];
}

function keyOf({ block, span }: Place): string {
  return `${block} ${span.start} ${span.end}`;
}

function ofPath({ name, path, fibres, nodes = [] }: LinkModel): readonly PhysicalPiece[] {
  const through = nodes.flatMap(({ through: cord }) => cord ?? []);
  return [...path, ...through].map((element) => ({
    element,
    fibres: fibres.length,
    times: 1,
    of: name,
  }));
}

interface Branching {
  readonly onward: Map<PathElement, Branching>;
}

/** Ways that begin with the same elements share those pieces, and no others. */
function ofTree({ name, ways }: LinkModel): readonly PhysicalPiece[] {
  const trunk: Branching = { onward: new Map() };
  const times = new Map<PathElement, number>();
  for (const { path } of ways) {
    let here = trunk;
    for (const element of path) {
      let next = here.onward.get(element);
      if (!next) {
        next = { onward: new Map() };
        here.onward.set(element, next);
        times.set(element, (times.get(element) ?? 0) + 1);
      }
      here = next;
    }
  }
  return [...times].map(([element, count]) => ({ element, fibres: 1, times: count, of: name }));
}

/** A pair at a port that a link before it ends at, too, is there already. */
function metOnce(
  { from, to, fibres, path }: LinkModel,
  pieces: readonly PhysicalPiece[],
  met: Set<string>,
): readonly PhysicalPiece[] {
  const ends = new Map<PathElement | undefined, readonly string[]>([
    [path[0], from],
    [path.at(-1), to],
  ]);
  return pieces.flatMap((piece) => {
    const ports = piece.element.kind === 'connector' ? ends.get(piece.element) : undefined;
    if (!ports || ports.length !== fibres.length || piece.fibres !== fibres.length) return [piece];
    const fresh = ports.filter((port) => !met.has(port)).length;
    for (const port of ports) met.add(port);
    return fresh === 0 ? [] : [{ ...piece, fibres: fresh }];
  });
}

function repaired(repairs: readonly Repair[], known: Set<string>): readonly PhysicalPiece[] {
  return repairs.flatMap(({ name, path, fibres, place }) => {
    const key = keyOf(place);
    if (known.has(key)) return [];
    known.add(key);
    return path.map((element) => ({ element, fibres: fibres.length, times: 1, of: name }));
  });
}
