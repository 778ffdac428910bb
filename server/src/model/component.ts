/** A component: what its declaration lacks, and how it stands in a path. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration } from './declaration.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { entriesOf } from './like.ts';
import { firstOf } from './lines.ts';
import { faultOf, inverseOf, isPermutation, mapOver, upTo, writtenMap } from './maps.ts';
import { buildComponent, componentAtPort } from './parts.ts';
import type { PathLine } from './placing.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { ComponentType, PathElement, PlaceMap } from './types.ts';
import { has, locationOf, nameOf, placeOf, valuePlace } from './values.ts';

/** Where a line of a path stands in it. */
export interface Standing {
  readonly first: boolean;
  readonly last: boolean;
}

/** Places of the array that a component joins, the larger where it joins two; undefined where it joins none. */
export function arrayOf(type: ComponentType): number | undefined {
  const most = Math.max(1, ...(type.joined ?? []).map((kind) => kind?.positions ?? 1));
  return most > 1 ? most : undefined;
}

/** What a component's own text lacks or contradicts. */
export function componentFindings(declaration: Declaration, scope: Scope): readonly ModelFinding[] {
  const { lines, findings } = entriesOf(declaration, scope);
  const { model } = buildComponent(declaration, scope);
  const array = arrayOf(model);
  const line = firstOf(lines, W.map);
  const own = declaration.entries.find(({ word }) => word === W.map);
  if (!line && array !== undefined && !declaration.open && declaration.misread.length === 0) {
    return [
      ...findings,
      finding('map-missing', declaration.namePlace, { component: declaration.name, array }),
    ];
  }
  // One that it takes from another is that one's fault.
  const fault = own && model.map !== undefined ? faultOf(model.map, array) : undefined;
  if (!own || fault === undefined) return findings;
  const place = { block: declaration.block, span: own.span };
  return [...findings, finding('map-no-permutation', place, { of: declaration.name, fault })];
}

/** The component of a line; `n` is the number of places of the link, undefined if it is not known. */
export function componentElement(
  line: PathLine,
  standing: Standing,
  n: number | undefined,
  scope: Scope,
  findings: ModelFinding[],
): PathElement {
  const { slots } = line.entry;
  const declaration = resolve(W.component, slots.component?.[0], scope);
  const whole = declaration && buildComponent(declaration, scope).model;
  const port = nameOf(slots[K.port]);
  const begins = standing.first && !standing.last;
  // Where a pattern is turned, so is what it would be at the other end of the path.
  const usual = line.turned ? !standing.last : begins;
  const secondFirst = has(line.entry, K.turned) !== usual;
  if (whole) findings.push(...portFindings(line, whole, port));
  return {
    kind: 'component',
    name: nameOf(slots.component) ?? '',
    type: declaration && componentAtPort(declaration, port, scope),
    at: locationOf(slots[K.at]),
    turned: secondFirst !== begins,
    port,
    map: whole && n !== undefined ? placedMap(line, whole, secondFirst, n, findings) : undefined,
    place: placeOf(line),
  };
}

/** From A to B over the places of the link: the map behind it, else its own. Undefined where it is not known. */
function placedMap(
  line: PathLine,
  type: ComponentType,
  secondFirst: boolean,
  n: number,
  findings: ModelFinding[],
): readonly number[] | undefined {
  const array = arrayOf(type);
  const value = line.entry.slots[K.map]?.[0];
  const here = value && writtenMap(value);
  if (value && here !== undefined) {
    const fault = faultOf(here, array ?? n);
    if (fault !== undefined) {
      const place = valuePlace(line, value);
      findings.push(finding('map-no-permutation', place, { of: type.name, fault }));
    }
  }
  const written: PlaceMap | undefined = here ?? type.map;
  if (written === undefined) return array === undefined ? upTo(n) : undefined;
  const map = mapOver(written, n, array);
  // Some places of a part may be all that the light takes, if it stays within them.
  const taken = map.length > n ? map.slice(0, n) : map;
  if (!isPermutation(taken, n)) return undefined;
  return secondFirst ? inverseOf(taken) : taken;
}

function* portFindings(
  line: PathLine,
  { name, loss }: ComponentType,
  port: string | undefined,
): Iterable<ModelFinding> {
  const ports = [...new Set(loss.flatMap((one) => one.port ?? []))];
  const value = line.entry.slots[K.port]?.[0];
  if (port !== undefined && value && !ports.includes(port)) {
    const details = { component: name, port, ports: ports.join(', ') };
    yield finding('port-unknown', valuePlace(line, value), details);
  }
  if (port !== undefined || ports.length === 0) return;
  if (loss.some((one) => one.port === undefined)) return;
  yield finding('port-missing', placeOf(line), { component: name, ports: ports.join(', ') });
}
