/** A segment that takes fibres of a cable. */
import { K } from '../../../grammar/src/vocabulary/index.ts';
import { buildCable, fibresOfTube, hasReels } from './cable.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { mapOf } from './maps.ts';
import type { PathLine } from './placing.ts';
import type { Scope } from './scope.ts';
import type { Cable, PathElement } from './types.ts';
import { lengthOf, placeOf, wholesOf } from './values.ts';

export function cableSegment(
  line: PathLine,
  declaration: Declaration | undefined,
  n: number | undefined,
  scope: Scope,
  findings: ModelFinding[],
): PathElement {
  const { slots } = line.entry;
  const cable = declaration && buildCable(declaration, scope).model;
  const reels = declaration !== undefined && hasReels(declaration, scope);
  return {
    kind: 'segment',
    length: lengthOf(slots[K.length]) ?? (reels ? undefined : cable?.length),
    deliberate: false,
    fibre: cable?.fibre,
    fibreName: cable?.fibreName ?? '',
    cable,
    cableFibres: cable && fibresTaken(line, cable, findings),
    map: mapOf(slots[K.map]?.[0], n, line.turned),
    place: placeOf(line),
  };
}

/** Fibres of the cable in the order of the link's places: listed, all of some tubes, or all there are. */
function fibresTaken(line: PathLine, cable: Cable, findings: ModelFinding[]): readonly number[] {
  const { slots } = line.entry;
  const listed = wholesOf(slots[K.fibres]);
  if (listed) return listed;
  const tubes = wholesOf(slots[K.tube]);
  if (!tubes) return Array.from({ length: cable.count }, (_, index) => index + 1);
  return tubes.flatMap((tube) => {
    const fibres = fibresOfTube(cable, tube);
    if (fibres) return fibres;
    findings.push(
      finding('tube-out-of-range', placeOf(line), {
        cable: cable.name,
        tube,
        tubes: cable.tubes ?? 0,
      }),
    );
    return [];
  });
}
