/**
 * The model: declarations bound to names. Everything an evaluation needs and
 * nothing of how it was written. Figures keep their source; values keep their
 * place in the text.
 *
 * Units: lengths in micrometres, wavelengths and sizes in picometres, losses
 * in micro-decibels, powers in micro-dBm, rates in micro-decibels per
 * kilometre, times as minutes of the site's clock since 1970-01-01.
 */
import type {
  MicroDb,
  MicroDbm,
  Micrometres,
  PartsPerMillion,
  Picometres,
  RatePerKm,
} from '../../../grammar/src/quantity/index.ts';
import type { Span } from '../../../grammar/src/tree.ts';

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

export interface Basis {
  readonly text: string;
  /** `read`: a text stating it was read; `recalled`: from memory. */
  readonly trust?: 'read' | 'recalled';
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
}

export interface Attenuation extends Figure<RatePerKm> {
  readonly wavelength: Picometres;
  readonly light?: 'LED' | 'laser';
}

export interface FibreType extends Declared {
  readonly kind: 'fibre';
  readonly mode?: Mode;
  readonly core?: Picometres;
  readonly attenuation: readonly Attenuation[];
  /** Names whose figures and application rows hold where this one is not named, nearest first. */
  readonly meets: readonly string[];
  readonly bandwidth: readonly {
    readonly wavelength: Picometres;
    readonly min: number;
    readonly launch: string;
  }[];
  readonly index: readonly { readonly wavelength: Picometres; readonly value: number }[];
}

/** A figure of a part: for one wavelength, or for all. */
export interface PartLoss extends Figure<MicroDb> {
  readonly wavelength?: Picometres;
}

export interface ConnectorType extends Declared {
  readonly kind: 'connector';
  readonly polish?: string;
  readonly positions?: number;
  readonly loss: readonly PartLoss[];
}

export interface SpliceType extends Declared {
  readonly kind: 'splice';
  readonly loss: readonly PartLoss[];
}

export interface ComponentType extends Declared {
  readonly kind: 'component';
  readonly joins?: readonly [string, string];
  readonly loss: readonly PartLoss[];
}

export type JointGrade = 'installed' | 'end' | 'reference';

export interface LimitsSet extends Declared {
  readonly kind: 'limits';
  /** The limits are a contract's, not the components'. */
  readonly contract: boolean;
  readonly policy?: PairPolicy;
  readonly fibre: readonly {
    readonly fibre: string;
    readonly wavelength: Picometres;
    readonly rate: RatePerKm;
    readonly place: Place;
  }[];
  readonly connector: readonly {
    readonly connector: string | 'any';
    readonly grade: JointGrade;
    readonly mode?: Mode;
    readonly loss: MicroDb;
    readonly place: Place;
  }[];
  readonly splice: readonly {
    readonly splice: string | 'any';
    readonly mode?: Mode;
    readonly loss: MicroDb;
    readonly objective?: MicroDb;
    readonly place: Place;
  }[];
  readonly part: readonly {
    readonly part: string | 'any';
    readonly mode?: Mode;
    readonly loss: MicroDb;
    readonly place: Place;
  }[];
  readonly coreStep: readonly {
    readonly from: string;
    readonly to: string;
    readonly loss: MicroDb;
    readonly place: Place;
  }[];
  /** Over the limit from which no retest is allowed (MIL-STD-2042-6 retest bands). */
  readonly reject: readonly {
    readonly over: MicroDb;
    readonly after?: number;
    readonly object?: 'assembly' | 'link' | 'channel';
  }[];
}

export interface ApplicationRow {
  readonly fibre: string;
  readonly reach?: Micrometres;
  readonly loss?: MicroDb;
  /** Least loss. */
  readonly min?: MicroDb;
  /** Most that the connections may take. */
  readonly connections?: MicroDb;
  readonly place: Place;
}

export interface ApplicationType extends Declared {
  readonly kind: 'application';
  readonly count: number;
  readonly wavelengths: readonly {
    readonly wavelength: Picometres;
    readonly direction?: Direction;
  }[];
  readonly rows: readonly ApplicationRow[];
}

export interface Cable extends Declared {
  readonly kind: 'cable';
  readonly fibre: FibreType | undefined;
  readonly fibreName: string;
  readonly count: number;
  readonly tubes?: number;
  /** Sheath length and slack: the length that limits use. Undefined if not said. */
  readonly length?: Micrometres;
  readonly slack: Micrometres;
  readonly excess?: PartsPerMillion;
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

export interface Instrument {
  readonly text: string;
  readonly light?: 'LED' | 'laser';
  readonly wavelengths: readonly Picometres[];
  readonly floor?: MicroDbm;
  readonly calibrated?: When;
  readonly due?: When;
  readonly place: Place;
}

export interface TestCord {
  readonly name: string;
  readonly role: 'launch' | 'receive' | 'substitution' | 'tail';
  readonly connector: string;
  readonly connectorType?: ConnectorType;
  readonly fibre: string;
  readonly fibreType?: FibreType;
  readonly grade?: CordGrade;
  readonly length?: Micrometres;
  readonly verified?: MicroDb;
  readonly since?: When;
  readonly place: Place;
}

export type SetupEvent =
  | {
      readonly kind: 'taken' | 'checked';
      readonly at: When;
      readonly wavelength: Picometres;
      readonly power: MicroDbm;
      readonly place: Place;
    }
  | {
      readonly kind: 'disturbed';
      readonly at: When;
      readonly because?: string;
      readonly place: Place;
    }
  | {
      readonly kind: 'verified';
      readonly at: When;
      readonly cord: string;
      readonly loss: MicroDb;
      readonly place: Place;
    };

export interface Setup extends Declared {
  readonly kind: 'setup';
  readonly reference?: ReferenceMethod;
  /** No receive cord: the far plug goes into the meter. */
  readonly direct: boolean;
  readonly source?: Instrument;
  readonly meter?: Instrument;
  /** The instrument is a reflectometer: readings come from traces. */
  readonly otdr?: true;
  readonly launch?: {
    readonly condition: string;
    readonly aperture?: number;
    readonly place: Place;
  };
  readonly cords: readonly TestCord[];
  /** In time order; order of equal times is that of the text. */
  readonly events: readonly SetupEvent[];
  readonly referencePlace?: Place;
}

/** One element of a path, in order from A to B, figures resolved. `undefined` types were reported. */
export type PathElement =
  | {
      readonly kind: 'connector';
      readonly name: string;
      readonly type?: ConnectorType;
      readonly at?: string;
      readonly place: Place;
    }
  | {
      readonly kind: 'plug';
      readonly name: string;
      readonly type?: ConnectorType;
      readonly place: Place;
    }
  | {
      readonly kind: 'splice';
      readonly name: string;
      readonly type?: SpliceType;
      readonly at?: string;
      readonly place: Place;
    }
  | {
      readonly kind: 'segment';
      /** Undefined: missing, reported. 0 with `deliberate`: written `unknown`. */
      readonly length?: Micrometres;
      readonly deliberate: boolean;
      readonly fibre?: FibreType;
      readonly fibreName: string;
      readonly cable?: Cable;
      /** Fibre numbers of the cable, one per place of the link. */
      readonly cableFibres?: readonly number[];
      /** Where places 1, 2, 3 … come out; straight if not said. */
      readonly map?: readonly number[];
      readonly place: Place;
    }
  | {
      readonly kind: 'component';
      readonly name: string;
      readonly type?: ComponentType;
      readonly at?: string /** Second kind first where the first would stand, and the other way round. */;
      readonly turned?: boolean;
      readonly place: Place;
    }
  /** Only in channels. */
  | {
      readonly kind: 'cord';
      readonly length?: Micrometres;
      readonly fibre?: FibreType;
      readonly fibreName: string;
      readonly map?: readonly number[] | 'straight' | 'crossed';
      readonly place: Place;
    }
  | {
      readonly kind: 'link';
      readonly name: string;
      readonly link?: LinkModel;
      readonly turned: boolean;
      readonly fibres?: readonly number[];
      readonly toFibres?: readonly number[];
      readonly place: Place;
    };

export interface Carried {
  readonly name: string;
  readonly application?: ApplicationType;
  readonly fibres?: readonly number[];
  readonly transceivers: readonly string[];
  /** Planned cords, where no channel is written. */
  readonly cords: readonly Micrometres[];
  readonly beside: boolean;
  readonly place: Place;
}

export type Requirement =
  | {
      readonly kind: 'loss';
      readonly loss: MicroDb;
      readonly wavelength?: Picometres;
      readonly statistic?: 'mean' | PartsPerMillion;
      readonly sufficient: boolean;
      readonly place: Place;
    }
  | {
      readonly kind: 'power';
      readonly min?: MicroDbm;
      readonly max?: MicroDbm;
      readonly place: Place;
    }
  | { readonly kind: 'events' | 'inspection' | 'length' | 'seen'; readonly place: Place };

/** Settings that stand nearest: link, then its `links`, pattern, plan. All resolved for the link's own fibre. */
export interface Terms {
  readonly measure: readonly Picometres[];
  readonly directions: {
    readonly wanted: readonly Direction[];
    readonly average: boolean;
    readonly within?: MicroDb;
  };
  readonly reference?: ReferenceMethod;
  readonly limits: readonly LimitsSet[];
  readonly compare: readonly LimitsSet[];
  readonly require: readonly Requirement[];
  readonly carries: readonly Carried[];
  /** Margin wanted. */
  readonly margin?: MicroDb;
  readonly reserve: {
    readonly splices: number;
    readonly repairs: number;
    readonly ageing: MicroDb;
  };
  /** Policy for pairs made with test cords where the limits set has none of its own. */
  readonly policy?: PairPolicy;
}

export interface Silence {
  readonly finding: string;
  readonly because: string;
  readonly by?: string;
  readonly place: Place;
}

export interface LinkModel {
  readonly kind: 'link' | 'channel';
  readonly name: string;
  readonly title?: string;
  /** Names of it before, whose evidence it keeps. */
  readonly was: readonly string[];
  readonly place: Place;
  readonly namePlace: Place;
  /** Port names, expanded. Empty if not said. */
  readonly from: readonly string[];
  readonly to: readonly string[];
  /** The link's own numbers of its places. */
  readonly fibres: readonly number[];
  readonly spare: readonly number[];
  readonly dead: readonly { readonly fibre: number; readonly because: string }[];
  readonly path: readonly PathElement[];
  readonly terms: Terms;
  readonly silence: readonly Silence[];
  readonly notes: readonly string[];
  /** Mode of the fibres of the path; undefined if unknown or mixed. */
  readonly mode?: Mode;
  /** Declaration of a table row, if it came from `links … as`: the row's place. */
  readonly row?: Place;
  readonly pattern?: string;
}

export interface PlanSettings {
  readonly title?: string;
  readonly client?: string;
  readonly site?: string;
  readonly revision?: { readonly text: string; readonly on?: string };
  readonly zone?: string;
  readonly uncertainty: readonly {
    readonly loss: MicroDb;
    readonly wavelength?: Picometres;
    readonly method?: string;
    readonly repeatable?: MicroDb;
    readonly for?: string;
    readonly place: Place;
  }[];
  readonly decision: {
    readonly rule: DecisionRule;
    readonly accepting: 'none' | 'marginal-pass' | 'marginal-fail';
    readonly rounded?: MicroDb;
  };
  readonly policy?: PairPolicy;
  readonly drift: {
    readonly loss: MicroDb;
    /** Minutes; undefined: the end of its day. */
    readonly expiry?: number;
    readonly extended: boolean;
    readonly closing: boolean;
    readonly widening: boolean;
  };
  readonly adopt: readonly { readonly name: string; readonly by: string; readonly on?: string }[];
  readonly silence: readonly Silence[];
  readonly place?: Place;
}

export type ReadingQuantity = 'loss' | 'power' | 'reflectance';

/** One cell of evidence. Its attempt and verdict are computed, never written. */
export interface ReadingCell {
  readonly object: string;
  /** Fibre number of the object. */
  readonly fibre: number;
  readonly quantity: ReadingQuantity;
  readonly wavelength: Picometres;
  /** Undefined: not said in the heading; reported. */
  readonly direction?: Direction;
  /** What was typed: digits and unit; `dark`: no light seen. Empty cells (`-`) are no readings. */
  readonly typed: { readonly digits: string; readonly unit: string } | 'dark';
  /** Positive for a loss (sign convention of the block applied). */
  readonly loss?: MicroDb;
  readonly power?: MicroDbm;
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
}
