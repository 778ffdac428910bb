/**
 * The view model: results as a page shows them, words and figures ready to
 * set, places on scales as numbers. Preview and printed results draw from it
 * and compute no verdict of their own.
 */
import type { Finding } from '../checks/finding.ts';
import type { LimitKind, SupportWord, Verdict } from '../evaluate/result.ts';
import type { FoldKind } from './question.ts';
import type { Tick } from './scale.ts';

export type Severity = Finding['severity'];

interface TextPosition {
  readonly line: number;
  readonly character: number;
}

/** Where something stands in the text. */
export interface TextPlace {
  readonly uri: string;
  readonly range: { readonly start: TextPosition; readonly end: TextPosition };
}

/** Which way strokes stand: up for A>B, down for B>A, both for a mean of both. */
export type Side = 'up' | 'down' | 'both';

export interface Stroke {
  /** Limit minus loss, dB. */
  readonly margin: number;
  readonly side: Side;
  readonly verdict: Verdict;
}

/** One wavelength of a strip. */
export interface Lane {
  readonly wavelength: string;
  /** Margin of the expected loss, dB. */
  readonly expected?: number;
  /** Margins of readings that pass, dB. */
  readonly plain: Readonly<Record<Side, readonly number[]>>;
  /** Readings that do not. */
  readonly marked: readonly Stroke[];
  /** Most of the readings counted by bins along the strip, where single strokes would be too many. */
  readonly density?: { readonly up: readonly number[]; readonly down: readonly number[] };
  /** From the least value less its uncertainty to the greatest with it, as margins. */
  readonly whisker?: { readonly from: number; readonly to: number };
  /** No light was seen. */
  readonly dark: boolean;
}

/** A figure that may ask for attention. */
export interface Value {
  readonly text: string;
  readonly verdict: Verdict;
  /** To be read yet: a blank to fill. */
  readonly blank: boolean;
}

interface RowBase {
  /** Names the row through every change. */
  readonly key: string;
  /** What a screen reader says. */
  readonly spoken: string;
  readonly at?: TextPlace;
}

export interface LinkRow extends RowBase {
  readonly kind: 'link';
  readonly name: string;
  readonly title: string;
  readonly object: 'link' | 'channel' | 'ring' | 'section';
  /** Undefined: it could not be read. */
  readonly verdict?: Verdict;
  readonly open: boolean;
  readonly length: string;
  readonly present: number;
  readonly expected: number;
  readonly governing?: { readonly kind: LimitKind; readonly figure: string };
  readonly lanes: readonly Lane[];
  readonly margin?: { readonly text: string; readonly verdict: Verdict };
  /** While nothing is read: what design leaves, and what it is of: `expected, 850 nm`. */
  readonly byDesign?: { readonly text: string; readonly what: string };
  /** First and second line: `fibre 9`, `850 nm A>B`; or what it carries, and how it is supported. */
  readonly worst: readonly [string, string];
}

export interface ColumnsRow extends RowBase {
  readonly kind: 'columns';
  readonly name: string;
  /** What the rows below are: fibres, or ends of a tree, which their ports name. */
  readonly numbered: 'fibre' | 'end';
  /** Wavelengths with their limits, and the directions under each. */
  readonly groups: readonly {
    readonly wavelength: string;
    readonly limit: string;
    readonly directions: readonly string[];
  }[];
  readonly lanes: string;
}

export interface FibreRow extends RowBase {
  readonly kind: 'fibre';
  readonly name: string;
  readonly fibre: number;
  /** Its number; empty for an end of a tree, which has none in the text. */
  readonly label: string;
  readonly verdict: Verdict;
  readonly open: boolean;
  readonly ports: readonly [string, string];
  /** As the columns: per wavelength, then per direction. */
  readonly values: readonly (readonly Value[])[];
  readonly lanes: readonly Lane[];
  readonly margin?: { readonly text: string; readonly verdict: Verdict };
  readonly note: string;
}

export interface ReadingRow extends RowBase {
  readonly kind: 'reading';
  readonly name: string;
  readonly fibre: number;
  readonly verdict: Verdict;
  /** `850 nm A>B`. */
  readonly what: string;
  readonly loss: string;
  /** Why it counts as it does, `limit 2.34 components`, `attempt 2 of 2`, `0.04 less than B>A`. */
  readonly facts: readonly string[];
  /** How it was made: `power −22.66 dBm`, `reference −20.05 dBm`, set-up, time, tester. */
  readonly made: readonly string[];
  readonly margin?: { readonly text: string; readonly verdict: Verdict };
  readonly lanes: readonly Lane[];
  readonly current: boolean;
}

/** One limit with its sum. */
export interface LimitView {
  readonly kind: LimitKind;
  readonly name: string;
  readonly figure: string;
  readonly governs: boolean;
  readonly beside: boolean;
  /** Up to it a reading passes, whatever the others say. */
  readonly sufficient?: boolean;
  readonly terms: readonly TermView[];
  readonly recalled: boolean;
  /** Why it cannot be built. */
  readonly because?: string;
}

export interface TermView {
  /** `+` or `−`; empty for the first where it is added. */
  readonly sign: '' | '+' | '−';
  /** `2 end pairs`, `fibre OM4`. */
  readonly what: string;
  readonly total: string;
  readonly working: string;
  readonly source: string;
}

export interface LimitsRow extends RowBase {
  readonly kind: 'limits';
  readonly name: string;
  readonly wavelengths: readonly {
    readonly wavelength: string;
    /** The method, where more than one is in use. */
    readonly method: string;
    readonly limits: readonly LimitView[];
    readonly expected: string;
    /** Mean and three standard deviations of all parts; empty where a part does not state them. */
    readonly statistical: string;
    /** Sum of the greatest figures of the parts. */
    readonly greatest: string;
  }[];
  readonly supports: readonly SupportView[];
}

/** What is said of one application. */
export interface SupportView {
  readonly name: string;
  readonly support: SupportWord;
  readonly row: string;
  readonly because: string;
  readonly recalled: boolean;
  /** What is left of its light, where transceivers are named. */
  readonly power?: string;
}

export interface FoldRow extends RowBase {
  readonly kind: 'fold';
  readonly fold: FoldKind | 'group';
  /** Name of a group: a cable, empty for links in none, or a verdict. */
  readonly group?: string;
  /** What the group has in common, where that is a verdict. */
  readonly verdict?: Verdict;
  readonly open: boolean;
  readonly links: number;
  readonly sentence: string;
  readonly lanes: readonly Lane[];
  readonly margin?: { readonly text: string; readonly verdict: Verdict };
}

export type Row = LinkRow | ColumnsRow | FibreRow | ReadingRow | LimitsRow | FoldRow;
export type RowKind = Row['kind'];

/** A run of rows: how many of one kind follow each other. */
export type Run = readonly [kind: RowKind, count: number, lines: number];

export interface Slice {
  readonly from: number;
  readonly rows: readonly Row[];
}

export interface Head {
  readonly title: string;
  readonly facts: readonly { readonly label: string; readonly value: string }[];
  readonly worst?: {
    readonly text: string;
    readonly verdict: Verdict;
    /** `KQ-OPS-B1 fibre 9`. */
    readonly where: string;
    readonly what: string;
    readonly at?: TextPlace;
  };
  readonly sums: {
    readonly links: number;
    readonly channels: number;
    readonly rings: number;
    /** Cables that were tested by themselves. */
    readonly sections: number;
    readonly fibres: number;
    readonly present: number;
    readonly expected: number;
    readonly toMake: number;
    readonly toRepeat: number;
  };
}

export interface TallyEntry {
  readonly verdict: Verdict;
  readonly count: number;
  readonly shown: boolean;
}

export interface ScaleView {
  readonly reach: number;
  readonly ticks: readonly Tick[];
  /** Margin wanted, dB, where the whole plan wants the same. */
  readonly wanted?: number;
  /** `± 0.15 dB`. */
  readonly uncertainty?: string;
}

export interface TableOutline {
  readonly runs: readonly Run[];
  readonly rows: number;
  /** Links of a large plan take one line each. */
  readonly dense: boolean;
  /** Rows not pass, spread over at most 200 places: share of the rows, verdict. */
  readonly overview: readonly (readonly [number, Verdict])[];
  /** Fibres left after filter and search, of all. */
  readonly fibresShown: number;
}

export interface FindingRow {
  readonly severity: Severity;
  readonly name: string;
  /** Link, set-up or declaration it is about. */
  readonly about: string;
  readonly message: string;
  /** How many more say the same of others. */
  readonly more: string;
  readonly at?: TextPlace;
  /** `line 88`, with the file where it is another than the plan's own. */
  readonly where: string;
  readonly fix?: { readonly title: string; readonly edits: readonly TextEdit[] };
}

export interface TextEdit {
  readonly uri: string;
  readonly range: TextPlace['range'];
  readonly text: string;
}

export interface FindingsView {
  readonly counts: Readonly<Record<Severity, number>>;
  readonly rows: readonly FindingRow[];
  /** Rows there are in all. */
  readonly total: number;
}

/** Everything a page shows at once. */
export interface Results {
  readonly root: string;
  readonly head: Head;
  readonly tally: readonly TallyEntry[];
  readonly scale: ScaleView;
  readonly outline: TableOutline;
  readonly slice: Slice;
  readonly findings: FindingsView;
  /** What stands there in place of a table. */
  readonly empty?: 'no-links';
}

export interface Typed {
  readonly object: string;
  readonly fibre: number;
  readonly line: number;
  readonly made: string;
  readonly verdict: Verdict;
  readonly what: string;
  readonly value: string;
  /** The cursor is inside the number: it may not be whole yet. */
  readonly inside: boolean;
  readonly limit?: string;
  readonly expected?: string;
  readonly lane: Lane;
  /** Wide enough for this link's readings. */
  readonly reach: number;
  readonly over: string;
  readonly sentence: string;
  readonly advice: string;
  readonly next: string;
  /** The row itself and two before and after it. */
  readonly rows: readonly FibreRow[];
}

/** What belongs to the cursor. */
export interface AtCursor {
  readonly object?: string;
  readonly fibre?: number;
  /** Its row: the fibre's, or the link's where that is shut. */
  readonly key?: string;
  readonly index?: number;
  readonly typed?: Typed;
}

/** A row and the links that must be open for it to show. */
export interface Step {
  readonly key: string;
  readonly index?: number;
  readonly open: readonly string[];
}
