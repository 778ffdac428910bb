/** Cables, paths and what is laid out along them: links, channels, rings, trees. */
import type {
  Micrometres,
  PartsPerMillion,
  Picometres,
} from '../../../../grammar/src/quantity/index.ts';
import type { Declared, Mode, Place, When } from './common.ts';
import type {
  ColoursType,
  ComponentType,
  ConnectorType,
  FibreType,
  SpliceType,
  SplitterType,
} from './parts.ts';
import type { Silence, Terms } from './terms.ts';

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
  /** In the order in which they lie; empty where the cable is one piece. */
  readonly reels: readonly Reel[];
  /** Splices between reels: the first lies between the first two. Undefined: missing, reported. */
  readonly joints: readonly (Extract<PathElement, { kind: 'splice' }> | undefined)[];
  readonly colours?: ColoursType;
  /** Colour of its jacket, as written. */
  readonly jacket?: { readonly colour: string; readonly place: Place };
  /** By fibres of the cable. */
  readonly repairs: readonly Repair[];
  readonly from?: string;
  readonly to?: string;
  /** What it passes, as written. */
  readonly routes: readonly string[];
}

/** One reel of a long cable. */
export interface Reel {
  readonly name: string;
  /** Of the sheath, without slack. */
  readonly length?: Micrometres;
  /** The length with the unit it was written in: `13.8 kft`. */
  readonly written: string;
  /** Slack that lies at it. */
  readonly slack: Micrometres;
  /** Sheath marks at its two ends. */
  readonly marks?: readonly [number, number];
  readonly place: Place;
}

/** A piece put into some fibres on a day: it holds from then on, and earlier readings of them are aged by it. */
export interface Repair {
  readonly name: string;
  /** Numbers of what it stands in: of the cable, or of the link. */
  readonly fibres: readonly number[];
  readonly on: When;
  /** How far along from end A. */
  readonly at?: Micrometres;
  readonly path: readonly PathElement[];
  readonly because?: string;
  readonly place: Place;
}

/** One element of a path, in order from A to B, figures resolved. `undefined` types were reported. */
export type PathElement =
  | {
      readonly kind: 'connector';
      readonly name: string;
      readonly type?: ConnectorType;
      /** Side that has the pins of an array. */
      readonly pins?: 'A' | 'B';
      readonly key?: 'same' | 'opposed';
      readonly at?: string;
      readonly place: Place;
    }
  | {
      readonly kind: 'plug';
      readonly name: string;
      readonly type?: ConnectorType;
      readonly pinned?: true;
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
      /** The reel of the cable that this is. */
      readonly reel?: string;
      /** Where places 1, 2, 3 … come out; straight if not said. */
      readonly map?: readonly number[];
      readonly place: Place;
    }
  | {
      readonly kind: 'component';
      readonly name: string;
      readonly type?: ComponentType;
      readonly at?: string;
      /** Second kind first where the first would stand, and the other way round. */
      readonly turned?: boolean;
      readonly port?: string;
      /** From A to B, over the places of the link: its own map, or the one written behind it. Undefined: not known. */
      readonly map?: readonly number[];
      readonly place: Place;
    }
  | {
      readonly kind: 'split';
      /** Of this splitter in the path. */
      readonly name: string;
      readonly splitter: string;
      readonly type?: SplitterType;
      /** The output that light takes; undefined where the path stops at it. */
      readonly out?: number;
      readonly place: Place;
    }
  /** Only in channels and rings. */
  | {
      readonly kind: 'cord';
      readonly length?: Micrometres;
      readonly fibre?: FibreType;
      readonly fibreName: string;
      readonly map?: readonly number[] | 'straight' | 'crossed';
      /** Kinds at its ends, that towards A first; undefined where they are not said. */
      readonly plugs?: readonly [CordPlug, CordPlug];
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

/** The plug at one end of a cord. */
export interface CordPlug {
  readonly name: string;
  readonly type?: ConnectorType;
}

/** One way that light takes through an object that has several. */
export interface Way {
  /** Port at its end; for a ring `Operations room to Lighthouse`. */
  readonly name: string;
  readonly kind: 'branch' | 'span' | 'long-way';
  /** From end A on. Ways that share a stretch share its elements. */
  readonly path: readonly PathElement[];
  /** Of a branch: the number under which its evidence is kept, as `fibres` of the link lists it. */
  readonly fibre?: number;
  /** Of a long way: the span that is lost, by the name of its way. */
  readonly cut?: string;
  readonly place: Place;
}

/** Where a splitter stands in a tree, and what becomes of its outputs. */
export interface Split {
  readonly name: string;
  readonly splitter: string;
  readonly type?: SplitterType;
  /** How many stand alike: one behind each of some outputs that share a path. */
  readonly stands: number;
  /** Outputs of each that lead nowhere yet. */
  readonly spare: readonly number[];
  readonly place: Place;
}

/** A place on a ring where light ends. */
export interface RingNode {
  readonly name: string;
  /** The cord that lets light by when its span is lost. */
  readonly through?: Extract<PathElement, { kind: 'cord' }>;
  readonly place: Place;
}

export interface LinkModel {
  /** `section`: a cable or its reels, tested by themselves. */
  readonly kind: 'link' | 'channel' | 'ring' | 'section';
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
  /** What all its light takes; of a tree up to its first split, of a ring once round. */
  readonly path: readonly PathElement[];
  /** Of a tree its ends, of a ring its spans and the long ways; empty where light has one way. */
  readonly ways: readonly Way[];
  /** Of a tree, in order of the text. */
  readonly splits?: readonly Split[];
  /** Of a ring, in order. */
  readonly nodes?: readonly RingNode[];
  /** By the link's own numbers, those of its cables included. */
  readonly repairs: readonly Repair[];
  /** Wavelength used on a shared line (channels). */
  readonly wavelength?: Picometres;
  readonly terms: Terms;
  readonly silence: readonly Silence[];
  readonly notes: readonly string[];
  /** Mode of the fibres of the path; undefined if unknown or mixed. */
  readonly mode?: Mode;
  /** Some line or piece of it could not be read, which is said there. */
  readonly unread?: true;
  /** Declaration of a table row, if it came from `links … as`: the row's place. */
  readonly row?: Place;
  readonly pattern?: string;
}
