/** Which links end at which ports, so that two between the same ports are seen without asking all of them. */
import { checkSamePorts } from '../model/api.ts';
import type { ModelFinding } from '../model/finding.ts';
import type { LinkModel } from '../model/types.ts';
import type { Judgement } from './judgement.ts';

export class PortUse {
  readonly #order: (a: Judgement, b: Judgement) => number;
  readonly #users = new Map<string, Set<Judgement>>();
  readonly #models = new Map<Judgement, LinkModel>();
  readonly #dirty = new Set<Judgement>();

  constructor(order: (a: Judgement, b: Judgement) => number) {
    this.#order = order;
  }

  /** A link is new, another, or gone. */
  change(judgement: Judgement, model: LinkModel | undefined): void {
    const before = this.#models.get(judgement);
    if (before) this.#leave(judgement, before);
    this.#dirty.add(judgement);
    if (model?.kind !== 'link' || model.from.length === 0 || model.to.length === 0) return;
    this.#models.set(judgement, model);
    for (const port of portsOf(model)) {
      const users = this.#users.get(port) ?? new Set();
      for (const user of users) this.#dirty.add(user);
      this.#users.set(port, users.add(judgement));
    }
  }

  /** Findings of links whose company has changed since the last call, each with whom it is of. */
  *recheck(): Iterable<readonly [Judgement, readonly ModelFinding[]]> {
    for (const judgement of this.#dirty) {
      const model = this.#models.get(judgement);
      yield [judgement, model ? this.#findingsOf(judgement, model) : []];
    }
    this.#dirty.clear();
  }

  #findingsOf(judgement: Judgement, model: LinkModel): readonly ModelFinding[] {
    const near = new Set(model.from.flatMap((port) => [...(this.#users.get(port) ?? [])]));
    const earlier = [...near]
      .filter((other) => other !== judgement && this.#order(other, judgement) < 0)
      .sort(this.#order);
    for (const other of earlier) {
      const found = checkSamePorts(model, this.#models.get(other)!);
      if (found) return [found];
    }
    return [];
  }

  #leave(judgement: Judgement, model: LinkModel): void {
    this.#models.delete(judgement);
    for (const port of portsOf(model)) {
      const users = this.#users.get(port);
      users?.delete(judgement);
      if (users?.size === 0) this.#users.delete(port);
      for (const user of users ?? []) this.#dirty.add(user);
    }
  }
}

function portsOf({ from, to }: LinkModel): ReadonlySet<string> {
  return new Set([...from, ...to]);
}
