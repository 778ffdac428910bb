/** What was measured, seen, done and decided about an object. */
import type {
  MicroDb,
  MicroDbm,
  Micrometres,
  Picometres,
} from '../../../../grammar/src/quantity/index.ts';
import type { Direction, Mode, Place, When } from './common.ts';

export type ReadingQuantity = 'loss' | 'power' | 'reflectance';

/** One cell of evidence. Its attempt and verdict are computed, never written. */
export interface ReadingCell {
  readonly object: string;
  /** Fibre number of the object; of a tree the number of the end. */
  readonly fibre: number;
  /** Port that names the end of a tree, as written. */
  readonly end?: string;
  readonly quantity: ReadingQuantity;
  readonly wavelength: Picometres;
  /** Undefined: not said in the heading; reported. */
  readonly direction?: Direction;
  /** What was typed: digits and unit; `dark`: no light seen. Empty cells (`-`) are no readings. */
  readonly typed: { readonly digits: string; readonly unit: string } | 'dark';
  /** Positive for a loss (sign convention of the block applied). */
  readonly loss?: MicroDb;
  readonly power?: MicroDbm;
  /** Negative, as an instrument shows it. */
  readonly reflectance?: MicroDb;
  readonly setup: string;
  readonly at: When;
  readonly by?: string;
  readonly seen?: string;
  readonly remark?: string;
  /** The cell, its row and its readings block. */
  readonly place: Place;
  readonly row: Place;
  readonly order: number;
}

/** Length of a fibre as an instrument measured it. */
export interface LengthCell {
  readonly object: string;
  readonly fibre: number;
  readonly end?: string;
  /** As shown, with the group index that the instrument was set to. */
  readonly length: Micrometres;
  /** Of the light it was measured with; undefined where a row does not say. */
  readonly wavelength?: Picometres;
  /** The end that a trace shows, or a length read for itself. */
  readonly from: 'trace' | 'reading';
  readonly setup: string;
  readonly at: When;
  readonly place: Place;
  readonly row: Place;
}

/** The port at which the light of a fibre was seen. */
export interface SeenCell {
  readonly object: string;
  readonly fibre: number;
  readonly end?: string;
  readonly port: string;
  /** The end of the object at which it came out. */
  readonly side: 'A' | 'B';
  readonly at: When;
  readonly place: Place;
}

/** One cell of a trace: an event at a distance, at one wavelength and in one direction. */
export interface EventCell {
  readonly object: string;
  readonly fibre: number;
  readonly end?: string;
  /** Distance from end A along the fibre, as the instrument showed it. */
  readonly distance: Micrometres;
  readonly kind: 'connector' | 'splice' | 'bend' | 'splitter' | 'reflection' | 'end';
  readonly quantity: 'loss' | 'reflectance';
  readonly wavelength: Picometres;
  readonly direction?: Direction;
  readonly typed: { readonly digits: string; readonly unit: string };
  /** May be negative: a gain by the difference of two fibres, no amplification. */
  readonly value: MicroDb;
  readonly setup: string;
  readonly trace: readonly string[];
  readonly at: When;
  readonly by?: string;
  readonly remark?: string;
  readonly place: Place;
  readonly row: Place;
}

/** A declared criterion, and the line of the inspection that names it. */
export interface FaceGrade {
  readonly name: string;
  readonly mode?: Mode;
  readonly polish?: string;
  readonly place: Place;
}

/** One end face of one fibre, as it was seen. */
export interface InspectionCell {
  readonly object: string;
  readonly fibre: number;
  readonly end?: string;
  readonly side: 'A' | 'B';
  readonly seen: 'pass' | 'fail' | 'cleaned';
  /** In words, or the name of a declared one with its edition. */
  readonly criterion?: string;
  /** Of a declared one: what faces it is for. */
  readonly grade?: FaceGrade;
  readonly at: When;
  readonly by?: string;
  readonly remark?: string;
  readonly place: Place;
  readonly row: Place;
}

/** `-` with a remark: not accessible and why. */
export interface Absence {
  readonly object: string;
  readonly fibre: number;
  readonly wavelength: Picometres;
  readonly direction?: Direction;
  readonly remark?: string;
  readonly place: Place;
}

export interface WorkEvent {
  readonly object: string;
  readonly done: string;
  readonly on: When;
  /** Undefined: all fibres. */
  readonly fibres?: readonly number[];
  /** It touches these fibres only, not all that share an array joint with them. */
  readonly alone?: true;
  readonly at?: string;
  readonly by?: string;
  readonly place: Place;
}

/** Narrowed evidence: left out means all. */
export interface Narrowing {
  readonly object: string;
  readonly fibres?: readonly number[];
  readonly wavelength?: Picometres;
  readonly direction?: Direction;
  readonly tested?: When;
}

export interface Withdrawal extends Narrowing {
  readonly because: string;
  readonly by: string;
  readonly on?: When;
  readonly place: Place;
}

export interface Concession extends Narrowing {
  readonly accepted: MicroDb;
  readonly because: string;
  readonly by: string;
  readonly on?: When;
  readonly until?: When;
  readonly place: Place;
}

/** All evidence about one object. */
export interface Evidence {
  readonly readings: readonly ReadingCell[];
  readonly absences: readonly Absence[];
  readonly work: readonly WorkEvent[];
  readonly withdrawals: readonly Withdrawal[];
  readonly concessions: readonly Concession[];
  readonly lengths: readonly LengthCell[];
  readonly seen: readonly SeenCell[];
  readonly events: readonly EventCell[];
  readonly inspections: readonly InspectionCell[];
}
