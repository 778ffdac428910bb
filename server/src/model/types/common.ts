/** What every part of the model is made of: places in the text, instants, names with their sources. */
import type { Span } from '../../../../grammar/src/tree.ts';

/** A block of text, by identity: equal texts may stand twice. The project knows its file and where it lies now. */
export type BlockId = number;

/** Where something stands in the text. */
export interface Place {
  readonly block: BlockId;
  readonly span: Span;
}

export type Direction = 'A>B' | 'B>A';
export type Mode = 'multimode' | 'single-mode' | 'plastic';
export type ReferenceMethod = 'one-cord' | 'two-cord' | 'three-cord' | 'equipment-cord';
export type PairPolicy = 'counting' | 'reference-grade' | 'enhanced';
export type DecisionRule = 'flagged' | 'simple' | 'guarded-acceptance' | 'guarded-rejection';
export type CordGrade = 'reference-grade' | 'ordinary';

/** `read`: a text stating it was read; `recalled`: from memory. */
export type Trust = 'read' | 'recalled';

export interface Basis {
  readonly text: string;
  readonly trust?: Trust;
}

/** A figure with how far the `basis` that stands for it can be trusted; undefined where none says. */
export interface Sourced {
  readonly trust?: Trust;
}

export interface Figure<T> {
  readonly min?: T;
  readonly typ?: T;
  readonly max?: T;
  readonly sigma?: T;
}

/** What every declaration has. */
export interface Declared {
  readonly name: string;
  readonly place: Place;
  readonly namePlace: Place;
  readonly origin: 'plan' | 'library';
  readonly edition?: string;
  readonly basis: readonly Basis[];
  readonly notes: readonly string[];
  /** Some line of it could not be read, which is said there. */
  readonly unread?: true;
}

/** Instant on the site's clock, whole minutes since 1970-01-01 00:00; a day without time is an interval. */
export interface When {
  /** Earliest and latest minute it may be. Equal where a time of day was written. */
  readonly from: number;
  readonly to: number;
  /** As written: `2026-03-14 09:05`. */
  readonly text: string;
  readonly place: Place;
}
