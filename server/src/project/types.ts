/**
 * The project as everything after it sees it: synchronous, in memory, the same
 * in Node and in a web worker. A plan is a `plan` file and all it includes; a
 * file under no plan is judged with what it includes.
 */
import type { BoundBlock, NameKind } from '../../../grammar/src/bound.ts';
import type { Finding, PlacedEdit } from '../checks/finding.ts';
import type { EvaluationInput } from '../evaluate/index.ts';
import type { LinkResult, PlanResult } from '../evaluate/result.ts';
import type {
  BlockId,
  Cable,
  ColoursType,
  ConnectorType,
  Evidence,
  FibreType,
  Place,
  PlanSettings,
  Setup,
  SpliceType,
} from '../model/types.ts';

export interface Position {
  /** From 0. */
  readonly line: number;
  /** UTF-16 units from 0. */
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/** What an include line names. */
export interface IncludeLine {
  readonly place: Place;
  readonly text: string;
  /** Address of the file, if it is one of the plan. */
  readonly target?: string;
}

export interface Located {
  readonly uri: string;
  readonly range: Range;
}

/** A declared thing as navigation sees it. */
export interface NamedThing {
  readonly kind: NameKind;
  readonly name: string;
  readonly title?: string;
  /** The whole declaration, or the row of a table. */
  readonly place: Place;
  readonly namePlace: Place;
  readonly origin: 'plan' | 'library';
}

/** A place where a name is used (a declaration's own name is not among them). */
export interface NameUse {
  readonly kind: NameKind;
  readonly name: string;
  readonly place: Place;
}

/** What a path may be made of. */
export interface Catalogue {
  readonly fibres: readonly FibreType[];
  readonly connectors: readonly ConnectorType[];
  readonly splices: readonly SpliceType[];
}

/** One block of a document as it lies now. */
export interface BlockView {
  readonly id: BlockId;
  readonly text: string;
  /** The document's edition in which this text came into it. */
  readonly edition: number;
  /** First line of the block in its document, from 0. */
  readonly line: number;
  readonly lines: number;
  /** Tree and bound entries; made when asked for, kept while the document is open. */
  bound(): BoundBlock;
}

export interface DocumentView {
  readonly uri: string;
  readonly version: number | null;
  /** Another number after every change of the text. */
  readonly edition: number;
  readonly lineCount: number;
  text(): string;
  /** Text of one line without its end. */
  line(number: number): string;
  /** Blocks that meet the lines `from` to `to` (inclusive). All of them are the same list while none moves. */
  blocks(from?: number, to?: number): readonly BlockView[];
  blockAt(position: Position): BlockView | undefined;
  /** Offset in the block's text of a position in the document. */
  offsetIn(block: BlockView, position: Position): number;
  /** Range in the document of a span of a block. */
  rangeOf(block: BlockView, span: { readonly start: number; readonly end: number }): Range;
}

export interface Plan {
  readonly root: string;
  readonly files: readonly string[];
  readonly settings: PlanSettings;
  /** By which it is judged, on the site's clock, since 1970-01-01 00:00. */
  readonly minute: number;
  /** Fresh: asking finishes what is dirty. */
  readonly result: PlanResult;
  findings(uri: string): readonly Finding[];
  /** Findings of single blocks of a file, those of the file as a whole left out. */
  findingsIn(blocks: readonly BlockView[]): readonly Finding[];
  allFindings(): ReadonlyMap<string, readonly Finding[]>;
  /** The declaration that a use means: nearest shadows the library. */
  find(kind: NameKind, name: string): NamedThing | undefined;
  named(kind: NameKind): readonly NamedThing[];
  uses(kind: NameKind, name: string): readonly NameUse[];
  /** Every name written in a block, declared or used, in order of the text: for hover, definition, rename, tokens. */
  namesIn(block: BlockId): readonly (NameUse & { readonly declares: boolean })[];
  setup(name: string): Setup | undefined;
  cable(name: string): Cable | undefined;
  /** How many fibres of a cable some link takes and does not keep as spares. */
  fibresNeeded(cable: string): number;
  /** All orders of colours, the plan's first. */
  orders(): readonly ColoursType[];
  evidence(object: string): Evidence;
  includes(uri: string): readonly IncludeLine[];
  /** Fibres, connectors and splices that a path may be made of, the plan's first. */
  catalogue(): Catalogue;
  /**
   * All that judging an object takes if some places said something else, or as
   * it is without edits: worked out for the question and kept by nobody.
   * Undefined where an edit leaves a line that cannot be read.
   */
  tried(object: string, edits?: readonly PlacedEdit[]): EvaluationInput | undefined;
  /** Names of the links, channels and rings that are made of what a block declares. */
  madeOf(block: BlockId): readonly string[];
  /**
   * Names of the links, channels, rings and sections that are made of, or judged
   * with, what a block declares, in order of the text; with a name, only by that
   * declaration of it, by the evidence of that object or by that field of the plan.
   */
  reach(block: BlockId, only?: string): readonly string[];
  /** Names of those that are made with a thing of a name, such as a kind of connector. */
  madeWith(kind: 'connector', name: string): readonly string[];
  /** Names of links, channels and set-ups whose declaration or evidence stands in this block. */
  objectsIn(block: BlockId): readonly string[];
  /** Results of what is declared in this block, where that declaration is the one its name means. */
  resultsIn(block: BlockId): readonly LinkResult[];
  locate(place: Place): Located | undefined;
}

export interface Project {
  document(uri: string): DocumentView | undefined;
  readonly plans: readonly Plan[];
  planOf(uri: string): Plan | undefined;
  /** Text of a library file by its address, read-only. */
  libraryText(uri: string): string | undefined;
}
