/**
 * What would be judged if some blocks said something else: names as the plan
 * has them, but for those blocks. Nothing of it is kept by the plan: models are
 * built from copies of the declarations, so that what was built before stays
 * what it was.
 */
import { type EvaluationInput, evaluateLink, type LinkResult } from '../evaluate/index.ts';
import {
  type BlockDeclarations,
  buildLink,
  buildSection,
  buildSetup,
  type Declaration,
  evidenceOf,
  type Names,
  type Namespace,
  namespaceOf,
  type PlacedEntry,
  type Scope,
  scopeOf,
} from '../model/api.ts';
import type { BlockId, LinkModel, PlanSettings, Setup, WorkEvent } from '../model/types.ts';

/** What a trial asks of the plan that it departs from. */
export interface TrialGround {
  readonly names: Names;
  readonly settings: PlanSettings;
  readonly asOf: number;
  /** Channels that cross a link, in order of the text. */
  channels(link: string): readonly LinkModel[];
  /** As it is judged now. */
  judged(
    name: string,
  ): { readonly result: LinkResult; readonly work: readonly WorkEvent[] } | undefined;
  suspected: NonNullable<EvaluationInput['suspected']>;
}

type Crossed = ReturnType<NonNullable<EvaluationInput['crossed']>>;

export class Trial {
  readonly #ground: TrialGround;
  readonly #scope: Scope;
  readonly #changed: ReadonlySet<string>;
  readonly #crossed = new Map<string, Crossed>();
  readonly #running = new Set<string>();
  #touched = false;

  constructor(ground: TrialGround, blocks: ReadonlyMap<BlockId, BlockDeclarations>) {
    this.#ground = ground;
    this.#changed = new Set(
      [...blocks.values()].flatMap(({ declarations }) =>
        declarations.map(({ kind, name }) => `${namespaceOf(kind)} ${name}`),
      ),
    );
    this.#scope = scopeOf(new TrialNames(ground.names, blocks), (kind, name) => {
      if (this.#changed.has(`${kind} ${name}`)) this.#touched = true;
    });
  }

  /** All that judging an object takes; undefined where there is no such object. */
  input(name: string): EvaluationInput | undefined {
    const link = this.#model(name);
    if (!link) return undefined;
    const { settings, asOf } = this.#ground;
    const channels = link.kind === 'link' ? this.#ground.channels(link.name) : undefined;
    return {
      link,
      evidence: evidenceOf(link.name, this.#scope),
      setup: (setup) => this.#setup(setup),
      settings,
      asOf,
      channels: channels?.map((channel) => this.#model(channel.name) ?? channel),
      crossed: (crossed) => this.#across(crossed),
      suspected: this.#ground.suspected,
    };
  }

  #model(name: string): LinkModel | undefined {
    const declared = this.#scope.find('object', name);
    if (!declared) return undefined;
    return (declared.kind === 'cable' ? buildSection : buildLink)(declared, this.#scope).model;
  }

  #setup(name: string): Setup | undefined {
    const declared = this.#scope.find('setup', name);
    return declared && buildSetup(declared, this.#scope).model;
  }

  /** A link that reads nothing of what is tried is as it was. */
  #across(name: string): Crossed {
    if (this.#crossed.has(name)) return this.#crossed.get(name);
    if (this.#running.has(name)) return undefined;
    this.#running.add(name);
    try {
      this.#touched = false;
      const input = this.input(name);
      const crossed =
        input && this.#touched
          ? { result: evaluateLink(input), work: input.evidence.work }
          : this.#ground.judged(name);
      this.#crossed.set(name, crossed);
      return crossed;
    } finally {
      this.#running.delete(name);
    }
  }
}

class TrialNames implements Names {
  readonly #names: Names;
  readonly #blocks: ReadonlyMap<BlockId, BlockDeclarations>;
  readonly #copies = new Map<Declaration, Declaration>();
  readonly #anew: readonly Declaration[];

  constructor(names: Names, blocks: ReadonlyMap<BlockId, BlockDeclarations>) {
    this.#names = names;
    this.#blocks = blocks;
    this.#anew = [...blocks.values()].flatMap(({ declarations }) => declarations);
  }

  declared(namespace: Namespace, name: string): readonly Declaration[] {
    const tried = this.#tried(this.#names.declared(namespace, name));
    // What is declared anew stands in front of the library's.
    const anew = this.#anew.filter(
      (one) => one.name === name && namespaceOf(one.kind) === namespace && !tried.includes(one),
    );
    return anew.length === 0 ? tried : [...anew, ...tried];
  }

  former(namespace: Namespace, name: string): readonly Declaration[] {
    return this.#tried(this.#names.former(namespace, name));
  }

  plan(field: string): readonly PlacedEntry[] {
    return this.#names.plan(field);
  }

  evidence(object: string): ReturnType<Names['evidence']> {
    const there = this.#names.evidence(object);
    const come = [...this.#blocks].flatMap(([block, { evidence }]) => {
      const parts = evidence.filter((part) => part.object === object);
      return parts.length > 0 ? [[block, parts] as const] : [];
    });
    if (come.length === 0 && !there.some(({ block }) => this.#blocks.has(block))) return there;
    // Where two attempts are of one time, their order in the text decides.
    const tried = new Map(come);
    const kept = there.flatMap((part) => {
      if (!this.#blocks.has(part.block)) return part;
      const now = tried.get(part.block) ?? [];
      tried.delete(part.block);
      return now;
    });
    return [...kept, ...[...tried.values()].flat()];
  }

  names(namespace: Namespace): Iterable<string> {
    return this.#names.names(namespace);
  }

  #tried(declarations: readonly Declaration[]): readonly Declaration[] {
    return declarations.flatMap((declaration) => {
      // The library is of all plans, and nothing of it is tried.
      if (declaration.origin === 'library') return declaration;
      const known = this.#copies.get(declaration);
      if (known) return known;
      const block = this.#blocks.get(declaration.block);
      const { kind, name } = declaration;
      const made = block
        ? block.declarations.find((one) => one.kind === kind && one.name === name)
        : { ...declaration };
      if (made) this.#copies.set(declaration, made);
      return made ?? [];
    });
  }
}
