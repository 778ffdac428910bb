/**
 * The length that losses at two wavelengths speak of: joints lose alike at 850
 * and 1300 nm, so that what differs is the fibre's, by the rates of its figures.
 */
import { exactFromNumber, picometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import type { ReadingResult, WavelengthResult } from '../evaluate/result.ts';
import type { LinkContext } from './check.ts';
import { inDb, inMetres, metresInWords } from './figures.ts';

/** The two wavelengths at which multimode fibre is tested. */
const SHORT = picometres(850_000);
const LONG = picometres(1_300_000);

/** Fewer fibres than this are no batch; nearer than the others is noise. Common practice, no source. */
const FEWEST = 4;
const SHARE = 0.3;
const METRES = 100;
const DECIBELS = 0.2;

export interface SpokenLength {
  /** Metres. */
  readonly estimate: number;
  readonly declared: number;
  /** `850 nm lost 1.01 dB more than 1300 nm on KQ-1 (median), as some 459 m of its fibre do, and 180 m are declared.` */
  readonly sentence: string;
}

/** Undefined where it is near what is declared, or where too few readings tell. */
export function spokenLength({ link, result }: LinkContext): SpokenLength | undefined {
  const { length } = result;
  if (link.mode !== 'multimode' || length === undefined || link.ways.length > 0) return undefined;
  const [short, long] = [SHORT, LONG].map((wavelength) =>
    fibreLoss(result.wavelengths.find((one) => one.wavelength === wavelength)),
  );
  if (short === undefined || long === undefined || short <= long) return undefined;
  const measured = result.fibres.map(({ current }) => differences(current));
  if (measured.filter((each) => each.length > 0).length < FEWEST) return undefined;
  const median = middle(measured.flat());
  const expected = short - long;
  // A difference the wrong way round is no length.
  if (median <= 0 || Math.abs(median - expected) < DECIBELS) return undefined;
  const declared = toMetres(length);
  const estimate = (declared * median) / expected;
  if (Math.abs(estimate - declared) <= Math.max(SHARE * declared, METRES)) return undefined;
  return {
    estimate: Math.round(estimate),
    declared,
    sentence: `850 nm lost ${inDb(exactFromNumber(median))} more than 1300 nm on ${link.name} (median), as some ${metresInWords(Math.round(estimate))} of its fibre do, and ${inMetres(length)} are declared.`,
  };
}

/** What a batch that is low or high adds where its wavelengths speak of another length: a sentence, or nothing. */
export function orItsLength(context: LinkContext): string {
  const { sentence } = spokenLength(context) ?? {};
  return sentence === undefined ? '' : ` Or the length is wrong: ${sentence}`;
}

/** dB that the fibre of the path usually loses at one wavelength. */
function fibreLoss(at: WavelengthResult | undefined): number | undefined {
  if (at?.expected === undefined) return undefined;
  const terms = at.expectedTerms.filter(({ role }) => role === 'fibre');
  // Where two kinds of fibre meet, the step between them differs by wavelength as well.
  if (new Set(terms.map(({ what }) => what)).size !== 1) return undefined;
  return terms.reduce((sum, { total }) => sum + Number(total) / 1e15, 0);
}

/** Loss at 850 nm less that at 1300 nm of each fibre and direction that has both, in dB. */
function differences(readings: readonly ReadingResult[]): readonly number[] {
  const lossOf = ({ loss, verdict }: ReadingResult) => (verdict === 'invalid' ? undefined : loss);
  return readings.flatMap((short) => {
    if (short.wavelength !== SHORT) return [];
    const long = readings.find(
      ({ wavelength, direction }) => wavelength === LONG && direction === short.direction,
    );
    const [more, less] = [lossOf(short), long && lossOf(long)];
    return more === undefined || less === undefined ? [] : [(more - less) / 1e6];
  });
}

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
