/**
 * Readings that cannot be, by the set-up they were taken with: they hold what
 * the same set-up measured on other objects.
 */
import type { Suspicion, suspicionsIn } from '../evaluate/index.ts';
import type { Judgement } from './judgement.ts';

export type SuspicionOf = ReturnType<typeof suspicionsIn>[number];

const none: readonly Suspicion[] = [];

export class Suspicions {
  readonly #order: (a: Judgement, b: Judgement) => number;
  readonly #bySetup = new Map<string, Map<Judgement, readonly Suspicion[]>>();

  constructor(order: (a: Judgement, b: Judgement) => number) {
    this.#order = order;
  }

  /** Replaces what one object's readings raise; returns the set-ups for which that is another now. */
  change(judgement: Judgement, raised: readonly SuspicionOf[]): readonly string[] {
    const changed: string[] = [];
    const setups = new Set(raised.map(({ setup }) => setup));
    for (const [setup, raisers] of this.#bySetup) {
      if (raisers.has(judgement)) setups.add(setup);
    }
    for (const setup of setups) {
      const raisers = this.#bySetup.get(setup) ?? new Map<Judgement, readonly Suspicion[]>();
      const before = raisers.get(judgement) ?? none;
      const now = raised.filter((each) => each.setup === setup);
      if (same(before, now)) {
        if (now.length > 0) raisers.set(judgement, now);
        continue;
      }
      if (now.length > 0) raisers.set(judgement, now);
      else raisers.delete(judgement);
      if (raisers.size > 0) this.#bySetup.set(setup, raisers);
      else this.#bySetup.delete(setup);
      changed.push(setup);
    }
    return changed;
  }

  /** What other objects raise about a set-up, in order of the text. */
  raisedElsewhere(setup: string, judgement: Judgement): readonly Suspicion[] {
    const raisers = this.#bySetup.get(setup);
    if (!raisers) return none;
    return [...raisers]
      .filter(([raiser]) => raiser !== judgement)
      .sort(([a], [b]) => this.#order(a, b))
      .flatMap(([, raised]) => raised);
  }
}

function same(before: readonly Suspicion[], now: readonly Suspicion[]): boolean {
  return (
    before.length === now.length &&
    before.every(
      ({ wavelength, at }, index) =>
        wavelength === now[index]!.wavelength &&
        at.from === now[index]!.at.from &&
        at.to === now[index]!.at.to,
    )
  );
}
