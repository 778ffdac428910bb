/** What things are: fibres, joints, splitters, components, transceivers, orders of colours, and how a fibre is launched into. */
import type {
  MicroDb,
  MicroDbm,
  PartsPerMillion,
  Picometres,
  RatePerKm,
} from '../../../../grammar/src/quantity/index.ts';
import type { Declared, Figure, Mode, Sourced } from './common.ts';

export interface Attenuation extends Figure<RatePerKm>, Sourced {
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
  readonly bandwidth: readonly (Sourced & {
    readonly wavelength: Picometres;
    readonly min: number;
    readonly launch: string;
  })[];
  /** Group index. */
  readonly index: readonly (Sourced & {
    readonly wavelength: Picometres;
    readonly value: number;
  })[];
  readonly modeField: readonly (Figure<Picometres> & { readonly wavelength: Picometres })[];
  readonly dispersion: readonly Dispersion[];
  /** Polarisation mode dispersion at most, in 1e-6 ps/√km. */
  readonly pmd?: Sourced & { readonly max: number };
  /** Its own, else that of the nearest fibre it meets. */
  readonly mandrel?: MandrelType;
  /** Its own, else those of the nearest fibre it meets. */
  readonly flux?: FluxType;
}

/** Where chromatic dispersion is zero and its slope there, or its most at a wavelength. */
export type Dispersion =
  | (Sourced & {
      readonly kind: 'zero';
      readonly min?: Picometres;
      readonly max?: Picometres;
      /** 1e-6 ps/(nm²·km). */
      readonly slope?: number;
    })
  | (Sourced & {
      readonly kind: 'greatest';
      readonly wavelength: Picometres;
      /** 1e-6 ps/(nm·km). */
      readonly max: number;
    });

/** A figure of a part: for one wavelength, or for all; of a splitter for some outputs, of a component for one port. */
export interface PartLoss extends Figure<MicroDb>, Sourced {
  readonly wavelength?: Picometres;
  /** Outputs of a splitter; undefined: all. */
  readonly out?: readonly number[];
  /** Port of a component; undefined: whichever light takes. */
  readonly port?: string;
}

/** How many of such parts lose no more than that. */
export interface LossShare {
  readonly share: PartsPerMillion;
  readonly loss: MicroDb;
  readonly wavelength?: Picometres;
}

/** Return loss: more is better, so `min` binds. */
export interface ReturnLoss extends Figure<MicroDb>, Sourced {
  readonly wavelength?: Picometres;
}

export interface ConnectorType extends Declared {
  readonly kind: 'connector';
  readonly polish?: string;
  readonly positions?: number;
  readonly loss: readonly PartLoss[];
  readonly shares: readonly LossShare[];
  readonly returnLoss: readonly ReturnLoss[];
}

export interface SpliceType extends Declared {
  readonly kind: 'splice';
  readonly loss: readonly PartLoss[];
  readonly shares: readonly LossShare[];
  readonly returnLoss: readonly ReturnLoss[];
}

/** `ports 1:8`. Its figures hold none of its joints. */
export interface SplitterType extends Declared {
  readonly kind: 'splitter';
  readonly inputs: number;
  readonly outputs: number;
  readonly loss: readonly PartLoss[];
  readonly shares: readonly LossShare[];
  readonly returnLoss: readonly ReturnLoss[];
}

/** Where places 1, 2, 3 … come out: by name, whatever their number, or one by one. */
export type PlaceMap = 'straight' | 'reversed' | 'pairs-swapped' | readonly number[];

export interface ComponentType extends Declared {
  readonly kind: 'component';
  /** Kinds of connector; the second looks outward. */
  readonly joins?: readonly [string, string];
  /** Types of those kinds, where they are declared. */
  readonly joined?: readonly [ConnectorType | undefined, ConnectorType | undefined];
  /** From places of the first kind to places of the second. */
  readonly map?: PlaceMap;
  readonly loss: readonly PartLoss[];
  readonly shares: readonly LossShare[];
  readonly returnLoss: readonly ReturnLoss[];
}

/** An order of colours, from 1 upwards, and what other colours tell. */
export interface ColoursType extends Declared {
  readonly kind: 'colours';
  readonly tubes: readonly string[];
  readonly fibres: readonly string[];
  readonly jackets: readonly FibreColours[];
  /** Bodies of connectors on fibres; undefined polish: any. */
  readonly bodies: readonly (FibreColours & { readonly polish?: string })[];
}

/** What colours stand for some fibres. */
export interface FibreColours extends Sourced {
  readonly fibres: readonly string[];
  readonly colours: readonly string[];
}

/** What the test cord of a fibre is wound round. */
export interface MandrelType extends Declared {
  readonly kind: 'mandrel';
  readonly mode?: Mode;
  readonly core?: Picometres;
  readonly diameters: readonly MandrelDiameter[];
  readonly turns?: number;
}

export interface MandrelDiameter extends Sourced {
  readonly diameter: Picometres;
  /** One of the last place it is written with. */
  readonly step: Picometres;
  /** Outer diameter of the cord; undefined: any. */
  readonly cord?: Picometres;
}

/** Bounds of the light that lies within a radius. */
export interface FluxType extends Declared {
  readonly kind: 'flux';
  readonly mode?: Mode;
  readonly core?: Picometres;
  readonly bounds: readonly FluxBound[];
}

export interface FluxBound extends Figure<PartsPerMillion>, Sourced {
  readonly radius: Picometres;
  readonly wavelength: Picometres;
}

/** Power at least and at most. */
export interface PowerWindow extends Sourced {
  readonly min: MicroDbm;
  readonly max: MicroDbm;
  /** Least optical modulation amplitude. */
  readonly amplitude?: MicroDbm;
}

/** Two windows: what a module sends and what it takes. */
export interface TransceiverType extends Declared {
  readonly kind: 'transceiver';
  readonly applications: readonly string[];
  readonly wavelength?: Figure<Picometres> & { readonly nominal: Picometres };
  readonly output?: PowerWindow;
  readonly input?: PowerWindow;
  /** Least ratio of bright to dark of what it sends. */
  readonly extinction?: MicroDb;
  readonly damage?: MicroDbm;
  /** Of the light it receives. */
  readonly penalty?: Sourced & { readonly loss: MicroDb };
  /** Most it tolerates, in 1e-6 ps/nm. */
  readonly dispersion?: number;
}
