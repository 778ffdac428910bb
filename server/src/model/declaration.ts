/**
 * What a block of text declares, before any name is looked up: the unit that
 * is cached by block and compared by identity. Re-declaring a changed block
 * hands on, as the same object, every declaration, row, plan field and piece of
 * evidence whose content is equal; if it only moved, its spans are moved in
 * place, so that whatever holds one of its places sees where it stands now.
 */
import type { BoundEntry, Heading, NameKind, Value } from '../../../grammar/src/bound.ts';
import type { EvidenceRows } from './rows.ts';
import type { BlockId, Place } from './types.ts';

export type Origin = 'plan' | 'library';

/** Kinds of things that a top-level entry, or a row of `links` or `channels`, declares by name. */
export type DeclaredKind = Extract<
  NameKind,
  | 'fibre'
  | 'connector'
  | 'splice'
  | 'splitter'
  | 'component'
  | 'cable'
  | 'colours'
  | 'mandrel'
  | 'flux'
  | 'criterion'
  | 'limits'
  | 'application'
  | 'transceiver'
  | 'setup'
  | 'link'
  | 'channel'
  | 'ring'
  | 'pattern'
>;

/** One namespace per kind; links, channels, rings and cables share one. */
export type Namespace = Exclude<DeclaredKind, 'link' | 'channel' | 'ring' | 'cable'> | 'object';

/** A named declaration. Its content is equal exactly when it is the same object. */
export interface Declaration {
  readonly kind: DeclaredKind;
  readonly name: string;
  readonly title?: string;
  readonly origin: Origin;
  readonly block: BlockId;
  /** The whole declaration, or the row of a table. */
  readonly place: Place;
  readonly namePlace: Place;
  /** Entries of its own block; for a row, those its cells amount to. */
  readonly entries: readonly BoundEntry[];
  /** Names it had before (`was`). */
  readonly was: readonly string[];
  /** Entries whose line could not be read as a whole: the names in them are not judged. */
  readonly misread: readonly BoundEntry[];
  /** Its brace stands open: what is missing is not asked for. */
  readonly open: boolean;
  /** Where it is a row: the table it stands in, shared by all its rows. */
  readonly table?: TableDeclaration;
  /** The first row of its table: it alone speaks of what all rows have in common. */
  readonly first?: true;
  /** Values of holes that the row fills, by name of the hole. */
  readonly holes?: ReadonlyMap<string, Value>;
}

/** A `links` or `channels` block: what its rows have in common. */
export interface TableDeclaration {
  readonly kind: 'link' | 'channel';
  readonly title?: string;
  readonly place: Place;
  readonly pattern?: { readonly name: string; readonly place: Place };
  readonly entries: readonly BoundEntry[];
  /** Values of holes written behind the pattern's name. */
  readonly holes: ReadonlyMap<string, Value>;
  readonly headings: readonly Heading[];
  readonly misread: readonly BoundEntry[];
  readonly open: boolean;
}

/** The `plan` block: its entries by word, so that a changed `client` touches no reader of `limits`. */
/** Lines of the plan that could not be read are asked for by it, whatever their word. */
export const misreadLines = '';

export interface PlanDeclaration {
  readonly title?: string;
  readonly place: Place;
  readonly namePlace: Place;
  readonly fields: ReadonlyMap<string, readonly BoundEntry[]>;
}

export interface Include {
  readonly path: string;
  readonly place: Place;
}

/** What one block says about one object: its rows of evidence, or the work, withdrawal or concession. */
export interface EvidencePart {
  readonly object: string;
  readonly block: BlockId;
  /** Where the object is named: in the head of the block, or in the first row that names it. */
  readonly objectPlace: Place;
  readonly content: RowsPart | StatementPart;
}

/** The rows of one block of readings, events or inspection about one object. */
export interface RowsPart {
  readonly kind: RowsKind;
  readonly head: RowsHead;
  readonly rows: EvidenceRows;
}

export type RowsKind = 'readings' | 'events' | 'inspection';

/** What all rows of such a block share. */
export interface RowsHead {
  readonly kind: RowsKind;
  readonly place: Place;
  readonly entries: readonly BoundEntry[];
  readonly headings: readonly Heading[];
}

/** A `work`, `withdraw` or `concession` block. */
export interface StatementPart {
  readonly kind: 'work' | 'withdraw' | 'concession';
  readonly place: Place;
  readonly entries: readonly BoundEntry[];
}

/** All that one block of text declares. */
export interface BlockDeclarations {
  readonly block: BlockId;
  readonly origin: Origin;
  readonly declarations: readonly Declaration[];
  readonly plan?: PlanDeclaration;
  readonly includes: readonly Include[];
  /** One per object, in order of first mention. */
  readonly evidence: readonly EvidencePart[];
  /** Names that stand on lines which could not be read: what they are names of is not known. */
  readonly unread?: ReadonlySet<string>;
}

/** A use of a name: everything for definition, references and rename. A declaration's own name is not among them. */
export interface Reference {
  readonly kind: NameKind;
  readonly name: string;
  readonly place: Place;
}
