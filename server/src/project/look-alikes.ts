/**
 * Names of one kind that a reader or a keyboard takes for each other: they
 * differ in letters that look like digits, in capitals, or in leading zeros.
 * Kept by what is left of a name once that is taken away, so that a changed
 * name is compared with its like only.
 */
import type { Namespace } from '../model/api.ts';

const foldings: readonly { readonly differ: string; fold(name: string): string }[] = [
  {
    differ: 'letters that look like digits',
    fold: (name) => name.replaceAll(/[Il]/gu, '1').replaceAll('O', '0'),
  },
  { differ: 'capital letters', fold: (name) => name.toLowerCase() },
  // Not behind a point: 1.5 and 1.05 are two numbers.
  { differ: 'leading zeros', fold: (name) => name.replaceAll(/(?<![\d.])0+(?=\d)/gu, '') },
];

export class LookAlikes {
  readonly #byFold = new Map<string, Set<string>>();

  /** A name is there, or gone; returns all names that look like it. */
  change(namespace: Namespace, name: string, there: boolean): ReadonlySet<string> {
    const others = new Set<string>();
    for (const key of keysOf(namespace, name)) {
      const known = this.#byFold.get(key);
      for (const other of known ?? []) if (other !== name) others.add(other);
      if (there) {
        if (known) known.add(name);
        else this.#byFold.set(key, new Set([name]));
      } else if (known?.delete(name) && known.size === 0) this.#byFold.delete(key);
    }
    return others;
  }

  /**
   * The name that another one is likely meant to be, and in what the two differ.
   * Of two the one that sorts first is left alone: digits, capitals and zeros
   * stand before their doubles, so that the answer hangs on no order of the text.
   */
  before(
    namespace: Namespace,
    name: string,
  ): { readonly name: string; readonly differ: string } | undefined {
    for (const [index, key] of keysOf(namespace, name).entries()) {
      let least = name;
      for (const other of this.#byFold.get(key) ?? []) if (other < least) least = other;
      if (least !== name) return { name: least, differ: foldings[index]!.differ };
    }
    return undefined;
  }
}

function keysOf(namespace: Namespace, name: string): readonly string[] {
  return foldings.map(({ fold }, index) => `${namespace} ${index} ${fold(name)}`);
}
