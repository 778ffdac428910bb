/** One plan as everything above the project sees it: a view over its engine and its documents. */
import type { NameKind } from '../../../grammar/src/bound.ts';
import type { Finding, PlacedEdit } from '../checks/finding.ts';
import type { EvaluationInput, LinkResult, PlanResult, PlanTotals } from '../evaluate/index.ts';
import {
  type BlockDeclarations,
  buildCable,
  buildColours,
  buildConnector,
  buildFibre,
  buildSetup,
  buildSplice,
  type Declaration,
  type DeclaredKind,
  declareBlock,
  evidenceOf,
  namespaceOf,
  referencesIn,
  type Scope,
} from '../model/api.ts';
import type {
  BlockId,
  Cable,
  ColoursType,
  Evidence,
  Place,
  PlanSettings,
  Setup,
} from '../model/types.ts';
import { boundOf, type LiveBlock } from './block.ts';
import type { LiveDocument } from './document.ts';
import { Engine } from './engine.ts';
import { fileFindings, includeFinding } from './file-findings.ts';
import { byPlace } from './findings.ts';
import type { PlanFiles, ResolvedInclude } from './graph.ts';
import type { Instant } from './instant.ts';
import type { Library } from './library.ts';
import type {
  BlockView,
  Catalogue,
  IncludeLine,
  Located,
  NamedThing,
  NameUse,
  Plan,
} from './types.ts';

/** What a plan asks of its project. */
export interface PlanGround {
  document(uri: string): LiveDocument | undefined;
  documentOf(block: BlockId): LiveDocument | undefined;
  isOpen(uri: string): boolean;
  blockChanged(block: BlockId): void;
  locate(place: Place): Located | undefined;
}

/** Kinds whose declarations the model knows; others (ports, closures, reels) are only used. */
const declaredKinds: ReadonlySet<string> = new Set<DeclaredKind | 'object'>([
  'fibre',
  'connector',
  'splice',
  'splitter',
  'component',
  'cable',
  'colours',
  'mandrel',
  'flux',
  'criterion',
  'limits',
  'application',
  'transceiver',
  'setup',
  'link',
  'channel',
  'ring',
  'pattern',
  'object',
]);

/** Kinds of which a block is said to hold one. */
const judgedKinds: ReadonlySet<string> = new Set(['link', 'channel', 'ring', 'setup']);

export class LivePlan implements Plan {
  readonly engine: Engine;
  readonly #ground: PlanGround;
  readonly #library: Library;
  #files: PlanFiles;
  /** The documents whose declarations are in the engine, in order of the plan. */
  #documents: readonly LiveDocument[] = [];
  #position = new Map<LiveDocument, number>();
  /** An include of one of its files leads nowhere. */
  #lacksFiles = false;
  #order: { readonly census: number; readonly names: readonly string[] } | undefined;
  #places: { readonly names: readonly string[]; readonly of: Map<string, number> } | undefined;

  constructor(files: PlanFiles, ground: PlanGround, library: Library, asOf: Instant) {
    this.#ground = ground;
    this.#library = library;
    this.#files = files;
    this.engine = new Engine(
      library,
      {
        order: (a, b) => this.#compare(a, b),
        open: (block) => {
          const document = ground.documentOf(block);
          return document !== undefined && ground.isOpen(document.uri);
        },
        changed: (block) => ground.blockChanged(block),
      },
      asOf,
    );
    this.regroup(files);
  }

  get root(): string {
    return this.#files.root;
  }

  get files(): readonly string[] {
    return this.#files.files;
  }

  get settings(): PlanSettings {
    return this.engine.settings;
  }

  get minute(): number {
    return this.engine.minute;
  }

  /** Lazy: a link's result is worked out when it is asked for, totals when they are. */
  get result(): PlanResult {
    return this.#result;
  }

  readonly #result: PlanResult = this.#makeResult();

  /**
   * Takes other files in and lets those go that are no longer of the plan.
   * False: those that stay come in another order, and a new plan is simpler.
   */
  regroup(files: PlanFiles): boolean {
    const now = files.files.map((uri) => this.#ground.document(uri)!);
    const kept = new Set(this.#documents);
    const staying = new Set(now);
    const left = this.#documents.filter((document) => staying.has(document));
    const found = now.filter((document) => kept.has(document));
    if (left.some((document, index) => document !== found[index])) return false;
    const gone = this.#documents.filter((document) => !staying.has(document));
    this.#files = files;
    this.#documents = now;
    this.#position = new Map(now.map((document, index) => [document, index]));
    this.#order = undefined;
    this.#lacksFiles = now.some(({ uri }) => this.#includesOf(uri).some(leadsNowhere));
    this.engine.findings.filesMissing = this.#lacksFiles;
    for (const document of gone) {
      for (const declared of document.declared()) this.engine.replace(declared, undefined);
    }
    for (const document of now) {
      if (kept.has(document)) continue;
      for (const declared of document.declared()) this.engine.replace(undefined, declared);
    }
    return true;
  }

  findings(uri: string): readonly Finding[] {
    const document = this.#ground.document(uri);
    if (!document || !this.#position.has(document)) return [];
    this.engine.settleBlocks(() => document.declared());
    return [
      ...fileFindings(document),
      ...this.#includeFindings(document),
      ...this.#inBlocks(document.blocks()),
    ];
  }

  findingsIn(blocks: readonly BlockView[]): readonly Finding[] {
    const [first] = blocks;
    const document = first && this.#ground.documentOf(first.id);
    if (!document || !this.#position.has(document)) return [];
    this.engine.settleBlocks(() => document.declared());
    return this.#inBlocks(blocks.flatMap(({ id }) => document.block(id) ?? []));
  }

  /** In order of the text: a file has far more blocks than findings. */
  #inBlocks(blocks: readonly LiveBlock[]): Finding[] {
    const all: Finding[] = [];
    for (const { id, notation: said, document } of blocks) {
      const judged = this.engine.findings.in(id);
      const notation = document.problem ? said.filter((each) => !isUnreadByte(each)) : said;
      if (notation.length + judged.size === 0) continue;
      const found = [...notation, ...judged];
      if (found.length > 1) found.sort(byPlace);
      all.push(...found);
    }
    return all;
  }

  allFindings(): ReadonlyMap<string, readonly Finding[]> {
    this.engine.settle();
    const all = new Map<string, readonly Finding[]>();
    for (const { uri } of this.#documents) {
      const findings = this.findings(uri);
      if (findings.length > 0) all.set(uri, findings);
    }
    return all;
  }

  find(kind: NameKind, name: string): NamedThing | undefined {
    if (!isDeclared(kind)) return undefined;
    const declaration = this.engine.scope().find(kind, name);
    return declaration && named(declaration);
  }

  named(kind: NameKind): readonly NamedThing[] {
    if (!isDeclared(kind)) return [];
    const fits = (declaration: Declaration) =>
      kind === 'object' ? namespaceOf(declaration.kind) === 'object' : declaration.kind === kind;
    const own = this.#documents.flatMap((document) =>
      document.declared().flatMap(({ declarations }) => declarations.filter(fits)),
    );
    return [...own, ...[...this.#library.all()].filter(fits)].map(named);
  }

  /** Looks into the blocks whose text holds the name at all; the others cannot use it. */
  uses(kind: NameKind, name: string): readonly NameUse[] {
    const plain = /^[\x20-\x7e]*$/u.test(name);
    const family = familyOf(kind);
    return this.#documents.flatMap((document) =>
      document.blocks().flatMap((block) => {
        const { text } = block;
        if (plain && !text.includes(name) && !text.includes('\\')) return [];
        return referencesIn(block.bound(), block.id).filter(
          (use) => use.name === name && familyOf(use.kind) === family,
        );
      }),
    );
  }

  namesIn(id: BlockId): readonly (NameUse & { readonly declares: boolean })[] {
    const document = this.#ground.documentOf(id);
    const block = document?.block(id);
    if (!document || !block) return [];
    const declared = document.declaredIn(id)?.declarations ?? [];
    return [
      ...declared.map(({ kind, name, namePlace }) => ({
        kind,
        name,
        place: namePlace,
        declares: true,
      })),
      ...referencesIn(block.bound(), id).map((use) => ({ ...use, declares: false })),
    ].sort((a, b) => a.place.span.start - b.place.span.start);
  }

  setup(name: string): Setup | undefined {
    const scope = this.engine.scope();
    const declared = scope.find('setup', name);
    return declared && buildSetup(declared, scope).model;
  }

  cable(name: string): Cable | undefined {
    const scope = this.engine.scope();
    const declared = scope.find('cable', name);
    return declared && buildCable(declared, scope).model;
  }

  fibresNeeded(cable: string): number {
    return this.engine.fibresNeeded(cable);
  }

  orders(): readonly ColoursType[] {
    const scope = this.engine.scope();
    return this.named('colours').flatMap(({ name }) => {
      const declared = scope.find('colours', name);
      return declared ? [buildColours(declared, scope).model] : [];
    });
  }

  catalogue(): Catalogue {
    const scope = this.engine.scope();
    const all = <Type>(
      kind: DeclaredKind,
      build: (declared: Declaration, scope: Scope) => { readonly model: Type },
    ) =>
      [...new Set(this.named(kind).map(({ name }) => name))].flatMap((name): Type[] => {
        const declared = scope.find(kind, name);
        return declared ? [build(declared, scope).model] : [];
      });
    return {
      fibres: all('fibre', buildFibre),
      connectors: all('connector', buildConnector),
      splices: all('splice', buildSplice),
    };
  }

  tried(object: string, edits: readonly PlacedEdit[] = []): EvaluationInput | undefined {
    const blocks = new Map<BlockId, BlockDeclarations>();
    for (const id of new Set(edits.map(({ place }) => place.block))) {
      const text = this.#ground.documentOf(id)?.block(id)?.text;
      if (text === undefined) return undefined;
      const bound = boundOf(
        edited(
          text,
          edits.filter(({ place }) => place.block === id),
        ),
      );
      if (bound.findings.some(({ severity }) => severity === 'error')) return undefined;
      blocks.set(id, declareBlock(bound, id, { origin: 'plan' }));
    }
    return this.engine.trial(blocks, object).input(object);
  }

  madeOf(id: BlockId): readonly string[] {
    const declared = this.#ground.documentOf(id)?.declaredIn(id);
    return declared ? this.engine.madeOf(declared) : [];
  }

  reach(id: BlockId, only?: string): readonly string[] {
    const declared = this.#ground.documentOf(id)?.declaredIn(id);
    if (!declared) return [];
    const reached = this.engine.reachOf(declared, only);
    if (reached.size < 2) return [...reached];
    const names = this.#namesInOrder();
    // Most blocks reach few of many.
    if (reached.size > names.length / 16) return names.filter((name) => reached.has(name));
    if (this.#places?.names !== names) {
      this.#places = { names, of: new Map(names.map((name, place) => [name, place])) };
    }
    const { of } = this.#places;
    return [...reached].filter((name) => of.has(name)).sort((a, b) => of.get(a)! - of.get(b)!);
  }

  madeWith(kind: DeclaredKind, name: string): readonly string[] {
    const declaration = this.engine.scope().find(kind, name);
    if (!declaration) return [];
    const { block, origin } = declaration;
    const declarations = [declaration];
    return this.engine.madeOf({ block, origin, declarations, includes: [], evidence: [] });
  }

  evidence(object: string): Evidence {
    return evidenceOf(object, this.engine.scope());
  }

  includes(uri: string): readonly IncludeLine[] {
    return this.#includesOf(uri).map(({ include, target }) => ({
      place: include.place,
      text: include.path,
      ...(target ? { target } : {}),
    }));
  }

  objectsIn(id: BlockId): readonly string[] {
    const declared = this.#ground.documentOf(id)?.declaredIn(id);
    if (!declared) return [];
    const names = new Set<string>();
    for (const { kind, name } of declared.declarations) {
      const section = kind === 'cable' && this.engine.judgedAs(name) !== undefined;
      if (judgedKinds.has(kind) || section) names.add(name);
    }
    for (const { object } of declared.evidence) {
      names.add(this.engine.judgedAs(object)?.name ?? object);
    }
    return [...names];
  }

  resultsIn(id: BlockId): readonly LinkResult[] {
    const declared = this.#ground.documentOf(id)?.declaredIn(id)?.declarations ?? noDeclarations;
    if (declared.length === 0) return noResults;
    return declared.flatMap((each) => this.engine.resultOf(each) ?? noResults);
  }

  locate(place: Place): Located | undefined {
    return this.#ground.locate(place);
  }

  #makeResult(): PlanResult {
    const plan = this;
    return {
      get title(): string | undefined {
        return plan.settings.title;
      },
      get totals(): PlanTotals {
        const { totals } = plan.engine;
        // A line or a file that nobody could read may be the one that matters.
        const unread = totals.accepted && (plan.#lacksFiles || plan.#documents.some(isUnread));
        return unread ? { ...totals, accepted: false } : totals;
      },
      get order(): readonly string[] {
        return plan.#namesInOrder();
      },
      link: (name: string): LinkResult | undefined => plan.engine.result(name),
    };
  }

  #namesInOrder(): readonly string[] {
    const { census } = this.engine;
    if (this.#order?.census !== census) {
      const names = this.#documents.flatMap((document) =>
        document
          .declared()
          .flatMap(({ declarations }) =>
            declarations.filter((each) => this.engine.isJudged(each)).map(({ name }) => name),
          ),
      );
      this.#order = { census, names };
    }
    return this.#order.names;
  }

  #includesOf(uri: string): readonly ResolvedInclude[] {
    const document = this.#ground.document(uri);
    return (document && this.#files.includes.get(document.uri)) ?? [];
  }

  #includeFindings(document: LiveDocument): readonly Finding[] {
    return this.#includesOf(document.uri).flatMap(({ include, problem }) =>
      problem ? [includeFinding(include, problem)] : [],
    );
  }

  #compare(a: BlockId, b: BlockId): number {
    if (a === b) return 0;
    const first = this.#ground.documentOf(a);
    const second = this.#ground.documentOf(b);
    if (!first || !second) return a - b;
    return first === second
      ? first.indexOf(a) - first.indexOf(b)
      : (this.#position.get(first) ?? 0) - (this.#position.get(second) ?? 0);
  }
}

/** All that a circle names is here. */
function leadsNowhere({ problem }: ResolvedInclude): boolean {
  return problem !== undefined && problem !== 'circle';
}

function isUnread({ misread, problem }: LiveDocument): boolean {
  return misread || problem !== undefined;
}

/** What stands for bytes that are not UTF-8 is told of the file. */
function isUnreadByte({ name, details }: Finding): boolean {
  return name === 'stray-character' && /^\uFFFD+$/u.test(`${details.written}`);
}

const noDeclarations: readonly Declaration[] = [];
const noResults: readonly LinkResult[] = [];

/** A text with some of its places said anew. */
function edited(text: string, edits: readonly PlacedEdit[]): string {
  return [...edits]
    .sort((a, b) => b.place.span.start - a.place.span.start)
    .reduce(
      (now, { place: { span }, text: said }) =>
        now.slice(0, span.start) + said + now.slice(span.end),
      text,
    );
}

function isDeclared(kind: NameKind): kind is DeclaredKind | 'object' {
  return declaredKinds.has(kind);
}

/** Kinds that share a namespace name the same thing. */
function familyOf(kind: NameKind): string {
  return isDeclared(kind) ? namespaceOf(kind) : kind;
}

export function named({ kind, name, title, place, namePlace, origin }: Declaration): NamedThing {
  return { kind, name, place, namePlace, origin, ...(title === undefined ? {} : { title }) };
}
