/**
 * The judgement of one plan, kept up to date by what changed. An edit pushes
 * from below: changed declarations touch names, names touch whoever read them,
 * and those are dirty until someone asks or a slice of time comes round.
 * Working everything out from nothing gives the same.
 */

import type { Finding } from '../checks/finding.ts';
import type { LinkResult, PlanTotals } from '../evaluate/index.ts';
import {
  type BlockDeclarations,
  type Declaration,
  type EvidencePart,
  planSettings,
  type ReadKind,
  type Scope,
  scopeOf,
} from '../model/api.ts';
import type { BlockId, Place, PlanSettings } from '../model/types.ts';
import { Crossings } from './crossings.ts';
import { faultFinding } from './faults.ts';
import { Pools } from './few-readings.ts';
import { FindingStore } from './findings.ts';
import { type Instant, onSite } from './instant.ts';
import { type Bench, Judgement } from './judgement.ts';
import { NameChecks } from './name-checks.ts';
import { type DeclarationChange, type LibraryNames, NameIndex } from './names.ts';
import { PortUse } from './port-use.ts';
import { madeOf, reachOf } from './reach.ts';
import { ReaderIndex, readKey } from './readers.ts';
import { ResultFolds } from './result-folds.ts';
import { SharedFaults } from './shared-faults.ts';
import { type Told, tellDeclaration, tellPart, tellPlan } from './subject-checks.ts';
import { type SuspicionOf, Suspicions } from './suspicions.ts';
import { Agenda, stages, type Task } from './tasks.ts';
import { Trial } from './trial.ts';
import { namedToBeUsed, Uses } from './uses.ts';

/** What the engine asks of the documents of its plan. */
export interface Ground {
  /** Compares two blocks by where they stand in the plan. */
  order(a: BlockId, b: BlockId): number;
  /** Whether the file that a block stands in is open in an editor. */
  open(block: BlockId): boolean;
  /** The findings of a block are others now. */
  changed(block: BlockId): void;
}

export class Engine {
  readonly names: NameIndex;
  readonly findings: FindingStore;
  readonly #ground: Ground;
  readonly results = new ResultFolds();
  readonly #agenda = new Agenda();
  readonly #readers = new ReaderIndex<Task>();
  readonly #judgements = new Map<string, Judgement>();
  readonly #tasks = new Map<Declaration | EvidencePart, Task>();
  readonly #crossings: Crossings;
  readonly #suspicions: Suspicions;
  readonly #sharedFaults: SharedFaults;
  readonly #pools: Pools;
  readonly #nameChecks: NameChecks;
  readonly #ports: PortUse;
  readonly #uses = new Uses();
  /** A `plan` block is there: what nothing names is nobody else's to name. */
  #whole = false;
  readonly #planTask: Task;
  readonly #bench: Bench;
  #settings: PlanSettings | undefined;
  #asOf: Instant;
  /** Changes whenever a link or channel comes or goes. */
  #census = 0;

  constructor(library: LibraryNames, ground: Ground, asOf: Instant) {
    this.#ground = ground;
    this.#asOf = asOf;
    this.findings = new FindingStore((block) => ground.changed(block));
    this.names = new NameIndex(
      library,
      (a, b) => ground.order(a, b),
      (kind, name) => this.#touch(kind, name),
    );
    const inOrder = (a: Judgement, b: Judgement) =>
      ground.order(a.declaration.block, b.declaration.block) ||
      a.declaration.place.span.start - b.declaration.place.span.start;
    this.#crossings = new Crossings(inOrder);
    this.#suspicions = new Suspicions(inOrder);
    this.#sharedFaults = new SharedFaults(this.findings);
    this.#pools = new Pools(this.findings, (task) => this.#agenda.add(task));
    this.#ports = new PortUse(inOrder);
    this.#nameChecks = new NameChecks(
      this.names,
      this.#crossings,
      this.#ports,
      this.#uses,
      this.findings,
    );
    this.#planTask = {
      stage: stages.rest,
      urgent: () => this.names.plans.some(({ block }) => ground.open(block)),
      run: () => this.#tell('plan', this.#planTask, tellPlan(this.names.plans, this.#bench)),
    };
    this.#bench = this.#makeBench();
    this.#agenda.add(this.#planTask);
  }

  /** Takes one block's change in. Nothing is judged yet. */
  replace(before: BlockDeclarations | undefined, now: BlockDeclarations | undefined): void {
    const change = this.names.replace(before, now);
    for (const subject of [...change.gone, ...change.partsGone]) this.#drop(subject);
    for (const declaration of change.come) {
      this.#take(declaration, declaration.namePlace, () =>
        tellDeclaration(declaration, this.#bench, (cable) => this.#crossings.needed(cable)),
      );
    }
    for (const part of change.partsCome) {
      this.#take(part, part.objectPlace, () => tellPart(part, this.#bench));
    }
    for (const [namespace, name] of change.names) {
      this.#nameChecks.add(namespace, name);
      if (namespace === 'object') this.#appoint(name);
    }
    for (const { object } of [...change.partsGone, ...change.partsCome]) {
      this.#appointSections(object);
    }
    this.#count(before, now, change);
    if (before?.plan !== now?.plan) this.#agenda.add(this.#planTask);
  }

  /** What is named for the first time, or no longer, is looked at again. */
  #count(
    before: BlockDeclarations | undefined,
    now: BlockDeclarations | undefined,
    { gone, come }: DeclarationChange,
  ): void {
    const [left, came] = [before, now].map((block) => [block?.plan, block?.unread]);
    for (const name of this.#uses.change([...gone, ...left!], [...come, ...came!])) {
      for (const namespace of namedToBeUsed) {
        if (this.names.own(namespace, name).length > 0) this.#nameChecks.add(namespace, name);
      }
    }
    const whole = this.names.plans.length > 0;
    if (whole === this.#whole) return;
    this.#whole = whole;
    for (const namespace of namedToBeUsed) {
      for (const { name } of this.names.all(namespace)) this.#nameChecks.add(namespace, name);
    }
  }

  /** The minute by which the plan is judged, on the site's clock. */
  get minute(): number {
    return onSite(this.#asOf, this.settings.zone);
  }

  /** Another instant of judgement: everything that is judged is judged again. */
  set asOf(instant: Instant) {
    const before = onSite(this.#asOf, this.settings.zone);
    this.#asOf = instant;
    if (onSite(instant, this.settings.zone) === before) return;
    for (const judgement of this.#judgements.values()) this.#agenda.add(judgement.judging);
  }

  /** A file was opened or closed: what is visible comes first. */
  sortAgain(): void {
    this.#agenda.sortAgain();
  }

  /** Works until nothing is dirty or `enough` says so; true if nothing is dirty. */
  work(enough: () => boolean): boolean {
    for (;;) {
      const task = this.#agenda.next();
      if (!task) return true;
      this.#settle(task);
      if (enough()) return this.#agenda.size === 0;
    }
  }

  /** How many tasks are dirty. */
  get waiting(): number {
    return this.#agenda.size;
  }

  /** Whether anything of an open file is dirty. */
  get urgent(): boolean {
    return this.#agenda.hasUrgent;
  }

  /** What is found of names and of shared fibres; cheap, and wanted whenever findings are shown. */
  settleNames(): void {
    this.#nameChecks.run(this.settings.silence);
  }

  /** Works everything out that is dirty. */
  settle(): void {
    this.work(() => false);
    this.#nameChecks.run(this.settings.silence);
  }

  /** Works out what blocks show: their declarations, and the objects their evidence is about. */
  settleBlocks(blocks: () => Iterable<BlockDeclarations>): void {
    for (const block of this.#agenda.size > 0 ? blocks() : []) {
      for (const declaration of block.declarations) {
        this.#settleSubject(declaration);
        this.#judgements.get(declaration.name)?.fresh();
      }
      for (const part of block.evidence) {
        this.#settleSubject(part);
        this.judgedAs(part.object)?.fresh();
      }
    }
    this.#settle(this.#planTask);
    this.#nameChecks.run(this.settings.silence);
  }

  get totals(): PlanTotals {
    this.settle();
    const totals = this.results.totals();
    // What is found of set-ups, names and declarations belongs to no one link, and still wants an answer.
    return totals.accepted && this.findings.blocking > 0 ? { ...totals, accepted: false } : totals;
  }

  result(name: string): LinkResult | undefined {
    return this.#resultNow(this.#judgements.get(name));
  }

  /** The result of a declaration, if it is the one that its name means and that is judged. */
  resultOf(declaration: Declaration): LinkResult | undefined {
    const judgement = this.#judgements.get(declaration.name);
    return judgement?.declaration === declaration ? this.#resultNow(judgement) : undefined;
  }

  #resultNow(judgement: Judgement | undefined): LinkResult | undefined {
    return this.#agenda.size === 0 ? judgement?.result : judgement?.fresh();
  }

  /** The judgement that evidence under a name goes to: the object's, or that of one that had the name before. */
  judgedAs(object: string): Judgement | undefined {
    const declared = this.scope().find('object', object);
    const judgement = declared && this.#judgements.get(declared.name);
    return judgement?.declaration === declared ? judgement : undefined;
  }

  /** Whether a declaration is the one that its name means and that is judged. */
  isJudged(declaration: Declaration): boolean {
    return this.#judgements.get(declaration.name)?.declaration === declaration;
  }

  /** The plan as it would be if some blocks said something else; of no blocks, as it is. */
  trial(blocks: ReadonlyMap<BlockId, BlockDeclarations>, of: string): Trial {
    this.#bench.settleModels();
    const judgement = this.#judgements.get(of);
    judgement?.fresh();
    return new Trial(
      {
        names: this.names,
        settings: this.settings,
        asOf: onSite(this.#asOf, this.settings.zone),
        channels: (link) => this.#crossings.channels(link),
        judged: (name) => {
          const other = this.#judgements.get(name);
          const result = other?.fresh();
          return other && result ? { result, work: other.work } : undefined;
        },
        suspected: (setup) => (judgement ? this.#suspicions.raisedElsewhere(setup, judgement) : []),
      },
      blocks,
    );
  }

  /** Names of what is made of what a block declares; asks for no verdict. */
  madeOf(block: BlockDeclarations): readonly string[] {
    for (const { modelling } of this.#judgements.values()) this.#settle(modelling);
    return madeOf(block, this.#judgements.values(), this.#readers);
  }

  /** Names of what is judged with what a block declares, or with what it says of one name. */
  reachOf(block: BlockDeclarations, only?: string): ReadonlySet<string> {
    this.settle();
    return reachOf(block, only, this.#readers, (declaration) => this.isJudged(declaration));
  }

  /** Asks for what links are made of, and for no verdict. */
  fibresNeeded(cable: string): number {
    for (const { modelling } of this.#judgements.values()) this.#settle(modelling);
    return this.#crossings.needed(cable);
  }

  get census(): number {
    return this.#census;
  }

  get settings(): PlanSettings {
    this.#settings ??= planSettings(this.scope());
    return this.#settings;
  }

  /** A scope that tells nobody what it read: for questions, not for judgements. */
  scope(): Scope {
    return scopeOf(this.names);
  }

  #makeBench(): Bench {
    return {
      asOf: (reads) => onSite(this.#asOf, this.#bench.settings(reads).zone),
      scope: (reads) => scopeOf(this.names, (kind, name) => reads.add(readKey(kind, name))),
      settings: (reads) => recordFields(this.settings, reads),
      urgent: (declaration) => this.#ground.open(declaration.block),
      settleModels: () => {
        for (const task of this.#agenda.in(stages.models)) this.#settle(task);
      },
      settle: (task) => this.#settle(task),
      record: (task, reads) => this.#readers.record(task, reads),
      add: (task) => this.#agenda.add(task),
      channels: (link, reads) => {
        reads.add(readKey('crossing', link));
        return this.#crossings.channels(link);
      },
      judgementOf: (name) => this.#judgements.get(name),
      found: (owner, findings, few) => {
        this.#sharedFaults.set(owner, findings);
        this.#pools.set(owner, findings, few);
      },
      suspect: (judgement, raised) => this.#suspect(judgement, raised),
      suspicions: (setup, judgement) => this.#suspicions.raisedElsewhere(setup, judgement),
      modelChanged: (judgement) => this.#modelChanged(judgement),
      resultChanged: (judgement, before) => this.#resultChanged(judgement, before),
    };
  }

  #touch(kind: ReadKind | 'crossing' | 'taken' | 'result' | 'suspected', name: string): void {
    if (kind === 'plan') this.#settings = undefined;
    for (const task of this.#readers.of(readKey(kind, name))) this.#agenda.add(task);
  }

  /** A task whose fault stays its own: the rest of the plan is judged as usual. */
  #settle(task: Task): void {
    if (!this.#agenda.remove(task)) return;
    try {
      task.run();
      this.findings.set(task, noFindings);
    } catch (error) {
      this.findings.set(task, task.place ? [faultFinding(task.place, error)] : noFindings);
    }
  }

  #settleSubject(subject: Declaration | EvidencePart): void {
    const task = this.#tasks.get(subject);
    if (task) this.#settle(task);
  }

  #take(subject: Declaration | EvidencePart, place: Place, told: () => Told): void {
    const task: Task = {
      stage: stages.rest,
      place,
      urgent: () => this.#ground.open(subject.block),
      run: () => this.#tell(subject, task, told()),
    };
    this.#tasks.set(subject, task);
    this.#agenda.add(task);
  }

  #drop(subject: Declaration | EvidencePart): void {
    const task = this.#tasks.get(subject);
    if (!task) return;
    this.#forget(task);
    this.#tasks.delete(subject);
    this.findings.set(subject, noFindings);
  }

  #forget(task: Task): void {
    this.#agenda.remove(task);
    this.findings.set(task, noFindings);
    this.#readers.forget(task);
  }

  /** A cable is judged by itself only where evidence names it. */
  #wantsJudging({ kind, name, was }: Declaration): boolean {
    if (kind === 'cable') {
      return [name, ...was].some((each) => this.names.evidence(each).length > 0);
    }
    return kind === 'link' || kind === 'channel' || kind === 'ring';
  }

  /** Evidence of a name has come or gone: a cable of it may be a section now, or no longer. */
  #appointSections(object: string): void {
    for (const { kind, name } of [
      ...this.names.own('object', object),
      ...this.names.former('object', object),
    ]) {
      if (kind === 'cable') this.#appoint(name);
    }
  }

  /** The first link, channel, ring or section of a name is the one that is judged. */
  #appoint(name: string): void {
    const first = this.names.own('object', name).find((each) => this.#wantsJudging(each));
    const before = this.#judgements.get(name);
    if (before?.declaration === first) return;
    if (before) this.#dismiss(before);
    if (first) {
      const judgement = new Judgement(first, this.#bench);
      this.#judgements.set(name, judgement);
      this.#agenda.add(judgement.modelling);
      this.#agenda.add(judgement.judging);
    }
    this.#census += 1;
    this.#touch('result', name);
    this.results.replace(name, undefined, undefined);
  }

  #dismiss(judgement: Judgement): void {
    this.#forget(judgement.modelling);
    this.#forget(judgement.judging);
    this.#sharedFaults.set(judgement, noFindings);
    this.#pools.set(judgement, noFindings, []);
    this.#judgements.delete(judgement.name);
    for (const cable of this.#crossings.cablesOf(judgement)) this.#touch('taken', cable);
    for (const link of this.#crossings.remove(judgement)) this.#touch('crossing', link);
    this.#suspect(judgement, []);
    this.#ports.change(judgement, undefined);
    this.results.remove(judgement.result);
  }

  #modelChanged(judgement: Judgement): void {
    this.#ports.change(judgement, judgement.model);
    const before = this.#crossings.cablesOf(judgement);
    for (const link of this.#crossings.change(judgement)) this.#touch('crossing', link);
    const cables = new Set([...before, ...this.#crossings.cablesOf(judgement)]);
    for (const cable of cables) this.#touch('taken', cable);
  }

  #suspect(judgement: Judgement, raised: readonly SuspicionOf[]): void {
    for (const setup of this.#suspicions.change(judgement, raised)) {
      this.#touch('suspected', setup);
    }
  }

  #resultChanged(judgement: Judgement, before: LinkResult | undefined): void {
    this.results.replace(judgement.name, before, judgement.result);
    this.#touch('result', judgement.name);
  }

  /** Keeps what was told of a subject apart from links, and what its telling read. */
  #tell(subject: Declaration | EvidencePart | 'plan', task: Task, { findings, reads }: Told): void {
    this.#readers.record(task, reads);
    this.findings.set(subject, findings);
  }
}

/** Settings that write down which field was read, so that a changed `client` judges nothing again. */
function recordFields(settings: PlanSettings, reads: Set<string>): PlanSettings {
  return new Proxy(settings, {
    get(target, field) {
      if (typeof field === 'string') reads.add(readKey('plan', field));
      return Reflect.get(target, field);
    },
  });
}

const noFindings: readonly Finding[] = [];
