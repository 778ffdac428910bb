/** Arrangements of instruments and cords, and what happened to them in time. */
import type {
  MicroDb,
  MicroDbm,
  Micrometres,
  Picometres,
} from '../../../../grammar/src/quantity/index.ts';
import type { CordGrade, Declared, Place, ReferenceMethod, When } from './common.ts';
import type { ConnectorType, FibreType, MandrelType } from './parts.ts';

export interface Instrument {
  readonly text: string;
  readonly light?: 'LED' | 'laser';
  readonly wavelengths: readonly Picometres[];
  readonly floor?: MicroDbm;
  readonly calibrated?: When;
  readonly due?: When;
  readonly place: Place;
}

export interface UsedMandrel {
  /** A declared one. */
  readonly type?: MandrelType;
  /** As written: its name, or its diameter; empty where it could not be read. */
  readonly written: string;
  readonly diameter?: Picometres;
  readonly turns?: number;
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
  /** How thick it is. */
  readonly diameter?: Picometres;
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
    /** Empty where it could not be read. */
    readonly condition: string;
    readonly aperture?: number;
    /** What the cord was wound round, as far as it is said. */
    readonly mandrel?: UsedMandrel;
    readonly place: Place;
  };
  readonly cords: readonly TestCord[];
  /** In time order; order of equal times is that of the text. */
  readonly events: readonly SetupEvent[];
  readonly referencePlace?: Place;
  /** Group index that the instrument was set to. */
  readonly index: readonly { readonly wavelength: Picometres; readonly value: number }[];
  /** Of the reflectometer: pulse and averaging in picoseconds, range. */
  readonly pulse?: number;
  readonly averaging?: number;
  readonly range?: Micrometres;
}
