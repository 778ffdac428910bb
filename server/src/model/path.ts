/** Makes the elements of a path from its lines: types resolved, lengths and fibre numbers taken, maps spelt out. */
import type { Value } from '../../../grammar/src/bound.ts';
import { micrometres } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import { arrayBeside, arrayOfEnds, arraysNotFilled } from './arrays.ts';
import { cableSegment } from './cable-segment.ts';
import { componentElement } from './component.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { faultOf, isStraight, mapOf, writtenMap } from './maps.ts';
import { buildConnector, buildFibre, buildSplice, typeOf } from './parts.ts';
import type { PathLine } from './placing.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { CordPlug, LinkModel, PathElement } from './types.ts';
import { has, lengthOf, locationOf, nameOf, placeOf, valuePlace, wholesOf } from './values.ts';

export type LinkBuilder = (declaration: Declaration, scope: Scope) => { readonly model: LinkModel };

export interface Elements {
  readonly path: readonly PathElement[];
  readonly findings: readonly ModelFinding[];
}

/** `n` is the number of places of the link; undefined if it is not known. */
export function elementsOf(
  lines: readonly PathLine[],
  n: number | undefined,
  about: string,
  scope: Scope,
  linkOf: LinkBuilder,
): Elements {
  const findings: ModelFinding[] = [];
  const mapAt = (line: PathLine, index: number) => {
    const value = line.entry.slots[K.map]?.[0];
    if (!value) return {};
    checkMap(line, value, n, findings);
    // A named map holds within each array that its stretch lies between.
    return { map: mapOf(value, n, line.turned, arrayBeside(lines, index, scope)) };
  };
  const arrayAtEnds = () =>
    arrayOfEnds(
      lines.flatMap(({ entry }) => {
        const link = entry.word === W.link && resolve(W.link, entry.slots.link?.[0], scope);
        return link ? linkOf(link, scope).model : [];
      }),
    );
  const path = lines.flatMap((line, index): PathElement[] => {
    const { word, slots } = line.entry;
    const place = placeOf(line);
    switch (word) {
      case W.connector:
        return [
          {
            kind: 'connector',
            name: nameOf(slots.connector) ?? '',
            type: typeOf(W.connector, buildConnector, line, scope),
            pins: pinsOf(line),
            key: nameOf(slots[K.key]) as 'same' | 'opposed' | undefined,
            at: locationOf(slots[K.at]),
            place,
          },
        ];
      case W.plug:
        return [
          {
            kind: 'plug',
            name: nameOf(slots.connector) ?? '',
            type: typeOf(W.connector, buildConnector, line, scope),
            ...(has(line.entry, K.pinned) && { pinned: true as const }),
            place,
          },
        ];
      case W.splice:
        return [
          {
            kind: 'splice',
            name: nameOf(slots.splice) ?? '',
            type: typeOf(W.splice, buildSplice, line, scope),
            at: locationOf(slots[K.at]),
            place,
          },
        ];
      case W.segment:
        if (slots.cable) {
          const declaration = resolve(W.cable, slots.cable[0], scope);
          // A map is of the segment as a whole: it stands once, at its first reel.
          const [first, ...others] = cableSegment(line, declaration, scope, findings);
          return [{ ...first!, ...mapAt(line, index) } as PathElement, ...others];
        }
        return [{ ...fibreSegment(line, scope), ...mapAt(line, index) }];
      case W.component:
        return [
          componentElement(
            line,
            { first: index === 0, last: index === lines.length - 1 },
            n,
            scope,
            findings,
          ),
        ];
      case W.cord:
        return [cordElement(line, n, arrayAtEnds, scope, findings)];
      case W.link: {
        const declaration = resolve(W.link, slots.link?.[0], scope);
        return [
          {
            kind: 'link',
            name: nameOf(slots.link) ?? '',
            link: declaration && linkOf(declaration, scope).model,
            turned: has(line.entry, K.turned) !== line.turned,
            fibres: wholesOf(slots[K.fibres]),
            toFibres: wholesOf(slots[K.to]),
            place,
          },
        ];
      }
      default:
        return [];
    }
  });
  findings.push(...arraysNotFilled(path, n).map((found) => ({ about, ...found })));
  return { path, findings };
}

function fibreSegment(line: PathLine, scope: Scope): PathElement {
  const { slots } = line.entry;
  const deliberate = nameOf(slots.length) === C.unknown;
  return {
    kind: 'segment',
    length: deliberate ? micrometres(0) : lengthOf(slots.length),
    deliberate,
    fibre: typeOf(W.fibre, buildFibre, line, scope),
    fibreName: nameOf(slots.fibre) ?? '',
    place: placeOf(line),
  };
}

/** The side with the pins, seen from A of the whole path. */
function pinsOf({ entry, turned }: PathLine): 'A' | 'B' | undefined {
  const side = nameOf(entry.slots[K.pins]);
  if (side === undefined) return undefined;
  return (side === C.pinsA) !== turned ? 'A' : 'B';
}

function cordElement(
  line: PathLine,
  n: number | undefined,
  arrayAtEnds: () => number | undefined,
  scope: Scope,
  findings: ModelFinding[],
): PathElement {
  const { slots } = line.entry;
  const value = slots.crossing?.[0] ?? slots[K.map]?.[0];
  if (value) checkMap(line, value, n, findings);
  return {
    kind: 'cord',
    length: lengthOf(slots.length),
    fibre: typeOf(W.fibre, buildFibre, line, scope),
    fibreName: nameOf(slots.fibre) ?? '',
    map: cordMapOf(value, n, line.turned, arrayAtEnds),
    plugs: plugsOf(line, scope),
    place: placeOf(line),
  };
}

/** One kind for both ends, or those at A and B. */
function plugsOf(line: PathLine, scope: Scope): readonly [CordPlug, CordPlug] | undefined {
  const [a, b = a] = (line.entry.slots[K.plugs] ?? []).map((value): CordPlug => {
    const declared = resolve(W.connector, value, scope);
    return {
      name: nameOf([value]) ?? '',
      type: declared && buildConnector(declared, scope).model,
    };
  });
  if (!a || !b) return undefined;
  return line.turned ? [b, a] : [a, b];
}

function cordMapOf(
  value: Value | undefined,
  n: number | undefined,
  turned: boolean,
  arrayAtEnds: () => number | undefined,
) {
  const written = nameOf(value && [value]);
  if (written === C.straight || written === C.crossed) return written;
  if (!value) return undefined;
  if (isStraight(value)) return C.straight;
  // A named map of a cord holds within each array that the links end in.
  return mapOf(value, n, turned, value.kind === 'map' && value.places ? undefined : arrayAtEnds());
}

function checkMap(
  line: PathLine,
  value: Value,
  n: number | undefined,
  findings: ModelFinding[],
): void {
  const crosses = nameOf([value]) === C.crossed;
  const written = crosses ? C.pairsSwapped : writtenMap(value);
  const fault = written && faultOf(written, n);
  if (fault === undefined) return;
  const of = nameOf(line.entry.slots.cable) ?? `this ${line.entry.word}`;
  findings.push(finding('map-no-permutation', valuePlace(line, value), { of, fault }));
}
