/** How results are worded in one line beside the text: hints, lenses, hovers and completion share it. */
import {
  type ExactDb,
  microToNumber,
  type Picometres,
  printExactDb,
  printRounded,
  toNanometres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import {
  type LinkResult,
  type ReadingResult,
  type Verdict,
  verdicts,
  type WavelengthResult,
} from '../evaluate/result.ts';

/** `pass`, `not judged`: the word as people read it. */
export function verdictInWords(verdict: Verdict): string {
  return verdict === 'not-judged' ? 'not judged' : verdict;
}

/**
 * A difference with its sign, rounded half away from zero; digits are added
 * where rounding would show zero for what is not, and so hide which side it lies on.
 */
export function signed(value: ExactDb, places: number): string {
  const size = value < 0n ? (-value as ExactDb) : value;
  const text = unsigned(size as ExactDb, places);
  return value === 0n ? text : `${value < 0n ? '−' : '+'}${text}`;
}

/** A loss or limit rounded for display, with the digits that keep it from showing as zero. */
export function unsigned(value: ExactDb, places: number): string {
  const rounded = printRounded(value, places);
  return Number(rounded) === 0 && value !== 0n ? printExactDb(value) : rounded;
}

export function wavelengthInWords(wavelength: Picometres): string {
  return `${toNanometres(wavelength)} nm`;
}

/** `850 nm A>B` or `850 nm`. */
export function keyInWords(reading: Pick<ReadingResult, 'wavelength' | 'direction'>): string {
  return `${wavelengthInWords(reading.wavelength)}${reading.direction ? ` ${reading.direction}` : ''}`;
}

/**
 * One figure per wavelength, the plan's own method first: `limit 2.34, 2.07`;
 * where one governs that rests on figures from memory, `limit 2.34, 2.07, recalled at 1300 nm`.
 */
export function limitsInWords(
  result: LinkResult,
  places: number,
  unit: '' | 'dB' = '',
): string | undefined {
  const own = ownMethod(result);
  const known = own.filter(({ governing }) => governing?.value !== undefined);
  if (known.length === 0) return undefined;
  const figures = own.map(({ governing }) =>
    governing?.value === undefined ? 'none' : unsigned(governing.value, places),
  );
  const recalled = known.filter(({ governing }) => governing?.recalled);
  const at = [...new Set(recalled.map(({ wavelength }) => wavelengthInWords(wavelength)))];
  const trust =
    recalled.length === 0
      ? ''
      : recalled.length === known.length
        ? ', recalled'
        : `, recalled at ${at.join(', ')}`;
  return `limit ${figures.join(', ')}${unit ? ` ${unit}` : ''}${trust}`;
}

/** Results at the method that the plan wants (the first per wavelength), per direction where limits differ. */
export function ownMethod(result: LinkResult): readonly WavelengthResult[] {
  const first = new Map<Picometres, WavelengthResult['reference']>();
  for (const at of result.wavelengths)
    if (!first.has(at.wavelength)) first.set(at.wavelength, at.reference);
  return result.wavelengths.filter((at) => first.get(at.wavelength) === at.reference);
}

/** The link in one line: `limit 2.34, 2.07 dB · margin +0.42 · 25 of 48 readings`. */
export function linkInWords(result: LinkResult, places: number): string | undefined {
  const limits = limitsInWords(result, places, 'dB');
  const parts: string[] = [];
  if (limits) parts.push(limits);
  if (result.worstMargin) {
    const { reading, margin } = result.worstMargin;
    const word = reading.verdict === 'pass' ? '' : `${verdictInWords(reading.verdict)}, `;
    // What is dark or invalid has no margin: the least of the others must not stand for it.
    const worse = Math.min(rank('untested'), rank(reading.verdict));
    parts.push(
      rank(result.verdict) < worse
        ? verdictInWords(result.verdict)
        : `${word}margin ${signed(margin, places)}`,
    );
  } else {
    const margins = ownMethod(result).flatMap((at) => at.designMargin ?? []);
    const least = margins.reduce<ExactDb | undefined>(
      (a, b) => (a === undefined || b < a ? b : a),
      undefined,
    );
    if (least !== undefined) parts.push(`design margin ${signed(least, places)}`);
  }
  if (result.present > 0 && result.present < result.expected)
    parts.push(`${result.present} of ${result.expected} readings`);
  return parts.length > 0 ? parts.join(' · ') : undefined;
}

/** One row of readings in words: the worst of its cells, or the least margin where all pass. */
export function rowInWords(readings: readonly ReadingResult[], places: number): string | undefined {
  const judged = readings.filter((reading) => reading.attempt !== null);
  if (judged.length === 0) return undefined;
  const trouble = judged.filter((reading) => reading.verdict !== 'pass');
  if (trouble.length === 0) {
    const margin = judged.reduce<ExactDb | undefined>(
      (least, { margin: own }) =>
        own !== undefined && (least === undefined || own < least) ? own : least,
      undefined,
    );
    return margin === undefined ? undefined : `margin ${signed(margin, places)}`;
  }
  const [first, ...rest] = [...trouble].sort((a, b) => rank(a.verdict) - rank(b.verdict));
  if (!first) return undefined;
  const more = rest.length > 0 ? `, ${rest.length} more to look at` : '';
  return `${readingInWords(first, places)}${more}`;
}

/** `fail, 0.27 over the limit at 850 nm A>B`. */
export function readingInWords(reading: ReadingResult, places: number): string {
  const word = verdictInWords(reading.verdict);
  const key = keyInWords(reading);
  if (
    reading.verdict === 'invalid' ||
    reading.verdict === 'stale' ||
    reading.verdict === 'not-judged'
  ) {
    return `${word} at ${key}${reading.because ? `: ${reading.because}` : ''}`;
  }
  if (reading.margin === undefined) return `${word} at ${key}`;
  const { margin } = reading;
  const side =
    margin < zeroDb
      ? `${unsigned(-margin as ExactDb, places)} over the ${reading.limit?.recalled ? 'recalled ' : ''}limit`
      : `margin ${signed(margin, places)}`;
  return `${word}, ${side} at ${key}`;
}

/** Micro-decibel of one part with two decimals at least: `0.75`, `3.00`. */
export function eachInWords(each: number): string {
  return withTwoPlaces(String(microToNumber(each)));
}

/** All digits of an exact loss, two decimals at least: `0.54`, `2.805`. */
export function fully(value: ExactDb): string {
  return withTwoPlaces(printExactDb(value));
}

function withTwoPlaces(text: string): string {
  const places = text.includes('.') ? text.length - text.indexOf('.') - 1 : 0;
  if (places >= 2) return text;
  return places === 1 ? `${text}0` : `${text}.00`;
}

function rank(verdict: Verdict): number {
  return verdicts.indexOf(verdict);
}
