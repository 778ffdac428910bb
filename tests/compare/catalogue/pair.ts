/** A pair of plans that differ by little: one text, and what of it is said otherwise. */

/** What stood there, once, and what stands there now. */
export type Swap = readonly [was: string, now: string];

/** Begins another file in a text, with its path; what stands before is `plan.lwl`. */
export const file = (path: string): string => `=== ${path}\n`;

export interface Pair {
  readonly title: string;
  readonly before: string;
  readonly after: string;
}

export function pair(title: string, before: string, ...swaps: readonly Swap[]): Pair {
  const after = swaps.reduce((text, [was, now]) => {
    if (text.split(was).length !== 2) throw new Error(`${title}: not once in the plan: ${was}`);
    return text.replace(was, () => now);
  }, before);
  return { title, before, after };
}

/** A pair whose old plan already differs from the usual one. */
export function changed(text: string, ...swaps: readonly Swap[]): string {
  return pair('the old plan', text, ...swaps).after;
}
