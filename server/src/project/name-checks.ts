/** What is found of names rather than of declarations: the same name or the same ports twice, one that looks like another, one that nothing uses, and a name of the library used anew. */
import { type Finding, unanswered } from '../checks/index.ts';
import {
  checkDuplicates,
  checkLookAlike,
  checkShadowing,
  checkUnused,
  type Namespace,
  silencesIn,
} from '../model/api.ts';
import type { Silence } from '../model/types.ts';
import type { Crossings } from './crossings.ts';
import type { FindingStore } from './findings.ts';
import { LookAlikes } from './look-alikes.ts';
import type { NameIndex } from './names.ts';
import type { PortUse } from './port-use.ts';
import { namedToBeUsed, type Uses } from './uses.ts';

interface Found {
  readonly findings: readonly Finding[];
  /** Answers written in the declarations themselves. */
  readonly answers: readonly Silence[];
}

export class NameChecks {
  readonly #names: NameIndex;
  readonly #crossings: Crossings;
  readonly #ports: PortUse;
  readonly #uses: Uses;
  readonly #findings: FindingStore;
  readonly #waiting = new Map<string, readonly [Namespace, string]>();
  readonly #alike = new LookAlikes();
  /** What was found, answered or not, by what it is kept under. */
  readonly #found = new Map<string, Found>();
  /** Names of the findings that the plan answers. */
  #answered = '';

  constructor(
    names: NameIndex,
    crossings: Crossings,
    ports: PortUse,
    uses: Uses,
    findings: FindingStore,
  ) {
    this.#names = names;
    this.#crossings = crossings;
    this.#ports = ports;
    this.#uses = uses;
    this.#findings = findings;
  }

  /** A name has other declarations now. */
  add(namespace: Namespace, name: string): void {
    this.#waiting.set(keyOf(namespace, name), [namespace, name]);
  }

  /** `answers` are those of the plan. */
  run(answers: readonly Silence[]): void {
    this.#addAlike();
    for (const [key, [namespace, name]] of this.#waiting) {
      const found = this.#findingsOf(namespace, name);
      if (found.findings.length > 0) this.#found.set(key, found);
      else this.#found.delete(key);
      this.#show(key, found, answers);
    }
    this.#waiting.clear();
    for (const [{ name, model }, findings] of this.#ports.recheck()) {
      const key = `ports ${name}`;
      const found = { findings, answers: model?.silence ?? [] };
      if (findings.length > 0) this.#found.set(key, found);
      else this.#found.delete(key);
      this.#show(key, found, answers);
    }
    const answered = answers.map(({ finding }) => finding).join(' ');
    if (answered !== this.#answered) {
      this.#answered = answered;
      for (const [key, found] of this.#found) this.#show(key, found, answers);
    }
    for (const [key, findings] of this.#crossings.recheck()) this.#findings.set(key, findings);
  }

  /** What looks like a changed name is asked again as well. */
  #addAlike(): void {
    for (const [namespace, name] of [...this.#waiting.values()]) {
      const there = this.#names.own(namespace, name).length > 0;
      for (const other of this.#alike.change(namespace, name, there)) this.add(namespace, other);
    }
  }

  #findingsOf(namespace: Namespace, name: string): Found {
    const own = this.#names.own(namespace, name);
    const [first] = own;
    if (!first) return { findings: [], answers: [] };
    const before = this.#alike.before(namespace, name);
    const [other] = before ? this.#names.own(namespace, before.name) : [];
    return {
      findings: [
        ...checkDuplicates(own),
        ...checkShadowing(this.#names.declared(namespace, name)),
        ...(before && other ? [checkLookAlike(first, other, before.differ)] : []),
        ...(this.#isClutter(namespace, name) ? [checkUnused(first)] : []),
      ],
      answers: [...own, ...(other ? [other] : [])].flatMap((each) => silencesIn(each).holding),
    };
  }

  /** Files under no plan may hold what some plan includes. */
  #isClutter(namespace: Namespace, name: string): boolean {
    const wanted = namedToBeUsed.includes(namespace) && this.#names.plans.length > 0;
    return wanted && !this.#uses.has(name);
  }

  #show(key: string, { findings, answers }: Found, ofPlan: readonly Silence[]): void {
    this.#findings.set(key, unanswered(findings, [...answers, ...ofPlan]));
  }
}

function keyOf(namespace: Namespace, name: string): string {
  return `name ${namespace} ${name}`;
}
