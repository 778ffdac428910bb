/**
 * A plan as it is now, for ever: results and findings as they were given, names
 * in an index of their own, blocks with the text and the lines they have. The
 * project may read another text over it and judge only what changes by that.
 */
import type { BoundBlock } from '../../../grammar/src/bound.ts';
import type { Span } from '../../../grammar/src/tree.ts';
import type { LinkResult, PlanResult } from '../evaluate/result.ts';
import {
  type BlockDeclarations,
  buildSetup,
  type DeclaredKind,
  evidenceOf,
  scopeOf,
} from '../model/api.ts';
import { EvidenceRows, type RowPlaces, spanAmong } from '../model/rows.ts';
import type { BlockId, Evidence, Place, Setup } from '../model/types.ts';
import { boundOf, type LiveBlock } from '../project/block.ts';
import type { LiveDocument } from '../project/document.ts';
import type { LiveProject } from '../project/index.ts';
import { sharedLibrary } from '../project/library.ts';
import { NameIndex } from '../project/names.ts';
import { named } from '../project/plan.ts';
import type { BlockView, NamedThing, Plan, Range } from '../project/types.ts';
import { pathFrom } from './state.ts';
import type { PlanState, StateFile, StatePlace } from './types.ts';

interface HeldBlock {
  readonly path: string;
  readonly view: BlockView;
  /** A document finds lines and characters of any block; it asks nothing but its text and first line. */
  readonly document: LiveDocument;
}

/**
 * Takes a plan as it is. `changing` are the blocks that will say something else:
 * of them alone reach is kept, and where each of their spans lies, since what
 * stays equal moves along with the text.
 */
export function freeze(
  plan: Plan,
  project: LiveProject,
  label: string,
  changing: Iterable<BlockId>,
): PlanState {
  const documents = plan.files.flatMap((uri) => project.document(uri) ?? []);
  const held = new Map<BlockId, HeldBlock>();
  const files = documents.map((document): StateFile => {
    const path = pathFrom(plan.root, document.uri);
    const blocks = document.blocks().map((block): BlockView => {
      const view = new FrozenBlock(block);
      held.set(view.id, { path, view, document });
      return view;
    });
    return { path, text: document.text(), blocks };
  });
  const names = namesOf(documents);
  const spans = new HeldSpans();
  const reach = new Map<BlockId, ReachOfBlock>();
  for (const id of changing) {
    const declared = project.documentOf(id)?.declaredIn(id);
    if (!declared || !held.has(id)) continue;
    spans.hold(declared);
    reach.set(id, reachOf(declared, plan));
  }
  const findings = [...plan.allFindings().values()].flat();
  return {
    label,
    files,
    settings: plan.settings,
    minute: plan.minute,
    result: frozenResult(plan.result),
    findings,
    evidence: (object: string): Evidence => evidenceOf(object, scopeOf(names)),
    setup(name: string): Setup | undefined {
      const scope = scopeOf(names);
      const declared = scope.find('setup', name);
      return declared && buildSetup(declared, scope).model;
    },
    find(kind: NamedThing['kind'], name: string): NamedThing | undefined {
      const declared = scopeOf(names).find(kind as DeclaredKind, name);
      return declared && named(declared);
    },
    reach(block: BlockId, only?: string): readonly string[] {
      const known = reach.get(block);
      if (!known) return plan.reach(block, only);
      return only === undefined ? known.all : (known.by.get(only) ?? []);
    },
    locate({ block, span }: Place): StatePlace | undefined {
      const found = held.get(block);
      if (!found) return undefined;
      const { path, view, document } = found;
      const range: Range = document.rangeOf(view, spans.of(span));
      return { path, range };
    },
  };
}

class FrozenBlock implements BlockView {
  readonly id: BlockId;
  readonly text: string;
  readonly edition: number;
  readonly line: number;
  readonly lines: number;
  #bound: BoundBlock | undefined;

  constructor({ id, text, edition, line, lines }: LiveBlock) {
    this.id = id;
    this.text = text;
    this.edition = edition;
    this.line = line;
    this.lines = lines;
  }

  bound(): BoundBlock {
    this.#bound ??= boundOf(this.text);
    return this.#bound;
  }
}

function namesOf(documents: readonly LiveDocument[]): NameIndex {
  const order = new Map<BlockId, number>();
  for (const document of documents) {
    for (const { id } of document.blocks()) order.set(id, order.size);
  }
  const names = new NameIndex(
    sharedLibrary(),
    (a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0),
    () => {},
  );
  for (const document of documents) {
    for (const declared of document.declared()) names.replace(undefined, declared);
  }
  return names;
}

interface ReachOfBlock {
  readonly all: readonly string[];
  /** By declared name, object of evidence, or field of the plan. */
  readonly by: ReadonlyMap<string, readonly string[]>;
}

function reachOf({ block, declarations, evidence, plan: fields }: BlockDeclarations, plan: Plan) {
  const all = plan.reach(block);
  const parts = new Set([
    ...declarations.map(({ name }) => name),
    ...evidence.map(({ object }) => object),
    ...(fields?.fields.keys() ?? []),
  ]);
  const by = new Map<string, readonly string[]>();
  // What is one thing reaches as far as its block.
  for (const part of parts) by.set(part, parts.size === 1 ? all : plan.reach(block, part));
  return { all, by };
}

function frozenResult({ title, totals, order, link }: PlanResult): PlanResult {
  const results = new Map<string, LinkResult>();
  for (const name of order) {
    const result = link(name);
    if (result) results.set(name, result);
  }
  return {
    ...(title === undefined ? {} : { title }),
    totals,
    order,
    link: (name) => results.get(name),
  };
}

/** Where the spans lie that blocks are made of: those that stay equal move along with a text that changes. */
class HeldSpans {
  readonly #spans = new Map<Span, Span>();
  readonly #rows = new Map<EvidenceRows, RowPlaces>();
  readonly #seen = new Set<object>();

  hold(of: object): void {
    if (this.#seen.has(of)) return;
    this.#seen.add(of);
    if (of instanceof EvidenceRows) {
      this.#rows.set(of, of.places);
    } else if (isSpan(of)) {
      this.#spans.set(of, { start: of.start, end: of.end });
    } else {
      for (const each of of instanceof Map ? of.values() : Object.values(of)) {
        if (typeof each === 'object' && each !== null) this.hold(each);
      }
    }
  }

  of(span: Span): Span {
    return this.#spans.get(span) ?? spanAmong(span, this.#rows) ?? span;
  }
}

function isSpan(of: object): of is Span {
  return 'start' in of && 'end' in of && typeof of.start === 'number';
}
