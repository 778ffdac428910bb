/** Makes the elements of a path from its lines: types resolved, lengths and fibre numbers taken, maps spelt out. */
import { micrometres } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import { cableSegment } from './cable-segment.ts';
import { componentElement } from './component.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { mapOf } from './maps.ts';
import { buildConnector, buildFibre, buildSplice, typeOf } from './parts.ts';
import type { PathLine } from './placing.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { LinkModel, PathElement } from './types.ts';
import { has, lengthOf, locationOf, nameOf, placeOf, wholesOf } from './values.ts';

export type LinkBuilder = (declaration: Declaration, scope: Scope) => { readonly model: LinkModel };

export interface Elements {
  readonly path: readonly PathElement[];
  readonly findings: readonly ModelFinding[];
  /** Holds a part that has no model yet: nothing of the whole can be judged. */
  readonly unjudged: boolean;
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
  let unjudged = false;
  const cannot = (line: PathLine, what: string) => {
    unjudged = true;
    findings.push(finding('not-yet-judged', placeOf(line), { what, about }, { about }));
  };
  const path = lines.flatMap((line): PathElement[] => {
    const { word, slots } = line.entry;
    const place = placeOf(line);
    switch (word) {
      case W.connector:
        return [
          {
            kind: 'connector',
            name: nameOf(slots.connector) ?? '',
            type: typeOf(W.connector, buildConnector, line, scope),
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
          const map = mapOf(slots[K.map]?.[0], n, line.turned);
          return [{ ...first!, map } as PathElement, ...others];
        }
        return [fibreSegment(line, n, scope)];
      case W.component:
        return [componentElement(line, scope)];
      case W.cord:
        return [cordElement(line, n, scope)];
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
      case W.split:
        cannot(line, 'A path that branches in a split');
        // Of unknown length, so that no sum over it comes out.
        return [{ kind: 'segment', deliberate: false, fibreName: '', place }];
      default:
        return [];
    }
  });
  return { path, findings, unjudged };
}

function fibreSegment(line: PathLine, n: number | undefined, scope: Scope): PathElement {
  const { slots } = line.entry;
  const deliberate = nameOf(slots.length) === C.unknown;
  return {
    kind: 'segment',
    length: deliberate ? micrometres(0) : lengthOf(slots.length),
    deliberate,
    fibre: typeOf(W.fibre, buildFibre, line, scope),
    fibreName: nameOf(slots.fibre) ?? '',
    map: mapOf(slots[K.map]?.[0], n, line.turned),
    place: placeOf(line),
  };
}

function cordElement(line: PathLine, n: number | undefined, scope: Scope): PathElement {
  const { slots } = line.entry;
  const crossing = nameOf(slots.crossing);
  const map = slots[K.map]?.[0];
  return {
    kind: 'cord',
    length: lengthOf(slots.length),
    fibre: typeOf(W.fibre, buildFibre, line, scope),
    fibreName: nameOf(slots.fibre) ?? '',
    map:
      crossing === C.straight || crossing === C.crossed
        ? crossing
        : map && (mapOf(map, n, line.turned) ?? C.straight),
    place: placeOf(line),
  };
}
