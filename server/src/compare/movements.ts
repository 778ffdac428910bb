/**
 * All that is another in the results of one object: each key of its readings by
 * the one that stands, its design at each wavelength, what it carries, and the
 * object as a whole. What is equal on both sides is left out.
 */
import type { ExactDb } from '../../../grammar/src/quantity/index.ts';
import type {
  ApplicationResult,
  FibreResult,
  LinkResult,
  PowerResult,
  ReadingResult,
  WavelengthResult,
} from '../evaluate/result.ts';
import type { Direction } from '../model/types.ts';
import type { ObjectPair } from './objects.ts';
import type {
  DesignStanding,
  Effect,
  ObjectStanding,
  ReadingKey,
  Standing,
  SupportStanding,
} from './types.ts';

/** An effect before anybody has asked where it comes from. */
export type Uncaused = Effect extends infer One
  ? One extends Effect
    ? Omit<One, 'causes'>
    : never
  : never;

/** An effect with the results that it was read from. */
export type Movement = { readonly pair: ObjectPair } & (
  | (Sides<StandingReading> & { readonly kind: 'reading'; readonly key: ReadingKey })
  | (Sides<WavelengthResult> & {
      readonly kind: 'design';
      readonly direction?: Direction;
      readonly way?: string;
    })
  | (Sides<Support> & {
      readonly kind: 'application';
      readonly application: string;
      readonly way?: string;
    })
  | (Sides<LinkResult> & { readonly kind: 'object' })
);

interface Sides<Side> {
  readonly before?: Side;
  readonly after?: Side;
}

/** A reading that stands, or one that is to be made. */
export interface StandingReading {
  readonly result: ReadingResult;
  readonly quantity: ReadingKey['quantity'];
  readonly end?: string;
}

export interface Support {
  readonly result: ApplicationResult;
  readonly power: readonly PowerResult[];
}

/** In this order: the object, its readings, its design, what it carries. */
export function movementsOf(pair: ObjectPair): readonly Movement[] {
  const { before, after } = pair;
  const key = after ?? before;
  if (!key || before === after) return none;
  const known = compared.get(key);
  if (known && samePair(known.pair, pair)) return known.movements;
  const found = [
    ...objectMoved(pair),
    ...readingsMoved(pair),
    ...designMoved(pair),
    ...supportMoved(pair),
  ];
  const movements = found.length > 0 ? found : none;
  compared.set(key, { pair, movements });
  return movements;
}

/** The last comparison of each result: an editor asks for all of a plan after each key, and few are others. */
const compared = new WeakMap<
  LinkResult,
  { readonly pair: ObjectPair; readonly movements: readonly Movement[] }
>();
const none: readonly Movement[] = [];

function samePair(a: ObjectPair, b: ObjectPair): boolean {
  return (
    a.before === b.before && a.after === b.after && a.name === b.name && a.formerly === b.formerly
  );
}

// ---- what is shown of a side

export function objectStanding({
  verdict,
  expected,
  present,
  accepted,
  waitsFor,
  length,
}: LinkResult): ObjectStanding {
  return {
    verdict,
    expected,
    present,
    accepted,
    waitsFor,
    ...(length !== undefined && { length }),
  };
}

export function standing({ result }: StandingReading): Omit<Standing, 'place'> {
  const { verdict, limit, margin, attempt, expectedSet, reading } = result;
  const loss = result.loss ?? reading?.reflectance;
  return {
    verdict,
    ...(loss !== undefined && { loss }),
    ...(limit?.value !== undefined && { limit: limit.value }),
    ...(limit && { governing: limit.name }),
    ...(margin !== undefined && { margin }),
    attempt,
    expected: expectedSet,
  };
}

export function designStanding(result: WavelengthResult): DesignStanding {
  const { expected, worst, governing, designMargin } = result;
  return {
    ...(expected !== undefined && { expected }),
    ...(worst !== undefined && { worst }),
    ...(governing?.value !== undefined && { limit: governing.value }),
    ...(governing && { governing: governing.name }),
    ...(designMargin !== undefined && { margin: designMargin }),
  };
}

export function supportStanding({ result, power }: Support): SupportStanding {
  const powerMargin = least(power.map(({ margin }) => margin));
  const overloadMargin = least(power.map((one) => one.overloadMargin));
  return {
    support: result.support,
    ...(result.row !== undefined && { row: result.row }),
    ...(powerMargin !== undefined && { powerMargin }),
    ...(overloadMargin !== undefined && { overloadMargin }),
  };
}

function least(margins: readonly (ExactDb | undefined)[]): ExactDb | undefined {
  let worst: ExactDb | undefined;
  for (const margin of margins) {
    if (margin !== undefined && (worst === undefined || margin < worst)) worst = margin;
  }
  return worst;
}

/** Flat, of plain values: equal where each of them is. */
function differ(a: object | undefined, b: object | undefined): boolean {
  if (!a || !b) return a !== b;
  const [before, after] = [Object.entries(a), b as Readonly<Record<string, unknown>>];
  return (
    before.length !== Object.keys(b).length ||
    before.some(([key, value]) => value !== after[key] && !sameNames(value, after[key]))
  );
}

function sameNames(a: unknown, b: unknown): boolean {
  return Array.isArray(a) && Array.isArray(b) && a.join() === b.join();
}

// ---- each kind

function* objectMoved(pair: ObjectPair): Iterable<Movement> {
  const { before, after } = pair;
  if (differ(before && objectStanding(before), after && objectStanding(after))) {
    yield { kind: 'object', pair, ...sides(before, after) };
  }
}

function* readingsMoved(pair: ObjectPair): Iterable<Movement> {
  const [before, after] = [pair.before, pair.after].map((side) => side && standingReadings(side));
  for (const { before: was, after: is } of matched(before, after)) {
    if (!differ(was && standing(was), is && standing(is))) continue;
    const { result, quantity } = (is ?? was)!;
    const { fibre, wavelength, direction } = result;
    const key: ReadingKey = {
      object: pair.name,
      fibre,
      quantity,
      wavelength,
      ...(direction && { direction }),
    };
    yield { kind: 'reading', pair, key, ...sides(was, is) };
  }
}

/** By key; an end of a tree is the same one whatever number it has. */
function standingReadings(result: LinkResult): ReadonlyMap<string, StandingReading> {
  const found = new Map<string, StandingReading>();
  const ends = endsOf(result.fibres);
  const take = (one: ReadingResult, quantity: ReadingKey['quantity']) => {
    const end = ends.get(one.fibre);
    const key = [quantity, end ?? one.fibre, one.wavelength, one.direction ?? ''].join(' ');
    if (!found.has(key))
      found.set(key, { result: one, quantity, ...(end !== undefined && { end }) });
  };
  for (const { current } of result.fibres) for (const one of current) take(one, 'loss');
  for (const one of result.reflectances) if (one.current) take(one, 'reflectance');
  return found;
}

/** By fibre, the port that names it; none where two bear the same name. */
function endsOf(fibres: readonly FibreResult[]): ReadonlyMap<number, string> {
  const named = fibres.flatMap(({ fibre, end }) =>
    end === undefined ? [] : [[fibre, end] as const],
  );
  return new Set(named.map(([, end]) => end)).size === named.length ? new Map(named) : new Map();
}

function* designMoved(pair: ObjectPair): Iterable<Movement> {
  const [before, after] = [pair.before, pair.after].map((side) => side && designs(side));
  const ways = new Set([...(after?.keys() ?? []), ...(before?.keys() ?? [])]);
  for (const way of ways) {
    for (const one of directed(before?.get(way) ?? [], after?.get(way) ?? [])) {
      const { before: was, after: is, direction } = one;
      if (!differ(was && designStanding(was), is && designStanding(is))) continue;
      yield {
        kind: 'design',
        pair,
        ...sides(was, is),
        ...(direction && { direction }),
        ...(way !== undefined && { way }),
      };
    }
  }
}

/** By way of light; undefined: there is one only. */
function designs(result: LinkResult): ReadonlyMap<string | undefined, readonly WavelengthResult[]> {
  return result.ways.length > 0
    ? new Map(result.ways.map((way) => [way.name, way.wavelengths]))
    : new Map([[undefined, result.wavelengths]]);
}

/** Where one side tells the directions apart and the other does not, what holds both ways is beside each. */
function directed(
  before: readonly WavelengthResult[],
  after: readonly WavelengthResult[],
): readonly (Sides<WavelengthResult> & { readonly direction?: Direction })[] {
  const wavelengths = new Set([...after, ...before].map(({ wavelength }) => wavelength));
  return [...wavelengths].flatMap((wavelength) => {
    const [old, now] = [before, after].map((side) =>
      side.filter((one) => one.wavelength === wavelength),
    );
    const apart = [...now!, ...old!].some(({ direction }) => direction);
    const directions: readonly (Direction | undefined)[] = apart ? ['A>B', 'B>A'] : [undefined];
    return directions.map((direction) => {
      const of = (side: readonly WavelengthResult[]) =>
        side.find((one) => one.direction === undefined || one.direction === direction);
      return { ...sides(of(old!), of(now!)), ...(direction && { direction }) };
    });
  });
}

function* supportMoved(pair: ObjectPair): Iterable<Movement> {
  const [before, after] = [pair.before, pair.after].map((side) => side && supports(side));
  for (const { before: was, after: is } of matched(before, after)) {
    if (!differ(was && supportStanding(was), is && supportStanding(is))) continue;
    const { result, way } = (is ?? was)!;
    yield {
      kind: 'application',
      pair,
      application: result.name,
      ...sides<Support>(was, is),
      ...(way !== undefined && { way }),
    };
  }
}

function supports(result: LinkResult): ReadonlyMap<string, Support & { readonly way?: string }> {
  const found = new Map<string, Support & { readonly way?: string }>();
  const take = (
    applications: readonly ApplicationResult[],
    power: readonly PowerResult[],
    way?: string,
  ) => {
    for (const one of applications) {
      const key = `${way ?? ''}\n${one.name}`;
      if (found.has(key)) continue;
      found.set(key, {
        result: one,
        power: power.filter(({ application }) => application === one.name),
        ...(way !== undefined && { way }),
      });
    }
  };
  take(result.applications, result.power);
  for (const way of result.ways) take(way.applications, way.power, way.name);
  return found;
}

// ---- both sides beside each other

/** By key, in order of the new side; what is gone comes last. */
function* matched<Side>(
  before: ReadonlyMap<string, Side> = new Map(),
  after: ReadonlyMap<string, Side> = new Map(),
): Iterable<Sides<Side>> {
  for (const [key, is] of after) yield sides(before.get(key), is);
  for (const [key, was] of before) if (!after.has(key)) yield sides(was, undefined);
}

function sides<Side>(before: Side | undefined, after: Side | undefined): Sides<Side> {
  return { ...(before !== undefined && { before }), ...(after !== undefined && { after }) };
}
