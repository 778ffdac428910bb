/** Which ways of a tree or ring are made of the same parts: what is worked out for one holds for the others. */
import type { PathElement, Way } from '../model/types.ts';

/** A number for each way; the same where nothing that is computed of them can differ. */
export function alikeWays(ways: readonly Way[]): ReadonlyMap<Way, number> {
  const known = new Map<PathElement, string>();
  const makes = new Map<string, number>();
  const alike = new Map<Way, number>();
  const makeOf = (element: PathElement): string => {
    let make = known.get(element);
    if (make === undefined) {
      make = element.kind === 'split' ? outputOf(element) : `${known.size}`;
      known.set(element, make);
    }
    return make;
  };
  for (const way of ways) {
    const make = way.path.map(makeOf).join(' ');
    const number = makes.get(make) ?? makes.size;
    makes.set(make, number);
    alike.set(way, number);
  }
  return alike;
}

/** A splitter by its figures: outputs of which its type says the same are one. */
function outputOf({ splitter, type, out }: Extract<PathElement, { kind: 'split' }>): string {
  if (!type || out === undefined) return `${splitter}:${out}`;
  const named = type.loss.flatMap((loss, index) => (loss.out?.includes(out) ? [index] : []));
  return `${splitter}:${named.join('+')}`;
}
