/**
 * What evaluation says of one link or channel. Losses that come from length
 * times rate are exact; limits keep their exact value and the floor used for
 * comparing. Rounding happens only where these are shown.
 */
import type {
  ExactDb,
  MicroDb,
  MicroDbm,
  Micrometres,
  Picometres,
} from '../../../grammar/src/quantity/index.ts';
import type { Direction, LinkModel, Place, ReadingCell, ReferenceMethod } from '../model/types.ts';

export const verdicts = [
  'fail',
  'marginal-fail',
  'invalid',
  'stale',
  'untested',
  'not-judged',
  'conceded',
  'marginal-pass',
  'pass',
] as const;

/** Worst first. */
export type Verdict = (typeof verdicts)[number];

/** One named term of a sum: `3 pairs × 0.75 = 2.25`. */
export interface Term {
  /** `fibre OM4`, `mated pairs`, `end pairs`, `pairs in the reference`, `splices`, `part X`, `cords added`, ... */
  readonly what: string;
  readonly role:
    | 'fibre'
    | 'pair'
    | 'end-pair'
    | 'reference-pair'
    | 'splice'
    | 'part'
    | 'core-step'
    | 'cord'
    | 'application'
    | 'outside'
    | 'rounding';
  /** Number of parts; for fibre the length is in `length`. Negative where it is taken away. */
  readonly count: number;
  readonly length?: Micrometres;
  /** Micro-decibel per part, or per kilometre for fibre. */
  readonly each: number;
  readonly total: ExactDb;
  /** Where the figure stands, in words: `TIA-568.3-E, fibre OM4 850 nm`. */
  readonly source: string;
  readonly trust?: 'read' | 'recalled';
  readonly place?: Place;
}

export type LimitKind = 'components' | 'application' | 'contract';

export interface Limit {
  readonly kind: LimitKind;
  /** Name of the limits set, the application (and its row), or the contract line. */
  readonly name: string;
  /** Undefined: cannot be built, and `because` says why: not judged. */
  readonly value?: ExactDb;
  /** ⌊value⌋ in micro-decibels: r ≤ value exactly when r ≤ floor. */
  readonly floor?: MicroDb;
  readonly because?: string;
  readonly terms: readonly Term[];
  /** Shown and compared, never governing (`compare`, `beside`, `sufficient`). */
  readonly beside: boolean;
  readonly recalled: boolean;
}

/** Limit and design at one wavelength, direction and reference method. */
export interface WavelengthResult {
  readonly wavelength: Picometres;
  /** Undefined: the same in both directions. */
  readonly direction?: Direction;
  readonly reference?: ReferenceMethod;
  readonly receiveCord: boolean;
  /** Sum of typical figures; undefined if a part has none. */
  readonly expected?: ExactDb;
  readonly expectedTerms: readonly Term[];
  /** Sum of the parts' greatest figures. */
  readonly worst?: ExactDb;
  readonly worstTerms: readonly Term[];
  readonly limits: readonly Limit[];
  readonly governing?: Limit;
  /** Governing limit minus worst. */
  readonly designMargin?: ExactDb;
  /** Lowest legitimate reading (before repeatability is taken off). */
  readonly lowest?: ExactDb;
}

export interface ReadingResult {
  readonly fibre: number;
  readonly wavelength: Picometres;
  readonly direction?: Direction;
  /** Null: expected, not made. */
  readonly attempt: number | null;
  readonly reading?: ReadingCell;
  readonly setup?: string;
  /** How many cords the reference of its set-up holds. */
  readonly method?: ReferenceMethod;
  readonly reference?: MicroDbm;
  readonly power?: MicroDbm;
  readonly loss?: MicroDb;
  /** With `dark`: the loss is greater than this. */
  readonly lossBound?: MicroDb;
  readonly limit?: Limit;
  /** limit − loss, exact. */
  readonly margin?: ExactDb;
  readonly uncertainty: MicroDb;
  readonly verdict: Verdict;
  /** Whether it stands for its key: the last valid attempt. */
  readonly current: boolean;
  /** Why: one sentence for invalid, stale, not judged, conceded, withdrawn; empty otherwise. */
  readonly because: string;
  /** Machine word of the reason: name of the finding that voids it, `work`, `withdrawn`, `no-limit`, ... */
  readonly reason?: string;
  readonly expectedSet: boolean;
}

export interface FibreResult {
  readonly fibre: number;
  readonly fromPort?: string;
  readonly toPort?: string;
  readonly verdict: Verdict;
  /** Current readings and those to make, in order of wavelength, then A>B before B>A. */
  readonly current: readonly ReadingResult[];
}

export type SupportWord = 'by design' | 'predicted' | 'by measurement' | 'not supported';

export interface ApplicationResult {
  readonly name: string;
  readonly support: SupportWord;
  /** The row that holds (or comes nearest): `OM4, 400 m, 2.9 dB`. */
  readonly row?: string;
  readonly because: string;
  readonly lengthLimit?: Micrometres;
  readonly lossLimit?: MicroDb;
  readonly place: Place;
  readonly recalled: boolean;
}

/** Something evaluation noticed; checks turn it into a finding. Data only. */
export interface Doubt {
  /** Name of the finding. */
  readonly name: string;
  readonly place: Place;
  readonly related?: readonly { readonly place: Place; readonly message: string }[];
  readonly details: Readonly<Record<string, string | number>>;
}

export interface LinkResult {
  readonly link: LinkModel;
  /** Whole length with cords in a channel; undefined if a segment has none. */
  readonly length?: Micrometres;
  readonly wavelengths: readonly WavelengthResult[];
  readonly applications: readonly ApplicationResult[];
  readonly fibres: readonly FibreResult[];
  /** Every reading and attempt, and what is expected and not made, in order of the text. */
  readonly readings: readonly ReadingResult[];
  readonly verdict: Verdict;
  /** Verdicts counted over fibres' current readings. */
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly expected: number;
  readonly present: number;
  readonly accepted: boolean;
  readonly worstMargin?: { readonly margin: ExactDb; readonly reading: ReadingResult };
  readonly doubts: readonly Doubt[];
}

/** Folds over all links of a plan, kept by differences. */
export interface PlanTotals {
  readonly links: number;
  readonly fibres: number;
  readonly expected: number;
  readonly present: number;
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly accepted: boolean;
  readonly worst?: {
    readonly margin: ExactDb;
    readonly link: string;
    readonly reading: ReadingResult;
  };
}

/** A whole plan, read through one interface: a view over the results per link and the folds. */
export interface PlanResult {
  readonly title?: string;
  readonly totals: PlanTotals;
  /** Links and channels in order of the text. */
  readonly order: readonly string[];
  /** By name. */
  link(name: string): LinkResult | undefined;
}
