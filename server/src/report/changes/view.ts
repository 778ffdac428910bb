/**
 * The comparison of two states of a plan as a page shows it: words and figures
 * ready to set, places on the one scale as numbers. The page in the editor and
 * the printed one draw from it and compare nothing themselves.
 */
import type { ChangeKind } from '../../compare/types.ts';
import type { Verdict } from '../../evaluate/result.ts';
import type { ScaleView, Side, TextPlace } from '../view.ts';

/** A place in one of the two states. */
export interface SidePlace {
  readonly side: 'was' | 'now';
  /** `readings.lwl, line 116`; of the state before `readings.lwl, line 116 before`. */
  readonly label: string;
  /** As people name it: from the folder of the plan. */
  readonly file: string;
  /** From 1. */
  readonly line: number;
  /** Where an editor finds it; of the state before the address that the file has, or had, there. */
  readonly at?: TextPlace;
}

/** A piece of a sentence; what is strong is what it is about. */
export interface Piece {
  readonly text: string;
  readonly strong?: boolean;
}

export interface MatrixView {
  /** What occurs before, worst first; `none`: not measured and not to be measured then. */
  readonly rows: readonly {
    readonly before: Verdict | 'none';
    readonly cells: readonly MatrixCell[];
    readonly total: number;
  }[];
  readonly columns: readonly { readonly after: Verdict | 'none'; readonly total: number }[];
  readonly total: number;
}

export interface MatrixCell {
  readonly after: Verdict | 'none';
  readonly count: number;
  /** Stays as it was. */
  readonly same: boolean;
}

/** One margin, its place on the scale and its text. */
export interface MarginAt {
  readonly margin: number;
  readonly text: string;
}

/** What a change does to some readings of one object that fare alike, or to its design, or to what it carries. */
export interface EffectRow {
  readonly key: string;
  /** As it is called in the text: `KQ-OPS-B1`. */
  readonly object: string;
  /** `9`, `1..4`, `B1-07`; empty where it is the whole. */
  readonly fibres: string;
  /** `850 nm A>B`, `worst of 12, 850 nm A>B`. */
  readonly what: string;
  /** Undefined on a side: there was nothing to judge. Both undefined: `words` says it. */
  readonly before?: Verdict;
  readonly after?: Verdict;
  readonly words?: string;
  readonly moved: boolean;
  readonly readings: number;
  readonly was?: MarginAt;
  readonly now?: MarginAt;
  readonly side: Side;
  readonly place?: SidePlace;
  /** The whole row in words. */
  readonly spoken: string;
}

export interface ChangeRow {
  /** From 1, in order of importance. */
  readonly number: number;
  readonly kind: ChangeKind;
  /** `reading edited in place`, `limit`. */
  readonly label: string;
  /** The guard of evidence is broken, and nobody has answered. */
  readonly alarming: boolean;
  readonly subject: string;
  /** Values told apart; both are there or the sentence says which is not. */
  readonly was?: string;
  readonly now?: string;
  readonly notes: readonly string[];
  /** The new place first. */
  readonly places: readonly SidePlace[];
  readonly effects: readonly EffectRow[];
  /** How many rows of `effects` are shown before somebody asks for more. */
  readonly shown: number;
  /** What is not shown: `53 more readings move, no verdict changes`. */
  readonly rest: string;
  /** Beyond what a page can hold; they are in the JSON form. */
  readonly left: number;
}

/** A rule of the plan that is broken, or evidence that was changed with no answer. */
export interface AskRow {
  /** Name of the rule or of the finding. */
  readonly name: string;
  readonly message: string;
  readonly places: readonly SidePlace[];
  /** Number of the change that it is about. */
  readonly change?: number;
}

/** Readings of one object to make again for one reason. */
export interface RetestRow {
  readonly object: string;
  readonly fibres: string;
  readonly readings: number;
  readonly because: string;
  readonly place?: SidePlace;
}

export interface ChangesView {
  /** Address of the plan now; empty where no editor looks. */
  readonly root: string;
  readonly title: string;
  readonly compared: string;
  readonly counted: string;
  /** What it all comes to, one sentence a line. */
  readonly sentences: readonly (readonly Piece[])[];
  readonly matrix?: MatrixView;
  readonly asks: readonly AskRow[];
  readonly scale: ScaleView;
  readonly changes: readonly ChangeRow[];
  readonly retest: readonly RetestRow[];
  /** Readings to make again, in all. */
  readonly repeat: number;
}
