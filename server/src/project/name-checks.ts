/** What is found of names rather than of declarations: the same name twice, and a name of the library used anew. */
import { checkDuplicates, checkShadowing, type Namespace } from '../model/api.ts';
import type { Crossings } from './crossings.ts';
import type { FindingStore } from './findings.ts';
import type { NameIndex } from './names.ts';

export class NameChecks {
  readonly #names: NameIndex;
  readonly #crossings: Crossings;
  readonly #findings: FindingStore;
  readonly #waiting = new Map<string, readonly [Namespace, string]>();

  constructor(names: NameIndex, crossings: Crossings, findings: FindingStore) {
    this.#names = names;
    this.#crossings = crossings;
    this.#findings = findings;
  }

  /** A name has other declarations now. */
  add(namespace: Namespace, name: string): void {
    this.#waiting.set(`name ${namespace} ${name}`, [namespace, name]);
  }

  run(): void {
    for (const [key, [namespace, name]] of this.#waiting) {
      const own = this.#names.own(namespace, name);
      const findings =
        own.length === 0
          ? []
          : [...checkDuplicates(own), ...checkShadowing(this.#names.declared(namespace, name))];
      this.#findings.set(key, findings);
    }
    this.#waiting.clear();
    for (const [key, findings] of this.#crossings.recheck()) this.#findings.set(key, findings);
  }
}
