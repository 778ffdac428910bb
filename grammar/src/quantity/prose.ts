/**
 * Numbers in sentences: hundredths of a decibel, and more places only where two
 * numbers of one sentence would else look equal and are not, or one would look
 * like nothing. With the true minus (U+2212), for people.
 */
import { type ExactDb, exactDb, type MicroDb, printExactDb, printRounded } from './exact.ts';

const usualPlaces = 2;
const allPlaces = 15;

/** The least number of places at which unequal values look unequal and none but zero looks like zero. */
export function placesApart(values: readonly ExactDb[], least = usualPlaces): number {
  const unlike = [...new Set([0n as ExactDb, ...values])];
  for (let places = least; places < allPlaces; places += 1) {
    const texts = new Set(unlike.map((value) => printRounded(value, places).replace(/^-/u, '')));
    const sizes = new Set(unlike.map((value) => (value < 0n ? -value : value)));
    if (texts.size === sizes.size) return places;
  }
  return allPlaces;
}

/** Rounded half away from zero; zeros beyond the second place are left out: `2.81`, `2.805`. */
export function printProse(value: ExactDb, places = placesApart([value])): string {
  const text = places < allPlaces ? printRounded(value, places) : printExactDb(value);
  return text.replace(/(\.\d\d\d*?)0+$/u, '$1').replace(/^-/u, '−');
}

/** Values of one sentence, each with the places that keep them apart. */
export function printApart(values: readonly ExactDb[], least = usualPlaces): readonly string[] {
  const places = placesApart(values, least);
  return values.map((value) => printProse(value, places));
}

/** As {@link printProse} for an integer of micro units, apart from others it is said beside. */
export function printMicroProse(value: number, ...beside: readonly number[]): string {
  const all = [value, ...beside].map((each) => exactDb(each as MicroDb));
  return printApart(all)[0] ?? '';
}
