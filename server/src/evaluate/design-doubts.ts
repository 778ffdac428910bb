/**
 * What a design gives to say before anything is read: limits that cannot be
 * built, budgets that cannot hold, services that a path cannot carry.
 */
import type { Micrometres, RatePerKm } from '../../../grammar/src/quantity/index.ts';
import {
  compareDb,
  type ExactDb,
  exactDb,
  printProse,
  subtractDb,
  toMetres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import { longestFibre } from '../optics/index.ts';
import type { Context } from './context.ts';
import { exact, numbersInWords } from './doubts.ts';
import { db, nm } from './reasons.ts';
import type { Doubt, Limit, Term, WavelengthResult } from './result.ts';
import type { Support } from './support.ts';

/** Limits in force that could not be built. */
export function* doubtsOfLimits(
  { link }: Context,
  wavelengths: readonly WavelengthResult[],
): Iterable<Doubt> {
  for (const { wavelength, direction, limits } of wavelengths) {
    for (const { name, beside, because } of limits) {
      if (beside || because === undefined) continue;
      yield {
        name: 'limit-missing',
        place: link.namePlace,
        details: {
          wavelength: nm(wavelength),
          ...(direction && { direction }),
          limitName: name,
          because,
        },
      };
    }
  }
}

/** Budgets that cannot hold: one doubt for each limit, at the wavelength at which it is most over. */
export function* doubtsOfDesign(
  context: Context,
  wavelengths: readonly WavelengthResult[],
  way?: string,
): Iterable<Doubt> {
  const byLimit = new Map<string, Over[]>();
  for (const result of wavelengths) {
    const over = overBy(result);
    if (!over) continue;
    const { name } = over.limit;
    byLimit.set(name, [...(byLimit.get(name) ?? []), over]);
  }
  for (const all of byLimit.values()) {
    const [most, ...others] = all.sort((a, b) => compareDb(b.over, a.over));
    const { result, limit, worst, over } = most!;
    const longest = all.flatMap((one) => longestUnder(one) ?? []);
    const named: Record<string, string> = way === undefined ? {} : { way };
    yield {
      name: 'budget-over-limit',
      place: context.link.namePlace,
      details: {
        wavelength: nm(result.wavelength),
        ...(result.direction && { direction: result.direction }),
        ...named,
        worst: exact(worst),
        limit: exact(limit.value!),
        limitName: limit.name,
        limitKind: limit.kind,
        ...(limit.recalled ? { recalled: 1 } : {}),
        over: exact(over),
        terms: heaviestInWords(result.worstTerms),
        ...(others.length > 0 && {
          also: others
            .map((one) => `${keyOfResult(one.result)} by ${printProse(one.over)} dB`)
            .join(', '),
        }),
        ...(longest.length === all.length && { longest: Math.min(...longest.map(toMetres)) }),
      },
    };
  }
}

/** A design that is over the limit that governs at one wavelength. */
interface Over {
  readonly result: WavelengthResult;
  readonly limit: Limit;
  readonly worst: ExactDb;
  readonly over: ExactDb;
}

function overBy(result: WavelengthResult): Over | undefined {
  const { governing, worst, designMargin } = result;
  if (governing?.value === undefined || worst === undefined || designMargin === undefined) {
    return undefined;
  }
  if (designMargin >= 0n) return undefined;
  // The contract rounds what a reading is held against: what that takes away is no want of the design.
  const rounding = governing.terms.find(({ role }) => role === 'rounding')?.total ?? zeroDb;
  if (designMargin >= rounding) return undefined;
  return { result, limit: governing, worst, over: -designMargin as ExactDb };
}

/** How long its one fibre may be to keep the limit. */
function longestUnder({ result, limit, worst }: Over): Micrometres | undefined {
  const fibres = result.worstTerms.filter((term) => term.role === 'fibre');
  const [only] = fibres;
  if (fibres.length !== 1 || !only || limit.value === undefined) return undefined;
  return longestFibre(limit.value, subtractDb(worst, only.total), only.each as RatePerKm);
}

const keyOfResult = ({ wavelength, direction }: WavelengthResult): string =>
  `${nm(wavelength)} nm${direction ? ` ${direction}` : ''}`;

/** The heaviest terms of a sum, in words; what a reference takes away is one of them, or they would not add up. */
function heaviestInWords(terms: readonly Term[]): string {
  const sizeOf = ({ total }: Term) => (total < 0n ? (-total as ExactDb) : total);
  const three = [...terms].sort((a, b) => compareDb(sizeOf(b), sizeOf(a))).slice(0, 3);
  return three.map(({ what, total }) => `${what} ${printProse(total)} dB`).join(', ');
}

/**
 * That a design is over the loss of a service, and that it is refused to that
 * service for its loss, is one fact: the service tells it, until all that is
 * wanted is read. Then the readings answer for the service, and the design is
 * what is left to doubt.
 */
export function withoutSameLoss(doubts: readonly Doubt[], allRead: boolean): readonly Doubt[] {
  const services = new Set(doubts.map(refusedRow));
  const limits = new Set(doubts.map(limitingService));
  return doubts.filter((doubt) => {
    const [service, limit] = [refusedRow(doubt), limitingService(doubt)];
    return allRead
      ? service === undefined || !limits.has(service)
      : limit === undefined || !services.has(limit);
  });
}

/** The row that a design is refused for its loss. */
function refusedRow({ name, details }: Doubt): string | undefined {
  const { application, row, terms } = details;
  // Terms are told of a design alone.
  const told = name === 'application-loss-exceeded' && terms !== undefined;
  return told ? `${application}, ${row}` : undefined;
}

/** The row that is the limit of a budget which is over it. */
function limitingService({ name, details }: Doubt): string | undefined {
  const told = name === 'budget-over-limit' && details.limitKind === 'application';
  return told ? String(details.limitName) : undefined;
}

/** Applications that the path cannot carry: by its fibre, by length, by loss, or by what their connections may take. */
export function* doubtsOfSupport(supports: readonly Support[]): Iterable<Doubt> {
  for (const support of supports) {
    yield* differentialTooGreat(support);
    if (support.conditioned && support.support !== 'not supported') {
      yield {
        name: 'mode-conditioning-needed',
        place: support.place,
        details: { application: support.name, row: support.row ?? '' },
      };
    }
    if (support.support !== 'not supported') continue;
    const details = {
      application: support.name,
      because: support.because,
      ...(support.row === undefined ? {} : { row: support.row }),
      ...(support.way === undefined ? {} : { way: support.way }),
      ...(support.length === undefined ? {} : { length: support.length / 1e6 }),
      ...(support.reach === undefined ? {} : { reach: support.reach / 1e6 }),
    };
    if (support.broken.includes('fibre')) {
      yield { name: 'application-fibre-unsuited', place: support.place, details };
    }
    if (support.least !== undefined && support.lossMin !== undefined) {
      yield {
        name: 'application-loss-too-low',
        place: support.place,
        details: {
          ...details,
          least: exact(support.least),
          wanted: db(support.lossMin),
          under: exact(subtractDb(exactDb(support.lossMin), support.least)),
          from: support.from ?? 'design',
          ...(support.uncounted?.length && { uncounted: support.uncounted.join(', ') }),
        },
      };
    }
    if (support.broken.includes('reach') && support.length !== undefined) {
      const reach = support.reach ?? 0;
      yield {
        name: 'reach-exceeded',
        place: support.place,
        details: { ...details, over: (support.length - reach) / 1e6 },
      };
    }
    if (support.missing !== undefined && support.wavelength !== undefined) {
      yield {
        name: 'application-figure-missing',
        place: support.place,
        details: { ...details, missing: support.missing, wavelength: nm(support.wavelength) },
      };
    }
    if (!support.broken.includes('loss') && !support.broken.includes('connections')) continue;
    // A loss that is only not known exceeds nothing; no light at all is known to be too little.
    if (support.loss === undefined && support.from !== 'reading') continue;
    const limit = support.lossLimit;
    yield {
      name: 'application-loss-exceeded',
      place: support.place,
      details: {
        ...details,
        because: support.tooMuch ?? support.because,
        from: support.from ?? 'design',
        ...(support.loss === undefined ? {} : { loss: exact(support.loss) }),
        ...(limit === undefined ? {} : { limit: db(limit) }),
        ...(support.loss === undefined || limit === undefined
          ? {}
          : { over: exact(subtractDb(support.loss, exactDb(limit))) }),
        ...(support.terms && { terms: heaviestInWords(support.terms) }),
        ...(support.longest !== undefined && { longest: toMetres(support.longest) }),
        ...(support.wavelength === undefined ? {} : { wavelength: nm(support.wavelength) }),
        ...(support.fibres.length === 0 ? {} : { fibres: numbersInWords(support.fibres) }),
      },
    };
  }
}

/** Ends of a tree further apart than what serves them bears. */
function* differentialTooGreat({ name, place, differential }: Support): Iterable<Doubt> {
  const { value, limit, highest, lowest, wavelength } = differential ?? {};
  if (value === undefined || limit === undefined || value <= exactDb(limit)) return;
  yield {
    name: 'differential-exceeded',
    place,
    details: {
      application: name,
      differential: exact(value),
      limit: db(limit),
      over: exact(subtractDb(value, exactDb(limit))),
      highest: highest ?? '',
      lowest: lowest ?? '',
      wavelength: nm(wavelength!),
    },
  };
}
