/**
 * Every threshold of the trade that judges nothing by itself: it only decides
 * when a reading is pointed at. Each says where it comes from. Those that a plan
 * can set in its `doubts` are defaults: `bounds.ts` hands out what holds in a plan.
 */
import {
  type MicroDb,
  type Micrometres,
  microDb,
  micrometres,
  type PartsPerMillion,
  type Picometres,
  partsPerMillion,
  type RatePerKm,
  ratePerKm,
} from '../../../grammar/src/quantity/index.ts';

/** Nominal windows of 850, 1300/1310 and 1550 nm are ±30 nm wide (IEC 61280-4-1 and -4-2 source tables, from memory). */
const windowHalfWidth = 30_000;

/** Whether light at one wavelength answers a question about the other: never beyond one nominal window. */
export function sameWindow(a: Picometres, b: Picometres): boolean {
  return Math.abs(a - b) <= windowHalfWidth;
}

/** Half of the 20 nm that lie between wavelengths of the coarse grid (ITU-T G.694.2, from memory). */
const coarseHalf = 10_000;

/** Whether light of one wavelength goes through the filter of another on a shared line. */
export function sameColour(a: Picometres, b: Picometres): boolean {
  return Math.abs(a - b) < coarseHalf;
}

/** Share of links that a percentile is shown for where the plan says none: mean + 2 sigma of a normal spread (arithmetic). */
export const usualPercentile: PartsPerMillion = partsPerMillion(977_000);

/** Repeatability of one set-up in one session where the plan says none. Common practice, no source. */
export const usualRepeatability: MicroDb = microDb(50_000);

/** A loss and the powers it came from must agree within this. Common practice, no source. */
export const powerAgreement: MicroDb = microDb(20_000);

/** From this on a test cord's fibre counts in a glass link. Common practice, no source; the sum itself is arithmetic. */
export const cordFibreCounts: MicroDb = microDb(10_000);

/** A loss above this, or one that looks like a received power, is likely in the wrong unit. Common practice, no source. */
export const implausibleLoss: MicroDb = microDb(45_000_000);
export const looksLikePower: { readonly from: MicroDb; readonly to: MicroDb } = {
  from: microDb(-35_000_000),
  to: microDb(-5_000_000),
};

/** Readings of a block that must all be negative before the sign of the whole block is doubted. Common practice, no source. */
export const signBatch = 3;

/** Two directions of one fibre that differ by more are named. Common practice, no source (0.2 to 0.3 dB is usual). */
export const directionsDiffer: MicroDb = microDb(300_000);

/** More fibres than this with both directions equal to the last digit are named. Common practice, no source. */
export const copiedFibres = 5;

/** Excess loss at the longer wavelength that points to a bend on single-mode fibre. Common practice on a published typical slope. */
export const bendExcess: MicroDb = microDb(200_000);

/** And this share of the fibre’s slope, which its typical figures leave open: a long cable has a slope of its own. Ours; see the error study. */
export const bendOfSlope: PartsPerMillion = partsPerMillion(200_000);

/** Typical attenuation at 1310 nm less that at 1550 nm, 0.34 − 0.19 dB/km, where the fibre states none (published typical values of G.652.D). */
export const usualBendSlope: RatePerKm = ratePerKm(150_000);

/** Loss at 1300 nm above that at 850 nm by more than this, on multimode: labels exchanged, or a bend. Common practice, no source. */
export const longAboveShort: MicroDb = microDb(100_000);

/** Loss over what the parts typically lose, alike at two wavelengths, that points to a joint. Common practice, no source. */
export const jointResidual: MicroDb = microDb(300_000);

/**
 * A reading this far above the median of its mates is named: at least so much,
 * and so many standard deviations of the mates without the two greatest, more
 * where they are few and the deviation itself is uncertain: 4.7 + 350/n². One
 * to three of a thousand batches of normal noise reach that, counted for 8, 12, 24
 * and 48 mates. Three median absolute deviations, as is usual, are exceeded by one
 * reading in fifty. The least is common practice, no source.
 */
export const outlierLeast: MicroDb = microDb(200_000);
export function outlierDeviations(mates: number): number {
  return 4.7 + 350 / mates ** 2;
}
/** Fewer mates than this say nothing of an outlier. Common practice, no source. */
export const outlierMates = 8;

/** A loss that is typed this far from its mates, or from what its parts typically lose, is questioned before it is written. Common practice, no source. */
export const farFrom: MicroDb = microDb(2_000_000);
/** Fewer mates than this leave the word to the typical figures. Common practice, no source. */
export const farMates = 3;

/** Declared and measured length may differ by the larger of these two. Common practice, no source. */
export const lengthDiffers: { readonly share: PartsPerMillion; readonly least: Micrometres } = {
  share: partsPerMillion(30_000),
  least: micrometres(15_000_000),
};

/**
 * An event belongs to the nearest joint of its kind that lies within the larger
 * of these two: the share of its distance covers the helix of the fibre and the
 * group index, the least length the width of a pulse. Common practice, no source.
 */
export const eventAway: { readonly share: PartsPerMillion; readonly least: Micrometres } =
  lengthDiffers;

/** An average of two directions below zero by more than this is no splice. Common practice, no source. */
export const averageBelowZero: MicroDb = usualRepeatability;

/** Light this little above what a meter can see is mostly the meter's own noise. Common practice, no source. */
export const nearFloor: MicroDb = microDb(3_000_000);

/** A retest that lost this much more than the first good reading of its key, by small steps, is named. Common practice, no source. */
export const degraded: MicroDb = microDb(300_000);

/** More readings of one key than this within a day are named. Common practice, no source (one contract allows three before its relaxed figure). */
export const usualAttempts = 3;

/** A multimode stretch longer than this is likely in the wrong unit: older backbones end at 2 km. Common practice, no source. */
export const longMultimode: Micrometres = micrometres(2_000_000_000);
/** No cord of a channel is as long as this. Common practice, no source. */
export const longCord: Micrometres = micrometres(100_000_000);

/** Design margin that leaves nothing for a repair where the plan wants none: this share of what an application allows, at most so much. Common practice, no source. */
export const thinMargin: { readonly share: PartsPerMillion; readonly most: MicroDb } = {
  share: partsPerMillion(100_000),
  most: microDb(300_000),
};

/**
 * What light should have left where nothing is reserved: 3 dB outdoors, as a
 * public worked example keeps, 1 dB within a building. Common practice; that a
 * path of more than 2 km lies outdoors is ours.
 */
export const powerLeft: {
  readonly far: MicroDb;
  readonly near: MicroDb;
  readonly farFrom: number;
} = { far: microDb(3_000_000), near: microDb(1_000_000), farFrom: 2_000_000_000 };

/** Power in a fibre from which on light harms eyes and dirty plugs at once: 10 mW, in micro-dBm. Common practice; hazard levels are those of IEC 60825-2, from memory. */
export const strongLight = 10_000_000;

/** Fewer losses than this with one decimal say nothing of rounding. Common practice, no source. */
export const roundedLosses = 6;

/** Fewer fibres than this say nothing of headings that are exchanged. Common practice, no source. */
export const exchangedMates = 4;
/** A difference of two wavelengths this share beyond the fibre's slope is no exchange of headings. Ours; see the error study. */
export const exchangedShare: PartsPerMillion = partsPerMillion(600_000);
/** Standard errors by which a batch has to be away before it is named. Ours; see the error study. */
export const sureDeviations = 3;

/** Fewer readings than this have no level of their own. Common practice, no source. */
export const levelMates = 4;
/**
 * The least that a batch can lose by its parts' typical figures: so much of the
 * fibre, so much of a pair; splices may lose nothing. Well-made pairs lose a
 * third of the typical figure of pairs mated at random. Ours; see the error study.
 */
export const leastShares: { readonly fibre: PartsPerMillion; readonly pair: PartsPerMillion } = {
  fibre: partsPerMillion(800_000),
  pair: partsPerMillion(350_000),
};
/** A batch this far above what its parts typically lose is named. Common practice, no source. */
export const levelAbove: MicroDb = jointResidual;
/** And by this share of what its fibre and its splitters typically lose, which typical figures leave open. Ours; see the error study. */
export const levelOfFibre: PartsPerMillion = partsPerMillion(100_000);
/** From this on a batch of multimode readings may have been taken over a step of cores: 0.9 to 1.6 dB from 62.5 to 50 µm with LEDs is seen in practice. */
export const coreStepFrom: MicroDb = microDb(900_000);

/** Fewer readings than this have no course; each side of a step has at least {@link stepSide}. Ours; see the error study. */
export const courseMates = 10;
export const stepSide = 4;
/** What a course must rise or fall beside its scatter: so many times the repeatability of two readings. Common practice, no source. */
export const courseTimes = 1.5;
/** Standard deviations of the tests for a trend and for a step. Ours; see the error study. */
export const trendSignificance = 4;
export const trendFew = 3.2;
/** Standard errors of a rise that few values have to show beside. Ours; see the error study. */
export const trendErrors = 6;
export const stepSignificance = 5;
/** Share of pairs of readings, one from each side of a step, of which the later is beyond. Ours; see the error study. */
export const stepApart = 0.85;

/** Rows alike in a row may occur by chance this often before they are named. Ours; see the error study. */
export const repeatedChance = 1e-6;
/** The least number of rows alike that is named. Common practice, no source. */
export const repeatedRows = 3;

/** Fewer fibres than this do not show a numbering. Ours; see the error study. */
export const numberedMates = 12;
/** Correlations of fewer than this are no numbers: their z has a variance of 1/(n − 3). */
export const leastNumbered = 6;
/** Standard deviations of the test that one numbering fits better than the other. Ours; see the error study. */
export const numberedSignificance = 4.5;
