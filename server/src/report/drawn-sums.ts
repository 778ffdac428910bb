/**
 * The two sums that a drawing shows element by element: what may be lost, and
 * what should be. Where a limit adds up the parts, that limit; else the parts'
 * greatest figures; for a cable tested by itself, the limit of its readings;
 * for a channel that is not measured, what the light loses at most that its
 * transceivers send, else that its applications need.
 */
import type { ExactDb, MicroDb, Picometres } from '../../../grammar/src/quantity/index.ts';
import type { LimitKind, LinkResult, Term, WavelengthResult } from '../evaluate/result.ts';
import { judgedAt, wavelengthsOf } from './strip.ts';

export interface DrawnSums {
  /** Limit and design at the wavelength; undefined for a channel that is not measured. */
  readonly at?: WavelengthResult;
  readonly most?: {
    readonly value: ExactDb;
    /** Undefined: the greatest figures of the parts, which no limit states. */
    readonly kind?: LimitKind;
    readonly name: string;
  };
  readonly mostTerms: readonly Term[];
  readonly expectedTerms: readonly Term[];
}

/** Wavelengths that can be drawn: those with limits or readings, else those that transceivers send, else those of its applications. */
export function drawnWavelengths(result: LinkResult): readonly Picometres[] {
  const measured = wavelengthsOf(result);
  if (measured.length > 0) return measured;
  return [...new Set(lightOf(result).map(({ wavelength }) => wavelength))].sort((a, b) => a - b);
}

export function sumsAt(result: LinkResult, chosen: Picometres | undefined): DrawnSums {
  const at = chosen === undefined ? undefined : judgedAt(result, chosen);
  if (!at) return ofReadings(result, chosen) ?? ofLight(result, chosen);
  const own = [at.governing, ...at.limits].find(
    (limit) => limit?.value !== undefined && !limit.beside && limit.terms.some(addsUp),
  );
  const expectedTerms = at.expected === undefined ? [] : at.expectedTerms;
  if (own?.value !== undefined) {
    const most = { value: own.value, kind: own.kind, name: own.name };
    return { at, most, mostTerms: own.terms, expectedTerms };
  }
  const most = at.worst === undefined ? {} : { most: { value: at.worst, name: greatest } };
  return { at, ...most, mostTerms: at.worstTerms, expectedTerms };
}

const greatest = 'the greatest figures of its parts';

/** Of a cable nothing is designed: what its readings are held against. */
function ofReadings({ fibres }: LinkResult, chosen: Picometres | undefined): DrawnSums | undefined {
  const limits = fibres.flatMap(({ current }) =>
    current.flatMap(({ wavelength, limit }) => (wavelength === chosen && limit ? [limit] : [])),
  );
  const own = limits.find(({ value, terms }) => value !== undefined && terms.some(addsUp));
  if (own?.value === undefined) return undefined;
  const most = { value: own.value, kind: own.kind, name: own.name };
  return { most, mostTerms: own.terms, expectedTerms: [] };
}

interface Light {
  readonly wavelength: Picometres;
  readonly greatest?: ExactDb;
  readonly terms: readonly Term[];
}

/** What is sent through, in order of trust: by transceivers that are named, else by what is carried. */
function lightOf({ power, applications }: LinkResult): readonly Light[] {
  if (power.length > 0) {
    return power.map(({ wavelength, greatestLoss, terms }) => ({
      wavelength,
      ...(greatestLoss !== undefined && { greatest: greatestLoss }),
      terms: terms.filter(ofAPart),
    }));
  }
  return applications.flatMap(({ light }) => light);
}

function ofLight(result: LinkResult, chosen: Picometres | undefined): DrawnSums {
  const sent = lightOf(result).find(
    ({ wavelength, greatest }) => wavelength === chosen && greatest !== undefined,
  );
  if (sent?.greatest === undefined) return { mostTerms: [], expectedTerms: [] };
  return {
    most: { value: sent.greatest, name: greatest },
    mostTerms: sent.terms,
    expectedTerms: [],
  };
}

/** The least that any of its applications allows, of a channel that is not measured. */
export function allowedByApplication({ applications }: LinkResult): MicroDb | undefined {
  const limits = applications.flatMap(({ lossLimit }) => lossLimit ?? []);
  return limits.reduce<MicroDb | undefined>(
    (least, each) => (least !== undefined && least <= each ? least : each),
    undefined,
  );
}

/** Whether a limit is built from its parts; a contract may state one figure for the whole. */
function addsUp({ role }: Term): boolean {
  return ['fibre', 'pair', 'end-pair', 'splice'].includes(role);
}

function ofAPart({ role }: Term): boolean {
  return ['fibre', 'cord', 'pair', 'end-pair', 'splice', 'part'].includes(role);
}
