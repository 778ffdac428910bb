/** A component where it stands in a path. */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import { componentAtPort } from './parts.ts';
import type { PathLine } from './placing.ts';
import { resolve } from './resolve.ts';
import type { Scope } from './scope.ts';
import type { PathElement } from './types.ts';
import { has, locationOf, nameOf, placeOf } from './values.ts';

export function componentElement(line: PathLine, scope: Scope): PathElement {
  const { slots } = line.entry;
  const declaration = resolve(W.component, slots.component?.[0], scope);
  const port = nameOf(slots[K.port]);
  return {
    kind: 'component',
    name: nameOf(slots.component) ?? '',
    type: declaration && componentAtPort(declaration, port, scope),
    at: locationOf(slots[K.at]),
    turned: has(line.entry, K.turned) !== line.turned,
    place: placeOf(line),
  };
}
