/**
 * From where on readings are pointed at, in one plan: what its `doubts` say,
 * else the bounds that each word of the notation says of itself.
 */
import type { MicroDb, Micrometres, PartsPerMillion } from '../../../grammar/src/quantity/index.ts';
import type { DoubtSettings, PlanSettings } from '../model/types.ts';
import {
  bendExcess,
  bendOfSlope,
  copiedFibres,
  courseMates,
  directionsDiffer,
  exchangedMates,
  exchangedShare,
  jointResidual,
  leastNumbered,
  leastShares,
  lengthDiffers,
  levelAbove,
  levelOfFibre,
  longAboveShort,
  numberedMates,
  outlierLeast,
  outlierMates,
  repeatedRows,
} from './thresholds.ts';

/** As the settings, with nothing left open but `course`, which follows from how readings repeat. */
export interface Bounds
  extends Required<Omit<DoubtSettings, 'course' | 'lengthShare' | 'lengthLeast'>> {
  readonly course?: MicroDb;
  readonly length: { readonly share: PartsPerMillion; readonly least: Micrometres };
}

const known = new WeakMap<DoubtSettings, Bounds>();

export function boundsOf(settings: Pick<PlanSettings, 'doubts'>): Bounds {
  const said = settings.doubts;
  const before = known.get(said);
  if (before) return before;
  const bounds: Bounds = {
    outlier: said.outlier ?? outlierLeast,
    outlierMates: said.outlierMates ?? outlierMates,
    asymmetry: said.asymmetry ?? directionsDiffer,
    copied: said.copied ?? copiedFibres,
    bend: said.bend ?? bendExcess,
    bendOfSlope: said.bendOfSlope ?? bendOfSlope,
    inversion: said.inversion ?? longAboveShort,
    joint: said.joint ?? jointResidual,
    tooHigh: said.tooHigh ?? levelAbove,
    highOfFibre: said.highOfFibre ?? levelOfFibre,
    leastOfPair: said.leastOfPair ?? leastShares.pair,
    leastOfFibre: said.leastOfFibre ?? leastShares.fibre,
    course: said.course,
    courseMates: said.courseMates ?? courseMates,
    exchanged: said.exchanged ?? exchangedShare,
    exchangedMates: said.exchangedMates ?? exchangedMates,
    repeated: said.repeated ?? repeatedRows,
    numbered: Math.max(said.numbered ?? numberedMates, leastNumbered),
    length: {
      share: said.lengthShare ?? lengthDiffers.share,
      least: said.lengthLeast ?? lengthDiffers.least,
    },
  };
  known.set(said, bounds);
  return bounds;
}
