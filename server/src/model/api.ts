/**
 * The model as the rest of the house uses it. Pure functions: a block of text
 * is declared for itself; a declaration is built through a scope that answers
 * for its names. What is built through a scope is kept by declaration and
 * reused while everything it read is still the same.
 */
import type { BoundBlock } from '../../../grammar/src/bound.ts';
import type { BlockDeclarations, Declaration, EvidencePart, Origin, Reference } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import type { Scope } from './scope.ts';
import type {
  ApplicationType,
  BlockId,
  Cable,
  Evidence,
  FibreType,
  LimitsSet,
  LinkModel,
  Place,
  PlanSettings,
  Setup,
} from './types.ts';

export type * from './declaration.ts';
export type * from './finding.ts';
export { namespaceOf, nearestSpelling, type Names, type PlacedEntry, type ReadKind, type Scope, scopeOf } from './scope.ts';

/** One fibre of a cable that a link takes. */
export interface CableUse {
  readonly cable: string;
  readonly fibre: number;
  /** The segment that takes it. */
  readonly place: Place;
}

/**
 * Declarations of one block. With the block's former declarations, what is
 * equal is handed on as the same object, its spans moved to where it stands now.
 */
export declare function declareBlock(
  bound: BoundBlock,
  block: BlockId,
  options?: { readonly origin?: Origin; readonly previous?: BlockDeclarations },
): BlockDeclarations;

/** Every use of a name in a block, in order of the text; made when asked for, from the bound block. */
export declare function referencesIn(bound: BoundBlock, block: BlockId): readonly Reference[];

/** A link or channel, or a row of `links` or `channels`. */
export declare function buildLink(declaration: Declaration, scope: Scope): Built<LinkModel>;
export declare function buildSetup(declaration: Declaration, scope: Scope): Built<Setup>;
export declare function buildFibre(declaration: Declaration, scope: Scope): Built<FibreType>;
export declare function buildLimits(declaration: Declaration, scope: Scope): Built<LimitsSet>;
export declare function buildApplication(declaration: Declaration, scope: Scope): Built<ApplicationType>;
export declare function buildCable(declaration: Declaration, scope: Scope): Built<Cable>;

/** Findings about any declaration, whatever its kind (those of `buildLink` and the others included). */
export declare function checkDeclaration(declaration: Declaration, scope: Scope): readonly ModelFinding[];
/** Findings about a piece of evidence: unknown object, unknown set-up, cells that say nothing usable. */
export declare function checkEvidence(part: EvidencePart, scope: Scope): readonly ModelFinding[];
/** Findings about names in the `plan` block. */
export declare function checkPlan(scope: Scope): readonly ModelFinding[];
/** Each declaration after the first of one name in a plan; the list is the plan's, in order of the text. */
export declare function checkDuplicates(declared: readonly Declaration[]): readonly ModelFinding[];
/** A note where a plan declares a name that the library has. */
export declare function checkShadowing(declared: readonly Declaration[]): readonly ModelFinding[];

export declare function planSettings(scope: Scope): PlanSettings;
/** All evidence about a declared object, under its name and the names it had before. */
export declare function evidenceOf(object: string, scope: Scope): Evidence;

/** Fibres of cables that a link takes itself (a channel takes none: its links do). */
export declare function cableUse(link: LinkModel): readonly CableUse[];
/** Double use of one fibre of a cable: `users` are all links that take it. One finding per link after the first. */
export declare function checkCableFibre(
  cable: string,
  fibre: number,
  users: readonly { readonly link: string; readonly place: Place }[],
): readonly ModelFinding[];
