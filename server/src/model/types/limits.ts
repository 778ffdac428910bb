/** What an edition allows, and what light will carry. */
import type {
  MicroDb,
  Micrometres,
  Picometres,
  RatePerKm,
} from '../../../../grammar/src/quantity/index.ts';
import type { Declared, Direction, Mode, PairPolicy, Place, Sourced } from './common.ts';

export type JointGrade = 'installed' | 'end' | 'reference';

export interface LimitsSet extends Declared {
  readonly kind: 'limits';
  /** The limits are a contract's, not the components'. */
  readonly contract: boolean;
  readonly policy?: PairPolicy;
  readonly fibre: readonly (Sourced & {
    readonly fibre: string;
    readonly wavelength: Picometres;
    readonly rate: RatePerKm;
    readonly place: Place;
  })[];
  readonly connector: readonly (Sourced & {
    readonly connector: string | 'any';
    readonly grade: JointGrade;
    readonly mode?: Mode;
    readonly loss: MicroDb;
    readonly place: Place;
  })[];
  readonly splice: readonly (Sourced & {
    readonly splice: string | 'any';
    readonly mode?: Mode;
    readonly loss: MicroDb;
    readonly objective?: MicroDb;
    readonly place: Place;
  })[];
  readonly part: readonly (Sourced & {
    readonly part: string | 'any';
    readonly mode?: Mode;
    readonly loss: MicroDb;
    readonly place: Place;
  })[];
  readonly coreStep: readonly (Sourced & {
    readonly from: string;
    readonly to: string;
    readonly loss: MicroDb;
    readonly place: Place;
  })[];
  /** Over the limit from which no retest is allowed (MIL-STD-2042-6 retest bands). */
  readonly reject: readonly {
    readonly over: MicroDb;
    readonly after?: number;
    readonly object?: 'assembly' | 'link' | 'channel';
  }[];
  readonly returnLoss: readonly (Sourced & {
    readonly connector: string;
    readonly min: MicroDb;
    readonly place: Place;
  })[];
}

export interface ApplicationRow extends Sourced {
  readonly fibre: string;
  readonly reach?: Micrometres;
  readonly loss?: MicroDb;
  /** Least loss. */
  readonly min?: MicroDb;
  /** Most that two ends of one tree may differ by. */
  readonly differential?: MicroDb;
  /** Most that the connections may take. */
  readonly connections?: MicroDb;
  /** Light must enter the fibre by a mode-conditioning cord. */
  readonly conditioned?: boolean;
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
