/**
 * The project: documents, which files make which plan, and a judgement of each
 * plan. Everything here is synchronous and in memory; texts come in through
 * `put`, `open` and `change`, and an edit costs what it touches.
 */
import type { Finding } from '../checks/finding.ts';
import type { BlockDeclarations } from '../model/api.ts';
import type { BlockId, Place } from '../model/types.ts';
import type { LiveBlock } from './block.ts';
import type { DecodedFile } from './decode.ts';
import { type BlockChange, LiveDocument, type TextChange } from './document.ts';
import { buildGraph, type FileGraph, wantedBy } from './graph.ts';
import { sameAddress } from './include.ts';
import type { Instant } from './instant.ts';
import { type Library, sharedLibrary } from './library.ts';
import { LivePlan } from './plan.ts';
import type { Located, Plan, Project } from './types.ts';

export interface ProjectOptions {
  /** The instant of judgement. */
  readonly asOf: Instant;
  readonly library?: Library;
}

/** Results that are others now, of one plan. */
export interface ChangedResults {
  readonly plan: string;
  readonly objects: readonly string[];
  /** Files in which those objects are declared. */
  readonly files: readonly string[];
}

export class LiveProject implements Project {
  readonly #library: Library;
  readonly #documents = new Map<string, LiveDocument>();
  readonly #blocks = new Map<BlockId, LiveBlock>();
  readonly #open = new Set<string>();
  readonly #changedFiles = new Set<string>();
  readonly #missing = new Set<string>();
  /** Files read and not put in their place yet, so that none is cut into blocks twice. */
  readonly #ahead = new WeakMap<DecodedFile, LiveDocument>();
  #plans: readonly LivePlan[] = [];
  #plansOf = new Map<string, readonly LivePlan[]>();
  #graph: FileGraph = { plans: [], wanted: [] };
  #folders: readonly string[] = [];
  #asOf: Instant;

  constructor(options: ProjectOptions) {
    this.#library = options.library ?? sharedLibrary();
    this.#asOf = options.asOf;
    for (const document of this.#library.documents.values()) {
      for (const block of document.blocks()) this.#blocks.set(block.id, block);
    }
  }

  // What comes in

  /** Folders of the workspace: includes stay inside them. */
  set folders(uris: readonly string[]) {
    this.#folders = uris.map(sameAddress);
    this.#regraph();
  }

  set asOf(instant: Instant) {
    this.#asOf = instant;
    for (const plan of this.#plans) plan.engine.asOf = instant;
  }

  /** A file as it is on the disk; undefined: it is gone. What an editor has open stays as it is there. */
  put(uri: string, file: DecodedFile | undefined): void {
    this.putAll([[uri, file]]);
  }

  putAll(files: readonly (readonly [uri: string, file: DecodedFile | undefined])[]): void {
    let others = false;
    for (const [uri, file] of files) {
      const address = sameAddress(uri);
      this.#missing.delete(address);
      if (this.#open.has(address)) continue;
      const document = this.#documents.get(address);
      if (!file) {
        if (document) this.#remove(document);
        others ||= document !== undefined;
      } else if (document) {
        document.problem = file.problem;
        others = this.#apply(document, document.replaceText(file.text)) || others;
      } else {
        this.#add(this.#made(address, file));
        others = true;
      }
    }
    if (others) this.#regraph();
  }

  open(uri: string, version: number, text: string): LiveDocument {
    const address = sameAddress(uri);
    this.#open.add(address);
    this.#changedFiles.add(address);
    const known = this.#documents.get(address);
    if (!known) {
      const document = new LiveDocument(address, text, version, 'plan');
      this.#add(document);
      this.#regraph();
      return document;
    }
    known.version = version;
    known.problem = undefined;
    if (this.#apply(known, known.replaceText(text))) this.#regraph();
    for (const plan of this.#plansOf.get(address) ?? []) plan.engine.sortAgain();
    return known;
  }

  change(uri: string, version: number, changes: readonly TextChange[]): LiveDocument {
    const address = sameAddress(uri);
    const document = this.#documents.get(address);
    if (!document) throw new RangeError(`${uri} is not open`);
    document.version = version;
    this.#changedFiles.add(address);
    if (this.#apply(document, document.change(changes))) this.#regraph();
    return document;
  }

  /** The editor lets go of a file; its text stays until the disk's is put in its place. */
  close(uri: string): void {
    const address = sameAddress(uri);
    this.#open.delete(address);
    const document = this.#documents.get(address);
    if (document) document.version = null;
    for (const plan of this.#plansOf.get(address) ?? []) plan.engine.sortAgain();
  }

  /** Addresses that includes name and that nobody has looked for yet. */
  get wanted(): readonly string[] {
    return this.#graph.wanted.filter((uri) => !this.#missing.has(uri));
  }

  /** Addresses that a file includes which was read and not put in its place yet, and which are not here. */
  includedBy(uri: string, file: DecodedFile): readonly string[] {
    const document = this.#made(sameAddress(uri), file);
    this.#ahead.set(file, document);
    return wantedBy(document.graphFile(), this.#folders).filter(
      (each) => !this.#documents.has(each) && !this.#missing.has(each),
    );
  }

  /** These have been looked for; those that did not come are missing. */
  lookedFor(uris: readonly string[]): void {
    for (const uri of uris) if (!this.#documents.has(uri)) this.#missing.add(uri);
  }

  // What is worked out

  /** Works until nothing is dirty or `enough` says so; true if nothing is dirty. */
  work(enough: () => boolean): boolean {
    for (const plan of this.#plans) if (!plan.engine.work(enough)) return false;
    for (const plan of this.#plans) plan.engine.settleNames();
    return true;
  }

  /** Whether something of an open file is still dirty. */
  get urgent(): boolean {
    return this.#plans.some(({ engine }) => engine.urgent);
  }

  /** How many judgements are still dirty. */
  get waiting(): number {
    return this.#plans.reduce((sum, { engine }) => sum + engine.waiting, 0);
  }

  /** Files whose findings may be others since the last call; with a condition, the others stay for later. */
  takeChangedFiles(condition: (uri: string) => boolean = () => true): readonly string[] {
    const taken = [...this.#changedFiles].filter(condition);
    for (const uri of taken) this.#changedFiles.delete(uri);
    return taken;
  }

  /** Everything shown is to be shown again: the user's settings have changed. */
  changeAll(): void {
    for (const uri of this.#documents.keys()) this.#changedFiles.add(uri);
  }

  /** How often a result of any plan has become another. */
  get resultChanges(): number {
    return this.#plans.reduce((sum, { engine }) => sum + engine.results.changes, 0);
  }

  takeChangedResults(): readonly ChangedResults[] {
    return this.#plans.flatMap((plan) => {
      const objects = plan.engine.results.take();
      if (objects.length === 0) return [];
      const files = new Set<string>();
      for (const name of objects) {
        const block = plan.find('object', name)?.place.block;
        const document = block === undefined ? undefined : this.documentOf(block);
        if (document) files.add(document.uri);
      }
      return [{ plan: plan.root, objects, files: [...files] }];
    });
  }

  // What is asked

  get plans(): readonly Plan[] {
    return this.#plans;
  }

  /** The library's own documents, read-only. */
  get library(): Iterable<LiveDocument> {
    return this.#library.documents.values();
  }

  get uris(): Iterable<string> {
    return this.#documents.keys();
  }

  has(uri: string): boolean {
    return this.#documents.has(sameAddress(uri));
  }

  isOpen(uri: string): boolean {
    return this.#open.has(sameAddress(uri));
  }

  document(uri: string): LiveDocument | undefined {
    const address = sameAddress(uri);
    return this.#documents.get(address) ?? this.#library.documents.get(address);
  }

  /** The plan that a file belongs to; of several, the first by the address of its root. */
  planOf(uri: string): Plan | undefined {
    return this.#plansOf.get(sameAddress(uri))?.[0];
  }

  libraryText(uri: string): string | undefined {
    return this.#library.documents.get(sameAddress(uri))?.text();
  }

  /** What all plans of a file say about it, each finding once. */
  findings(uri: string): readonly Finding[] {
    const plans = this.#plansOf.get(sameAddress(uri)) ?? [];
    if (plans.length < 2) return plans[0]?.findings(uri) ?? [];
    const once = new Map<string, Finding>();
    for (const finding of plans.flatMap((plan) => plan.findings(uri))) {
      const { block, span } = finding.place;
      once.set(JSON.stringify([block, span, finding.name, finding.message]), finding);
    }
    return [...once.values()];
  }

  locate(place: Place): Located | undefined {
    const block = this.#blocks.get(place.block);
    return block && { uri: block.document.uri, range: block.document.rangeOf(block, place.span) };
  }

  block(id: BlockId): LiveBlock | undefined {
    return this.#blocks.get(id);
  }

  documentOf(block: BlockId): LiveDocument | undefined {
    return this.#blocks.get(block)?.document;
  }

  blockChanged(block: BlockId): void {
    const document = this.documentOf(block);
    if (document) this.#changedFiles.add(document.uri);
  }

  // How a change goes on

  #made(address: string, file: DecodedFile): LiveDocument {
    const ahead = this.#ahead.get(file);
    this.#ahead.delete(file);
    if (ahead?.uri === address) return ahead;
    return new LiveDocument(address, file.text, null, 'plan', file.problem);
  }

  #add(document: LiveDocument): void {
    this.#documents.set(document.uri, document);
    this.#changedFiles.add(document.uri);
    for (const block of document.blocks()) this.#blocks.set(block.id, block);
  }

  #remove(document: LiveDocument): void {
    this.#documents.delete(document.uri);
    this.#changedFiles.add(document.uri);
    for (const block of document.blocks()) this.#blocks.delete(block.id);
  }

  /** Hands changed blocks on to the plans of their file; true if the file graph may be another. */
  #apply(document: LiveDocument, changes: readonly BlockChange[]): boolean {
    if (changes.length === 0) return false;
    this.#changedFiles.add(document.uri);
    const plans = this.#plansOf.get(document.uri) ?? [];
    let others = false;
    for (const { id, before, now } of changes) {
      if (now) this.#blocks.set(id, document.block(id)!);
      for (const plan of plans) plan.engine.replace(before, now);
      if (!now) this.#blocks.delete(id);
      others ||= shapesGraph(before) || shapesGraph(now);
    }
    return others;
  }

  /** Finds anew which files make which plan, and changes only the plans that are others. */
  #regraph(): void {
    this.#graph = buildGraph(
      new Map([...this.#documents].map(([uri, document]) => [uri, document.graphFile()])),
      this.#folders,
    );
    const before = new Map(this.#plans.map((plan) => [plan.root, plan]));
    this.#plans = this.#graph.plans.map((files) => {
      const known = before.get(files.root);
      if (known?.regroup(files)) return known;
      return new LivePlan(files, this, this.#library, this.#asOf);
    });
    this.#plansOf = new Map();
    for (const plan of this.#plans) {
      for (const uri of plan.files) {
        this.#plansOf.set(uri, [...(this.#plansOf.get(uri) ?? []), plan]);
        if (this.#documents.get(uri)!.graphFile().includes.length > 0) this.#changedFiles.add(uri);
      }
    }
  }
}

function shapesGraph(declared: BlockDeclarations | undefined): boolean {
  return declared !== undefined && (declared.plan !== undefined || declared.includes.length > 0);
}
