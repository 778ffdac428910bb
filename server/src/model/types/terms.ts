/** What is wanted: of a link, and of the plan as a whole. */
import type {
  MicroDb,
  MicroDbm,
  Micrometres,
  PartsPerMillion,
  Picometres,
} from '../../../../grammar/src/quantity/index.ts';
import type { W } from '../../../../grammar/src/vocabulary/index.ts';
import type { DecisionRule, Direction, PairPolicy, Place, ReferenceMethod } from './common.ts';
import type { ApplicationType, LimitsSet } from './limits.ts';
import type { TransceiverType } from './parts.ts';

export interface Carried {
  readonly name: string;
  readonly application?: ApplicationType;
  readonly fibres?: readonly number[];
  readonly transceivers: readonly string[];
  /** One for both ends, or A and B; those that are declared. */
  readonly modules: readonly TransceiverType[];
  /** Planned cords, where no channel is written. */
  readonly cords: readonly Micrometres[];
  readonly beside: boolean;
  /** Where it holds: its line, or the one by which an object is like another that says it. */
  readonly place: Place;
  /** Its line, where that stands in the other object. */
  readonly copied?: Place;
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
  /** A line of it, here or in the plan, could not be read or names what nobody declares. */
  readonly unread?: true;
}

export interface Silence {
  readonly finding: string;
  readonly because: string;
  readonly by?: string;
  readonly place: Place;
}

/** From where on a plan wants readings pointed at; undefined: the bound that the word itself says. */
export interface DoubtSettings {
  readonly outlier?: MicroDb;
  readonly outlierMates?: number;
  readonly asymmetry?: MicroDb;
  readonly copied?: number;
  readonly bend?: MicroDb;
  readonly bendOfSlope?: PartsPerMillion;
  readonly inversion?: MicroDb;
  readonly joint?: MicroDb;
  readonly tooHigh?: MicroDb;
  readonly highOfFibre?: PartsPerMillion;
  readonly leastOfPair?: PartsPerMillion;
  readonly leastOfFibre?: PartsPerMillion;
  readonly course?: MicroDb;
  readonly courseMates?: number;
  readonly exchanged?: PartsPerMillion;
  readonly exchangedMates?: number;
  readonly repeated?: number;
  readonly numbered?: number;
  readonly lengthShare?: PartsPerMillion;
  readonly lengthLeast?: Micrometres;
}

/** A rule of the plan for its changes; its name is the word by which it is written. */
export type ChangeRule =
  | {
      readonly rule: typeof W.margin;
      /** The least margin that a change may leave. */
      readonly least: MicroDb;
      readonly place: Place;
    }
  | {
      readonly rule: typeof W.signed;
      /** Who may answer a doubt, concede and withdraw. */
      readonly by: readonly string[];
      readonly place: Place;
    }
  | {
      readonly rule: typeof W.noWorse | typeof W.sameLimits | typeof W.unedited | typeof W.retested;
      readonly place: Place;
    };

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
  readonly doubts: DoubtSettings;
  /** What a change needs, in order of the text. */
  readonly changes: readonly ChangeRule[];
  /** Share of links for which the spread of a loss is shown. */
  readonly percentile?: PartsPerMillion;
  readonly adopt: readonly { readonly name: string; readonly by: string; readonly on?: string }[];
  readonly silence: readonly Silence[];
  /** Share of a cable's fibres that is to stay free. */
  readonly spares?: PartsPerMillion;
  /** How names of a kind are built: `{area}` letters or digits, `{00}` that many digits. */
  readonly identify: readonly {
    readonly kind: 'link' | 'port' | 'cable' | 'channel';
    readonly form: string;
    readonly place: Place;
  }[];
  readonly place?: Place;
}
