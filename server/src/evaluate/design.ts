/** What the plan itself says at each wavelength: expected, greatest and least loss, and the limits beside them. */

import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import { type ExactDb, subtractDb, zeroDb } from '../../../grammar/src/quantity/index.ts';
import type { Direction, PairPolicy, ReferenceMethod } from '../model/types.ts';
import { type Arrangement, plannedArrangement } from './arrangement.ts';
import type { Context } from './context.ts';
import { ownFigures } from './figures.ts';
import { governing } from './limits.ts';
import { fibresOf } from './path.ts';
import { percentileOfReading } from './percentile.ts';
import type { Term, WavelengthResult } from './result.ts';
import type { Settled } from './settle.ts';
import { meanAndSpread } from './spread.ts';
import { readingSum, type Sum } from './sums.ts';
import { usualPercentile } from './thresholds.ts';

/** How a link is read at a wavelength, or is planned to be. */
export type Arrangements = (wavelength: Picometres) => Arrangement | undefined;

/** One result per wavelength, those measured if not said; two where the directions differ. Of one end only its own limits. */
export function designOf(
  context: Context,
  arrangements: Arrangements,
  wavelengths: readonly Picometres[] = context.link.terms.measure,
  end?: number,
): readonly WavelengthResult[] {
  const { limits, compare } = context.link.terms;
  // Nothing but an allowance for a step in core size tells one direction from the other.
  const directed = [...limits, ...compare].some((set) => set.coreStep.length > 0);
  return wavelengths.flatMap((wavelength) => {
    const arrangement = arrangements(wavelength);
    const forward = resultAt(context, arrangement, wavelength, 'A>B', end);
    if (!directed) return [{ ...forward, direction: undefined }];
    const back = resultAt(context, arrangement, wavelength, 'B>A', end);
    const same = forward.governing?.value === back.governing?.value && forward.worst === back.worst;
    return same ? [{ ...forward, direction: undefined }] : [forward, back];
  });
}

/** One look through the readings for each wavelength, whatever asks how often. */
export function arrangementsOf(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
): Arrangements {
  const known = new Map<Picometres, Arrangement | undefined>();
  return (wavelength) => {
    if (!known.has(wavelength)) known.set(wavelength, arrangementAt(context, settled, wavelength));
    return known.get(wavelength);
  };
}

/** As read where that is how it was wanted; as planned otherwise. */
function arrangementAt(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  wavelength: Picometres,
): Arrangement | undefined {
  const wanted: ReferenceMethod | undefined = context.link.terms.reference;
  for (const { current } of settled.values()) {
    const used = current?.arrangement;
    if (!used || current.measurement.cell.wavelength !== wavelength) continue;
    if (wanted === undefined || used.method === wanted) return used;
  }
  return wanted && plannedArrangement(wanted);
}

function resultAt(
  context: Context,
  arrangement: Arrangement | undefined,
  wavelength: Picometres,
  direction: Direction,
  end: number | undefined,
): WavelengthResult {
  const { link, path, settings } = context;
  const sets = link.terms.limits;
  // Without a method no limit can be built: what a reading would hold is not known.
  const all = arrangement ? context.limits(arrangement, wavelength, direction) : [];
  const limits = all.filter(({ fibres }) => end === undefined || (fibres?.has(end) ?? true));
  const assumed = arrangement ?? plannedArrangement('one-cord');
  const policy: PairPolicy = sets[0]?.policy ?? link.terms.policy ?? settings.policy ?? 'counting';
  const sum = (which: 'typ' | 'max') =>
    readingSum(
      path,
      assumed,
      ownFigures(sets, wavelength, link.mode, which),
      policy,
      direction,
      wavelength,
    );
  const [expected, worst] = [sum('typ'), sum('max')];
  const governs = governing(limits);
  const greatest = total(worst);
  return {
    wavelength,
    direction,
    reference: arrangement?.method,
    receiveCord: assumed.receiveCord,
    expected: total(expected),
    expectedTerms: expected.terms,
    statistical: meanAndSpread(total(expected), path, assumed, policy, direction, wavelength),
    percentile: percentileOfReading(
      settings.percentile ?? usualPercentile,
      ownFigures(sets, wavelength, link.mode, 'max'),
      path,
      assumed,
      policy,
      direction,
      wavelength,
    ),
    worst: greatest,
    worstTerms: worst.terms,
    limits,
    governing: governs,
    designMargin:
      governs?.value !== undefined && greatest !== undefined
        ? subtractDb(governs.value, greatest)
        : undefined,
    lowest: lowestOf(context, assumed, wavelength),
  };
}

function total(sum: Sum): ExactDb | undefined {
  return 'value' in sum ? sum.value : undefined;
}

/** Nothing taken into the reference: a reading cannot lie below zero, whatever the sum says. */
function lowestOf(
  context: Context,
  arrangement: Arrangement,
  wavelength: Picometres,
): ExactDb | undefined {
  if (fibresOf(context.path.pieces).some((piece) => piece.length === undefined)) return undefined;
  const { lowest } = context.floor(arrangement, wavelength);
  return arrangement.referencePairs === 0 && lowest < 0n ? zeroDb : lowest;
}

/** Terms by what they weigh, heaviest first. */
export function heaviest(terms: readonly Term[]): readonly Term[] {
  return [...terms].sort((a, b) => (a.total < b.total ? 1 : a.total > b.total ? -1 : 0));
}
