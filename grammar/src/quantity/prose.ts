/**
 * Numbers in sentences: hundredths of a decibel, and more places only where two
 * numbers of one sentence would else look equal and are not, or one would look
 * like nothing. With the true minus (U+2212), for people.
 */
import { type ExactDb, exactDb, type MicroDb, printExactDb, printRounded } from './exact.ts';

const usualPlaces = 2;
const allPlaces = 15;

/** How many places more are spent so that a difference looks like one. */
const placesForSums = 2;

/**
 * The least number of places at which unequal values look unequal, none but
 * zero looks like zero, and where one is the difference of two others, what is
 * shown is it too: 2.96 less 2.805 is 0.155, never 2.81 and 0.16.
 */
export function placesApart(values: readonly ExactDb[], least = usualPlaces): number {
  const unlike = [...new Set([0n as ExactDb, ...values])];
  const sizes = [...new Set(unlike.map(sizeOf))];
  for (let places = least; places < allPlaces; places += 1) {
    const texts = new Set(unlike.map((value) => printRounded(value, places).replace(/^-/u, '')));
    if (texts.size < sizes.length) continue;
    for (let more = places; more <= places + placesForSums && more < allPlaces; more += 1) {
      if (showsSums(sizes, more)) return more;
    }
    return places;
  }
  return allPlaces;
}

const sizeOf = (value: ExactDb) => (value < 0n ? (-value as ExactDb) : value);

/** Whether each sum of two among them is the sum of what is shown of the two. */
function showsSums(sizes: readonly ExactDb[], places: number): boolean {
  const shown = new Map(
    sizes.map((size) => [size, BigInt(printRounded(size, places).replace('.', ''))] as const),
  );
  return sizes.every((a) =>
    sizes.every((b) => {
      const sum = shown.get((a + b) as ExactDb);
      return sum === undefined || sum === shown.get(a)! + shown.get(b)!;
    }),
  );
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
