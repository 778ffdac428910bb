/** Which names stand anywhere, so that a part, limits or a pattern that nothing names is seen without a walk over the plan. */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import {
  type Declaration,
  type Namespace,
  namesStandingIn,
  type PlanDeclaration,
} from '../model/api.ts';

/** What names something, or the names of lines that could not be read. */
type Subject = Declaration | PlanDeclaration | ReadonlySet<string>;

/** What is clutter where nothing names it. Cables, set-ups and links stand for things that are there. */
export const namedToBeUsed: readonly Namespace[] = [
  W.fibre,
  W.connector,
  W.splice,
  W.splitter,
  W.component,
  W.colours,
  W.limits,
  W.application,
  W.transceiver,
  W.pattern,
];

const isNames = (subject: Subject): subject is ReadonlySet<string> => subject instanceof Set;

export class Uses {
  readonly #counts = new Map<string, number>();
  readonly #names = new Map<Subject, ReadonlySet<string>>();

  /** Takes subjects out and puts others in; returns the names that stand somewhere only now, or no longer. */
  change(
    gone: readonly (Subject | undefined)[],
    come: readonly (Subject | undefined)[],
  ): readonly string[] {
    const before = new Map<string, boolean>();
    const count = (name: string, by: 1 | -1) => {
      const held = this.#counts.get(name) ?? 0;
      if (!before.has(name)) before.set(name, held > 0);
      if (held + by > 0) this.#counts.set(name, held + by);
      else this.#counts.delete(name);
    };
    for (const subject of gone) {
      const names = subject && this.#names.get(subject);
      if (!names) continue;
      this.#names.delete(subject);
      for (const name of names) count(name, -1);
    }
    for (const subject of come) {
      if (!subject || this.#names.has(subject)) continue;
      const names = isNames(subject) ? subject : namesStandingIn(subject);
      this.#names.set(subject, names);
      for (const name of names) count(name, 1);
    }
    return [...before].flatMap(([name, held]) => (held === this.#counts.has(name) ? [] : [name]));
  }

  has(name: string): boolean {
    return this.#counts.has(name);
  }
}
