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
  PartsPerMillion,
  Picometres,
} from '../../../grammar/src/quantity/index.ts';
import type {
  Direction,
  EventCell,
  InspectionCell,
  LengthCell,
  LinkModel,
  Place,
  ReadingCell,
  ReferenceMethod,
  Sourced,
  Trust,
  Way,
} from '../model/types.ts';
import type { FewReadings } from './patterns-level.ts';

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
    | 'penalty'
    | 'reserve'
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

/** The loss that a share of links keeps, if their parts are drawn at random. */
export interface Percentile {
  readonly share: PartsPerMillion;
  readonly loss: ExactDb;
  /** Of it what does not vary: parts that state no spread, at their greatest. */
  readonly kept: ExactDb;
  readonly parts: readonly {
    readonly what: string;
    readonly count: number;
    /** The distribution, in words. */
    readonly assumed: string;
  }[];
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
  /** Mean + 3 sigma, where every part states both: for planning, it judges nothing. */
  readonly statistical?: ExactDb;
  /** Where a part states how it is spread: for planning, it judges nothing. */
  readonly percentile?: Percentile;
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
  /** Loss less what its parts typically lose, of a reading that stands. */
  readonly residual?: ExactDb;
  /** Distance from the median of its mates in median absolute deviations, with a sign. */
  readonly matesDeviation?: number;
}

export interface FibreResult {
  readonly fibre: number;
  /** Port that names the end of a tree. */
  readonly end?: string;
  readonly fromPort?: string;
  readonly toPort?: string;
  readonly verdict: Verdict;
  /** Current readings and those to make, in order of wavelength, then A>B before B>A. */
  readonly current: readonly ReadingResult[];
}

export type SupportWord = 'by design' | 'predicted' | 'by measurement' | 'not supported';

/** What light of an application loses on its way by design: at most, and at least, which may be too little. */
export interface LightLoss {
  readonly wavelength: Picometres;
  readonly direction: Direction;
  readonly greatest?: ExactDb;
  /** What the greatest is the sum of. */
  readonly terms: readonly Term[];
  readonly least: ExactDb;
}

/** How far two ends of a tree may lie apart: the greatest loss of one less the least of any other. */
export interface Differential {
  readonly wavelength: Picometres;
  readonly value: ExactDb;
  readonly highest: string;
  readonly lowest: string;
  /** Most that the application allows. */
  readonly limit?: MicroDb;
}

export interface ApplicationResult {
  readonly name: string;
  readonly support: SupportWord;
  /** The row that holds (or comes nearest): `OM4, 400 m, 2.9 dB`. */
  readonly row?: string;
  readonly because: string;
  readonly lengthLimit?: Micrometres;
  readonly lossLimit?: MicroDb;
  readonly lossMin?: MicroDb;
  /** One for each wavelength and direction that it sends. */
  readonly light: readonly LightLoss[];
  /** Of a tree or ring: the way of which this is said, the worst of all. Where repairs part the fibres: those of the longest path. */
  readonly way?: string;
  /** The channel whose parts are counted, where it carries the same: it is asked for its light itself. */
  readonly channel?: string;
  /** Of a tree: the worst of its wavelengths. */
  readonly differential?: Differential;
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

/** One way of light through a tree or a ring: what the plan says of it. */
export interface WayResult {
  readonly name: string;
  readonly kind: Way['kind'];
  readonly way: Way;
  readonly length?: Micrometres;
  readonly wavelengths: readonly WavelengthResult[];
  readonly applications: readonly ApplicationResult[];
  readonly power: readonly PowerResult[];
  readonly signal: readonly SignalResult[];
}

/**
 * Light of one transceiver on its way to another, in one direction, by design:
 * what arrives at least and at most, and what is left at both ends of the
 * receiver's window. Allowances (repair, ageing) are taken from the least; they
 * belong here and never to a limit of acceptance.
 */
export interface PowerResult {
  readonly application: string;
  readonly direction: Direction;
  /** What the sender sends. */
  readonly wavelength: Picometres;
  /** Names of the transceivers that send and receive. */
  readonly from: string;
  readonly to: string;
  readonly launch?: { readonly min: MicroDbm; readonly max: MicroDbm };
  readonly input?: { readonly min: MicroDbm; readonly max: MicroDbm };
  readonly greatestLoss?: ExactDb;
  readonly leastLoss?: ExactDb;
  /** Fibres that state no least attenuation, and so count nothing in the least loss. */
  readonly uncounted: readonly string[];
  /** Least launch − greatest loss − penalty − allowances − least input; of average power and of modulation amplitude the lesser. */
  readonly margin?: ExactDb;
  /** The same of modulation amplitudes, where both ends have one. */
  readonly amplitude?: {
    readonly launch: MicroDbm;
    readonly input: MicroDbm;
    readonly margin: ExactDb;
  };
  /** Greatest input − (greatest launch − least loss): below zero the receiver is overloaded. */
  readonly overloadMargin?: ExactDb;
  /** Power from which the receiver may be harmed − (greatest launch − least loss). */
  readonly damageMargin?: ExactDb;
  /** What an attenuator must take at least and at most, where light is too strong; `least` above `most`: none does. */
  readonly attenuator?: { readonly least: ExactDb; readonly most: ExactDb };
  /** Of the whole path and what the receiver bears, in 1e-6 ps/nm; `path` undefined: a fibre says none. */
  readonly dispersion?: Sourced & { readonly path?: number; readonly bears: number };
  /** What does not fit between transceivers, application and path, in words. */
  readonly mismatches: readonly string[];
  /** Greatest loss, penalty and allowances. */
  readonly terms: readonly Term[];
  /** A window or a term is from memory. */
  readonly recalled: boolean;
  /** Why there is no margin, where there is none. */
  readonly because?: string;
  readonly place: Place;
}

/** What a path does to the signal at one wavelength, by design: at most, of bandwidth at least. */
export interface SignalResult {
  /** What it carries, with its cords; undefined: the object as it is. */
  readonly application?: string;
  readonly wavelength: Picometres;
  /** Undefined: the same in both directions. */
  readonly direction?: Direction;
  /** Along the fibre, with the excess of its cable. */
  readonly length?: Micrometres;
  /** Femtoseconds; undefined where a fibre states no group index. */
  readonly delay?: number;
  /** Between fibres that the application uses together, in femtoseconds. */
  readonly skew?: number;
  /** In kHz, by launch as the fibres name it. */
  readonly bandwidth: readonly (Sourced & { readonly launch: string; readonly value: number })[];
  /** Chromatic, in 1e-6 ps/nm, without its sign. */
  readonly dispersion?: number;
  /** Polarisation mode dispersion in 1e-6 ps. */
  readonly pmd?: number;
  /** How far the figures of the fibres behind each sum can be trusted. */
  readonly trust: {
    readonly delay?: Trust;
    readonly dispersion?: Trust;
    readonly pmd?: Trust;
  };
  /** What is not known and why, in words. */
  readonly unknown: readonly string[];
  readonly place: Place;
}

/** An event of a trace with both directions beside each other. */
export interface EventResult {
  readonly fibre: number;
  readonly end?: string;
  readonly kind: EventCell['kind'];
  readonly quantity: EventCell['quantity'];
  readonly distance: Micrometres;
  readonly wavelength: Picometres;
  readonly forward?: EventCell;
  readonly back?: EventCell;
  /** Sum of both directions: twice the average, so that nothing is rounded. */
  readonly sum?: MicroDb;
  /** Part of the path that it is taken for. */
  readonly part?: string;
  /** Where that part lies, as the path says it. */
  readonly at?: string;
  readonly limit?: Limit;
  /** Limit less value, of losses; value less limit, of return losses. */
  readonly margin?: ExactDb;
  readonly verdict: Verdict;
  readonly because: string;
  readonly place: Place;
}

/** The length that stands for one fibre. */
export interface LengthResult {
  readonly fibre: number;
  readonly end?: string;
  readonly cell: LengthCell;
  /** In the glass: converted where the instrument was set to another group index. */
  readonly length: Micrometres;
  /** Along the fibre, and of the sheath with its slack; undefined where the plan does not say. */
  readonly declared?: Micrometres;
  readonly cable?: Micrometres;
  /** Group index set at the instrument and that of the fibre, where they differ. */
  readonly indices?: { readonly set: number; readonly glass: number };
  readonly verdict: Extract<Verdict, 'pass' | 'stale' | 'not-judged'>;
  readonly because: string;
}

/** One end face: the last that was seen of it. */
export interface InspectionResult {
  readonly fibre: number;
  readonly end?: string;
  readonly side: 'A' | 'B';
  readonly seen: InspectionCell['seen'] | undefined;
  readonly cell?: InspectionCell;
  /** `cleaned` alone does not say that it passed since. */
  readonly verdict: Extract<Verdict, 'pass' | 'fail' | 'stale' | 'untested' | 'not-judged'>;
  readonly because: string;
}

/** Where the light of a place comes out, by all maps of the path. */
export interface Arrival {
  /** As the object's fibres list it. */
  readonly fibre: number;
  /** Place at end B, 1 to n; undefined where a cord or part does not say how it connects. */
  readonly place?: number;
  readonly port?: string;
  /** Right pair and right side, where what it carries says which it should be. */
  readonly wanted?: number;
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
  /** Reflectances of fibres’ ends, judged by return loss: beside the losses, in none of their counts. */
  readonly reflectances: readonly ReadingResult[];
  readonly verdict: Verdict;
  /** Verdicts counted over fibres' current readings. */
  readonly counts: Readonly<Record<Verdict, number>>;
  readonly expected: number;
  readonly present: number;
  /** Every reading wanted is there and counts; the project takes it back while a doubt stands unanswered. */
  readonly accepted: boolean;
  /** Where its readings alone would have it accepted: names of the findings that wait for an answer, each once. */
  readonly waitsFor: readonly string[];
  readonly worstMargin?: { readonly margin: ExactDb; readonly reading: ReadingResult };
  readonly doubts: readonly Doubt[];
  /** In the order of the link's ways; empty where light has one way. */
  readonly ways: readonly WayResult[];
  /** The way with the least design margin, of a ring the long way that loses most: `wavelengths` are its. */
  readonly worstWay?: string;
  readonly power: readonly PowerResult[];
  /** Of an object with ways each way has its own. */
  readonly signal: readonly SignalResult[];
  readonly events: readonly EventResult[];
  readonly inspections: readonly InspectionResult[];
  readonly lengths: readonly LengthResult[];
  /** One per fibre; empty where no map stands in the path. */
  readonly arrivals: readonly Arrival[];
  /** Where it has too few readings with a set-up to have a level of its own. */
  readonly few: readonly FewReadings[];
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
