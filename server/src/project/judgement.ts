/**
 * The judgement of one link, channel, ring or section: its model, then its result, each with
 * the names it read, so that it is worked out again exactly when one changes.
 */

import { batchTooHigh } from '../checks/batch-too-high.ts';
import type { Finding } from '../checks/finding.ts';
import { blocksAcceptance, checkLink, unanswered, unansweredInPlace } from '../checks/index.ts';
import {
  type EvaluationInput,
  evaluateLink,
  type FewReadings,
  type LinkResult,
  type Suspicion,
  suspicionsIn,
} from '../evaluate/index.ts';
import {
  buildLink,
  buildSection,
  buildSetup,
  type CableUse,
  cableUse,
  type Declaration,
  evidenceOf,
  type Scope,
  silencesIn,
  silencesInPart,
} from '../model/api.ts';
import type {
  Evidence,
  LinkModel,
  PlanSettings,
  Setup,
  Silence,
  WorkEvent,
} from '../model/types.ts';
import { readKey } from './readers.ts';
import type { SuspicionOf } from './suspicions.ts';
import { stages, type Task } from './tasks.ts';

/** What a judgement needs of its plan. */
export interface Bench {
  /** A scope that writes down what is read through it. */
  scope(reads: Set<string>): Scope;
  settings(reads: Set<string>): PlanSettings;
  /** The minute of judgement on the site's clock. */
  asOf(reads: Set<string>): number;
  urgent(declaration: Declaration): boolean;
  /** Runs whatever channel models are dirty: any of them may cross any link. */
  settleModels(): void;
  settle(task: Task): void;
  record(task: Task, reads: ReadonlySet<string>): void;
  add(task: Task): void;
  /** Channels that cross a link, in order of the text. */
  channels(link: string, reads: Set<string>): readonly LinkModel[];
  judgementOf(name: string): Judgement | undefined;
  modelChanged(judgement: Judgement): void;
  /** Notes what the readings of an object raise about their set-ups. */
  suspect(judgement: Judgement, raised: readonly SuspicionOf[]): void;
  /** What other objects raise about a set-up. */
  suspicions(setup: string, judgement: Judgement): readonly Suspicion[];
  resultChanged(judgement: Judgement, before: LinkResult | undefined): void;
  found(owner: Judgement, findings: readonly Finding[], few: readonly FewReadings[]): void;
}

export class Judgement {
  readonly declaration: Declaration;
  readonly modelling: Task;
  readonly judging: Task;
  model: LinkModel | undefined;
  result: LinkResult | undefined;
  fibres: readonly CableUse[] = [];
  work: readonly WorkEvent[] = [];
  readonly #bench: Bench;
  #ofStructure: readonly Finding[] = [];
  #running = false;

  constructor(declaration: Declaration, bench: Bench) {
    this.declaration = declaration;
    this.#bench = bench;
    // Made of links, whose results they are foretold from.
    const crosses = declaration.kind === 'channel' || declaration.kind === 'ring';
    const urgent = () => bench.urgent(declaration);
    const object = declaration.name;
    this.modelling = {
      object,
      stage: crosses ? stages.models : stages.judgements,
      place: declaration.namePlace,
      urgent,
      run: () => this.#build(),
    };
    this.judging = {
      object,
      stage: crosses ? stages.channels : stages.judgements,
      place: declaration.namePlace,
      urgent,
      run: () => this.#judge(),
    };
  }

  get name(): string {
    return this.declaration.name;
  }

  /** The result as it is now, worked out if something it read has changed. */
  fresh(): LinkResult | undefined {
    if (this.#running) return this.result;
    this.#bench.settleModels();
    this.#bench.settle(this.modelling);
    this.#bench.settle(this.judging);
    return this.result;
  }

  #build(): void {
    const reads = new Set<string>();
    const build = this.declaration.kind === 'cable' ? buildSection : buildLink;
    const { model, findings } = build(this.declaration, this.#bench.scope(reads));
    this.#bench.record(this.modelling, reads);
    if (model === this.model) return;
    this.model = model;
    this.#ofStructure = findings;
    this.fibres = cableUse(model);
    this.#bench.modelChanged(this);
    this.#bench.add(this.judging);
  }

  #judge(): void {
    this.#running = true;
    try {
      this.#bench.settleModels();
      this.#bench.settle(this.modelling);
      if (this.model) this.#evaluate(this.model);
    } finally {
      this.#running = false;
    }
  }

  #evaluate(link: LinkModel): void {
    const bench = this.#bench;
    const before = this.result;
    const reads = new Set<string>();
    try {
      const scope = bench.scope(reads);
      const evidence = evidenceOf(this.name, scope);
      const settings = bench.settings(reads);
      const setup = (name: string): Setup | undefined => {
        const declared = scope.find('setup', name);
        return declared ? buildSetup(declared, scope).model : undefined;
      };
      this.work = evidence.work;
      this.result = undefined;
      const input: EvaluationInput = {
        link,
        evidence,
        setup,
        settings,
        asOf: bench.asOf(reads),
        channels: link.kind === 'link' ? bench.channels(this.name, reads) : undefined,
        crossed: (name) => this.#crossed(name, reads),
      };
      // What a reading raises about its set-up follows from its own object alone, so that
      // objects which suspect each other come out the same whoever was judged first.
      const alone = evaluateLink(input);
      bench.suspect(this, suspicionsIn(alone.readings));
      const suspected = this.#suspected(evidence, reads);
      const result =
        suspected.size === 0
          ? alone
          : evaluateLink({
              ...input,
              suspected: (name) => suspected.get(name) ?? [],
            });
      const { asOf } = input;
      const found = checkLink({ link, result, evidence, settings, asOf, setup });
      const beside = answersBeside(link, evidence, scope);
      const findings = unansweredInPlace(found, beside);
      // What its structure lacks is shown by its declaration, and stands in its way all the same.
      const structure = unanswered(this.#ofStructure, [...link.silence, ...settings.silence]);
      const waiting = [...findings, ...structure].filter(blocksAcceptance);
      this.result =
        result.accepted && waiting.length > 0
          ? { ...result, accepted: false, waitsFor: [...new Set(waiting.map(({ name }) => name))] }
          : result;
      const answers = [...link.silence, ...settings.silence, ...beside];
      const quiet = answers.some(({ finding }) => finding === batchTooHigh.name);
      bench.found(this, findings, quiet ? [] : result.few);
    } finally {
      bench.record(this.judging, reads);
      bench.resultChanged(this, before);
    }
  }

  /** Suspicions that other objects raise about the set-ups of this one's readings. */
  #suspected(evidence: Evidence, reads: Set<string>): ReadonlyMap<string, readonly Suspicion[]> {
    const suspected = new Map<string, readonly Suspicion[]>();
    for (const setup of new Set(evidence.readings.map((reading) => reading.setup))) {
      reads.add(readKey('suspected', setup));
      const raised = this.#bench.suspicions(setup, this);
      if (raised.length > 0) suspected.set(setup, raised);
    }
    return suspected;
  }

  #crossed(link: string, reads: Set<string>): CrossedLink | undefined {
    reads.add(readKey('result', link));
    const crossed = this.#bench.judgementOf(link);
    const result = crossed === this ? undefined : crossed?.fresh();
    return crossed && result ? { result, work: crossed.work } : undefined;
  }
}

/** Answers written where evidence of an object stands, and in the set-ups that it was measured with. */
function answersBeside(link: LinkModel, evidence: Evidence, scope: Scope): readonly Silence[] {
  const setups = new Set([...evidence.readings, ...evidence.events].map(({ setup }) => setup));
  return [
    ...[link.name, ...link.was].flatMap((name) => scope.evidence(name).flatMap(silencesInPart)),
    ...[...setups].flatMap((name) => {
      const declared = scope.find('setup', name);
      return declared ? silencesIn(declared).holding : [];
    }),
  ];
}

type CrossedLink = NonNullable<ReturnType<NonNullable<EvaluationInput['crossed']>>>;
