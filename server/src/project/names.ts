/**
 * The index of names of one plan: what is declared, what evidence there is,
 * and which fields the `plan` block has. It is changed block by block, and says
 * which names changed, so that whoever read one of them is judged again and
 * nobody else.
 */
import type {
  BlockDeclarations,
  Declaration,
  EvidencePart,
  Names,
  Namespace,
  PlacedEntry,
  PlanDeclaration,
  ReadKind,
} from '../model/api.ts';
import { namespaceOf } from '../model/api.ts';
import type { BlockId } from '../model/types.ts';

/** Declarations that every plan may use. */
export interface LibraryNames {
  declared(namespace: Namespace, name: string): readonly Declaration[];
  names(namespace: Namespace): Iterable<string>;
}

/** A `plan` block with the block of text it stands in. */
export interface PlacedPlan {
  readonly block: BlockId;
  readonly plan: PlanDeclaration;
}

/** What one changed block has changed in the index. */
export interface DeclarationChange {
  readonly gone: readonly Declaration[];
  readonly come: readonly Declaration[];
  readonly partsGone: readonly EvidencePart[];
  readonly partsCome: readonly EvidencePart[];
  /** Names whose declarations are others now, or in another order. */
  readonly names: readonly (readonly [Namespace, string])[];
}

type ByName<Thing> = Map<string, readonly Thing[]>;

const none: readonly never[] = [];

export class NameIndex implements Names {
  readonly #library: LibraryNames;
  readonly #order: (a: BlockId, b: BlockId) => number;
  readonly #touch: (kind: ReadKind, name: string) => void;
  readonly #declared = new Map<Namespace, ByName<Declaration>>();
  readonly #answers = new Map<Namespace, ByName<Declaration>>();
  readonly #former = new Map<Namespace, ByName<Declaration>>();
  readonly #evidence: ByName<EvidencePart> = new Map();
  readonly #renamed = new Map<string, readonly [Namespace, string]>();
  #plans: readonly PlacedPlan[] = none;
  #fields: ReadonlyMap<string, readonly PlacedEntry[]> = new Map();

  /** `order` compares two blocks of the plan by where they stand; `touch` hears of every changed answer. */
  constructor(
    library: LibraryNames,
    order: (a: BlockId, b: BlockId) => number,
    touch: (kind: ReadKind, name: string) => void,
  ) {
    this.#library = library;
    this.#order = order;
    this.#touch = touch;
  }

  /** The first `plan` block is the plan's own; a second one is a finding. */
  get plans(): readonly PlacedPlan[] {
    return this.#plans;
  }

  declared(namespace: Namespace, name: string): readonly Declaration[] {
    const answers = within(this.#answers, namespace);
    const known = answers.get(name);
    if (known) return known;
    const own = this.own(namespace, name);
    const library = this.#library.declared(namespace, name);
    const answer = library.length === 0 ? own : own.length === 0 ? library : [...own, ...library];
    answers.set(name, answer);
    return answer;
  }

  /** Those of the plan alone, in order of the text. */
  own(namespace: Namespace, name: string): readonly Declaration[] {
    return this.#declared.get(namespace)?.get(name) ?? none;
  }

  former(namespace: Namespace, name: string): readonly Declaration[] {
    return this.#former.get(namespace)?.get(name) ?? none;
  }

  plan(field: string): readonly PlacedEntry[] {
    return this.#fields.get(field) ?? none;
  }

  evidence(object: string): readonly EvidencePart[] {
    return this.#evidence.get(object) ?? none;
  }

  *names(namespace: Namespace): Iterable<string> {
    yield* this.#declared.get(namespace)?.keys() ?? none;
    yield* this.#library.names(namespace);
  }

  /** All that the plan declares in a namespace, in no order. */
  *all(namespace: Namespace): Iterable<Declaration> {
    for (const list of this.#declared.get(namespace)?.values() ?? none) yield* list;
  }

  /** Takes the old declarations of a block out and puts the new ones in: only differences are touched. */
  replace(
    before: BlockDeclarations | undefined,
    now: BlockDeclarations | undefined,
  ): DeclarationChange {
    const gone = difference(before?.declarations, now?.declarations);
    const come = difference(now?.declarations, before?.declarations);
    for (const declaration of gone) this.#leave(declaration);
    for (const declaration of come) this.#enter(declaration);
    if (before && now) for (const kept of now.declarations) this.#sortAgain(kept);
    const partsGone = difference(before?.evidence, now?.evidence);
    const partsCome = difference(now?.evidence, before?.evidence);
    for (const part of partsGone) {
      take(this.#evidence, part.object, part);
      this.#touch('evidence', part.object);
    }
    for (const part of partsCome) {
      put(this.#evidence, part.object, part, (a, b) => this.#order(a.block, b.block));
      this.#touch('evidence', part.object);
    }
    if (before?.plan !== now?.plan) this.#replacePlan(before, now);
    const names = [...this.#renamed.values()];
    this.#renamed.clear();
    return { gone, come, partsGone, partsCome, names };
  }

  #enter(declaration: Declaration): void {
    const namespace = namespaceOf(declaration.kind);
    const declared = within(this.#declared, namespace);
    if (!declared.has(declaration.name)) this.#touch('names', namespace);
    put(declared, declaration.name, declaration, this.#byPlace);
    this.#changed(namespace, declaration.name);
    for (const name of declaration.was) {
      put(within(this.#former, namespace), name, declaration, this.#byPlace);
      this.#touch('former', name);
    }
  }

  #leave(declaration: Declaration): void {
    const namespace = namespaceOf(declaration.kind);
    const declared = within(this.#declared, namespace);
    take(declared, declaration.name, declaration);
    if (!declared.has(declaration.name)) this.#touch('names', namespace);
    this.#changed(namespace, declaration.name);
    for (const name of declaration.was) {
      take(within(this.#former, namespace), name, declaration);
      this.#touch('former', name);
    }
  }

  /** Two rows of one table may have changed places without changing. */
  #sortAgain(declaration: Declaration): void {
    const namespace = namespaceOf(declaration.kind);
    const list = this.own(namespace, declaration.name);
    if (list.length < 2) return;
    const sorted = [...list].sort(this.#byPlace);
    if (sorted.every((each, index) => each === list[index])) return;
    within(this.#declared, namespace).set(declaration.name, sorted);
    this.#changed(namespace, declaration.name);
  }

  #changed(namespace: Namespace, name: string): void {
    this.#answers.get(namespace)?.delete(name);
    this.#renamed.set(`${namespace} ${name}`, [namespace, name]);
    this.#touch(namespace, name);
  }

  #replacePlan(before: BlockDeclarations | undefined, now: BlockDeclarations | undefined): void {
    const others = this.#plans.filter(({ plan }) => plan !== before?.plan);
    const plans = now?.plan ? [...others, { block: now.block, plan: now.plan }] : others;
    this.#plans = plans.sort(
      (a, b) => this.#order(a.block, b.block) || a.plan.place.span.start - b.plan.place.span.start,
    );
    const fields = new Map<string, readonly PlacedEntry[]>();
    const own = this.#plans[0];
    for (const [word, entries] of own?.plan.fields ?? none) {
      const block = own!.block;
      const kept = this.#fields.get(word);
      const same =
        kept?.length === entries.length &&
        kept.every((each, index) => each.entry === entries[index] && each.block === block);
      fields.set(word, same ? kept! : entries.map((entry) => ({ block, entry })));
    }
    const words = new Set([...this.#fields.keys(), ...fields.keys()]);
    const changed = [...words].filter((word) => this.#fields.get(word) !== fields.get(word));
    this.#fields = fields;
    for (const word of changed) this.#touch('plan', word);
  }

  readonly #byPlace = (a: Declaration, b: Declaration): number =>
    this.#order(a.block, b.block) || a.place.span.start - b.place.span.start;
}

function within<Key, Inner>(outer: Map<Key, Map<string, Inner>>, key: Key): Map<string, Inner> {
  const known = outer.get(key);
  if (known) return known;
  const made = new Map<string, Inner>();
  outer.set(key, made);
  return made;
}

/** Lists are replaced, never changed: whoever holds one goes on holding what it read. */
function put<Thing>(
  map: ByName<Thing>,
  name: string,
  thing: Thing,
  order: (a: Thing, b: Thing) => number,
): void {
  const list = map.get(name);
  map.set(name, list ? [...list, thing].sort(order) : [thing]);
}

function take<Thing>(map: ByName<Thing>, name: string, thing: Thing): void {
  const left = (map.get(name) ?? none).filter((each) => each !== thing);
  if (left.length > 0) map.set(name, left);
  else map.delete(name);
}

/** Members of `all` that `others` does not hold. */
function difference<Thing>(
  all: readonly Thing[] | undefined,
  others: readonly Thing[] | undefined,
): readonly Thing[] {
  if (!all || all.length === 0) return none;
  if (!others || others.length === 0) return all;
  if (all.length === 1 && others.length === 1) return all[0] === others[0] ? none : all;
  const known = new Set(others);
  return all.filter((each) => !known.has(each));
}
