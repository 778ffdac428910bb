/** What is kept of all results of a plan together: their totals, by differences, and which are others now. */
import {
  addTotals,
  emptyTotals,
  type LinkResult,
  type PlanTotals,
  readTotals,
  removeTotals,
} from '../evaluate/index.ts';

export class ResultFolds {
  readonly #totals = emptyTotals();
  readonly #changed = new Set<string>();
  #changes = 0;

  /** Of an object, one result in place of another; with neither, it has come or gone and is not judged yet. */
  replace(object: string, before: LinkResult | undefined, now: LinkResult | undefined): void {
    this.remove(before);
    if (now) addTotals(this.#totals, now);
    this.#changed.add(object);
    this.#changes += 1;
  }

  /** A result that counts no more. */
  remove(result: LinkResult | undefined): void {
    if (result) removeTotals(this.#totals, result);
  }

  totals(): PlanTotals {
    return readTotals(this.#totals);
  }

  /** How often a result has become another: the same number, the same results. */
  get changes(): number {
    return this.#changes;
  }

  /** Names of objects whose result is another since the last call. */
  take(): readonly string[] {
    const taken = [...this.#changed];
    this.#changed.clear();
    return taken;
  }
}
