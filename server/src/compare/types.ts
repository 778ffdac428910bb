/**
 * What a comparison of two states of a plan says: changes of the text in the
 * terms of the trade, most important first, each with what it does to limits,
 * margins, verdicts and coverage. Plain data; nothing here knows an editor, a
 * disk or git.
 */
import type {
  ExactDb,
  MicroDb,
  Micrometres,
  Picometres,
} from '../../../grammar/src/quantity/index.ts';
import type { Finding } from '../checks/finding.ts';
import type { PlanResult, SupportWord, Verdict } from '../evaluate/result.ts';
import type { BlockId, Direction, Evidence, Place, PlanSettings, Setup } from '../model/types.ts';
import type { BlockView, NamedThing, Range } from '../project/types.ts';

/** Where something stands in one state. */
export interface StatePlace {
  /** As people name the file: from the plan's own folder, with `/`. */
  readonly path: string;
  readonly range: Range;
}

/** One file of a state, in order of the plan. */
export interface StateFile {
  readonly path: string;
  readonly text: string;
  readonly blocks: readonly BlockView[];
}

/**
 * One side of a comparison: a plan, judged, at one moment. A state of an open
 * project lives and moves with it; a frozen one answers for ever what it
 * answered when it was taken.
 */
export interface PlanState {
  /** What a person calls it: `main`, `plans/before`, `as it is open`. */
  readonly label: string;
  readonly files: readonly StateFile[];
  readonly settings: PlanSettings;
  /** By which it is judged, on the site's clock: the same on both sides. */
  readonly minute: number;
  readonly result: PlanResult;
  readonly findings: readonly Finding[];
  evidence(object: string): Evidence;
  setup(name: string): Setup | undefined;
  find(kind: NamedThing['kind'], name: string): NamedThing | undefined;
  /**
   * Names of the links, channels, rings and sections that are made of, or judged
   * with, what a block declares, in order of the text; with a name, only by that
   * declaration of it, by the evidence of that object or by that field of the plan.
   */
  reach(block: BlockId, only?: string): readonly string[];
  locate(place: Place): StatePlace | undefined;
}

/**
 * What a change is about, in the order in which a reviewer wants to hear it.
 * Those that move a verdict come before those that move none, each in this order.
 */
export const changeKinds = [
  /** A reading, trace, length, end face or reference: another value at the same time and key, or gone. */
  'evidence',
  /** What is accepted: limits, editions, margins, uncertainty, decision rule, requirements. */
  'basis',
  /** How it is measured: reference method, cords, launch, reference powers. */
  'method',
  /** What is joined to what: ends, places of fibres, maps, order of the path. */
  'connection',
  /** What is carried, and with what transceivers. */
  'application',
  /** Kind of fibre, length, ratio of a splitter, wavelengths. */
  'medium',
  /** How many pairs, splices and parts, and of what kind. */
  'joints',
  /** A definition that many objects are made with: fibre, connector, part, pattern. */
  'shared',
  /** Readings made, attempts, withdrawals with a reason; work and repairs that age them. */
  'readings',
  /** What is to be measured: wavelengths, directions, fibres, spares. */
  'coverage',
  /** Another name, another file, one object in two or two in one: nothing else. */
  'identity',
  /** Concessions, silences and what else answers a doubt. */
  'concession',
  /** Instruments, calibration, who tested. */
  'instrument',
  /** Titles, notes, remarks: said to people, judged by nobody, and no engineering change. */
  'words',
  /** Order, comments, layout: no engineering change. */
  'text',
] as const;
export type ChangeKind = (typeof changeKinds)[number];

/** What a change looks like: `new` and `gone` have one side only. */
export type ChangeForm = 'new' | 'gone' | 'changed' | 'moved';

/** Where an edit stands, in either state. */
export type EditedPlace = Pick<Edit, 'before' | 'after' | 'blocks'>;

/** Something in the text that says other things now, before anybody asks what it does. */
export interface Edit {
  readonly kind: ChangeKind;
  readonly form: ChangeForm;
  /** What it is about, in words: `fibre allowance of OM4 at 850 nm`, `KQ-OPS-B3 fibre 9, 850 nm A>B`. */
  readonly subject: string;
  /** As a person writes it, with its unit: `3.5 dB/km`. Undefined where it was not there. */
  readonly was?: string;
  readonly now?: string;
  /** One sentence more, where the numbers do not say it all. */
  readonly note?: string;
  /** In the old state and in the new one; a new thing has no place in the old. */
  readonly before?: StatePlace;
  readonly after?: StatePlace;
  /** Blocks of text that hold it: by them effects find their cause. */
  readonly blocks: { readonly before?: BlockId; readonly after?: BlockId };
  /** Where the same is said of other things that were changed alike, in order of the text. */
  readonly elsewhere?: readonly EditedPlace[];
  /** Names of the objects that it can touch, of both states, in order of the text. */
  readonly reach: readonly string[];
  /** Set where it is of single readings: which. */
  readonly readings?: readonly ReadingKey[];
  /** How many equal lines are told as this one (`31 readings`). */
  readonly count: number;
  /** Name of the finding by which it breaks the guard of evidence, and the answer that it was given. */
  readonly guard?: {
    readonly finding: string;
    readonly message: string;
    readonly answered?: string;
  };
}

export interface ReadingKey {
  readonly object: string;
  readonly fibre: number;
  readonly quantity: 'loss' | 'power' | 'reflectance';
  readonly wavelength: Picometres;
  readonly direction?: Direction;
}

/** What stands for one key of one object: the last valid attempt, or that there is none. */
export interface Standing {
  readonly verdict: Verdict;
  readonly loss?: MicroDb;
  readonly limit?: ExactDb;
  readonly governing?: string;
  readonly margin?: ExactDb;
  readonly attempt: number | null;
  readonly expected: boolean;
  readonly place?: StatePlace;
}

/** What a plan says of one object at one wavelength (and direction, way, reference method) before anything is measured. */
export interface DesignStanding {
  readonly expected?: ExactDb;
  readonly worst?: ExactDb;
  readonly limit?: ExactDb;
  readonly governing?: string;
  readonly margin?: ExactDb;
}

export interface ObjectStanding {
  readonly verdict: Verdict;
  readonly expected: number;
  readonly present: number;
  readonly accepted: boolean;
  /** Findings that alone keep it from being accepted. */
  readonly waitsFor: readonly string[];
  readonly length?: Micrometres;
}

export interface SupportStanding {
  readonly support: SupportWord;
  readonly row?: string;
  readonly powerMargin?: ExactDb;
  readonly overloadMargin?: ExactDb;
}

interface Moved<Kind extends string, State> {
  readonly kind: Kind;
  /** As it is called now; one that is gone as it was called. */
  readonly object: string;
  /** As it was called, where that is another name. */
  readonly formerly?: string;
  readonly before?: State;
  readonly after?: State;
  /** Indices into the changes that it comes from, the most important first. Empty: it comes from the instant alone. */
  readonly causes: readonly number[];
}

/** Something of a result that is another now. One of the two sides may be missing: it is new, or gone. */
export type Effect =
  | (Moved<'reading', Standing> & { readonly key: ReadingKey; readonly end?: string })
  | (Moved<'design', DesignStanding> & {
      readonly wavelength: Picometres;
      readonly direction?: Direction;
      readonly reference?: string;
      readonly way?: string;
    })
  | (Moved<'application', SupportStanding> & {
      readonly application: string;
      readonly way?: string;
    })
  | Moved<'object', ObjectStanding>;

export interface Change extends Edit {
  /** Those of `effects` of the comparison that it is the first cause of, verdicts first, then by how far margins move. */
  readonly effects: readonly Effect[];
  /** Whether a verdict moves by it. */
  readonly movesVerdict: boolean;
}

/** Figures of a plan that a summary shows. */
export interface Summary {
  readonly objects: number;
  readonly expected: number;
  readonly present: number;
  /** Of keys: readings that stand, and those to make. */
  readonly verdicts: Readonly<Record<Verdict, number>>;
  readonly accepted: boolean;
  readonly worst?: { readonly margin: ExactDb; readonly object: string; readonly key: ReadingKey };
}

/** A reading to make again, and why. */
export interface Retest {
  readonly key: ReadingKey;
  readonly because: string;
}

/** A place in the new state, or in the old one where it is gone; in neither: it has none. */
export interface EitherPlace {
  readonly before?: StatePlace;
  readonly after?: StatePlace;
}

/** A rule of the plan for its changes, and what breaks it. */
export interface RuleBreach {
  /** The rule's own name. */
  readonly rule: string;
  readonly message: string;
  /** Where the rule stands. */
  readonly stands: EitherPlace;
  /** What breaks it. */
  readonly at: EitherPlace;
}

export interface Comparison {
  readonly before: { readonly label: string; readonly title?: string; readonly summary: Summary };
  readonly after: { readonly label: string; readonly title?: string; readonly summary: Summary };
  /** Most important first. At most one of kind `text`, the last. */
  readonly changes: readonly Change[];
  /** All that moved, in order of the new text; each object and key once. */
  readonly effects: readonly Effect[];
  /** Keys by verdict before and after; `none` where the key is on one side only. */
  readonly matrix: readonly {
    readonly before: Verdict | 'none';
    readonly after: Verdict | 'none';
    readonly count: number;
  }[];
  readonly retest: readonly Retest[];
  readonly breaches: readonly RuleBreach[];
  /** How many of `changes` are neither of kind `text` nor of kind `words`, by which nothing is judged. */
  readonly engineering: number;
}
