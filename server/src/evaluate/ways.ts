/**
 * Ways of light through a tree or a ring, each judged by itself: what its parts
 * lose, whether it carries what the link carries, and what arrives. Ways of the
 * same parts are worked out once.
 */
import {
  compareDb,
  type ExactDb,
  exactDb,
  type Picometres,
  printExactDb,
  subtractDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ApplicationType, LinkModel, Way } from '../model/types.ts';
import type { Context } from './context.ts';
import { type Arrangements, designOf } from './design.ts';
import type { ReadingLimit } from './limits.ts';
import { hasUnknownLength } from './living.ts';
import { lengthsOf } from './path.ts';
import { powerOf } from './power.ts';
import type { Differential, WavelengthResult, WayResult } from './result.ts';
import type { RowTerm } from './rows.ts';
import type { Settled } from './settle.ts';
import { signalOf } from './signal.ts';
import { applicationOf, type Support, supportOf, worstSupport } from './support.ts';

export interface WaysJudged {
  readonly ways: readonly WayResult[];
  readonly worst?: WayResult;
  /** One per `carries`: of the way that bears it least, with how far the ends of a tree lie apart. */
  readonly supports: readonly Support[];
  /** What there is to say of those: for each thing that an application asks, the way that fails it most. */
  readonly told: readonly Support[];
}

export function judgeWays(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  arrangements: Arrangements,
): WaysJudged {
  const { link } = context;
  const wavelengths = wavelengthsOf(link);
  const byEnd = settledByFibre(settled);
  const shared = new Map<Context, Pick<WayResult, 'length' | 'wavelengths' | 'power' | 'signal'>>();
  const alone = outsideOfSome(context);
  const supports: { readonly way: Way; readonly answers: readonly Support[] }[] = [];
  const ways = link.ways.map((way): WayResult => {
    const own = context.alongWay(way);
    let alike = shared.get(own);
    if (!alike) {
      alike = {
        length: hasUnknownLength(way) ? undefined : lengthsOf(own.path.pieces).cable,
        wavelengths: designOf(own, arrangements, wavelengths),
        power: powerOf(own, way),
        signal: signalOf(own, wavelengths, way),
      };
      shared.set(own, alike);
    }
    const readings = way.fibre === undefined ? undefined : byEnd.get(way.fibre);
    const answers = supportOf(own, readings ?? new Map(), way);
    supports.push({ way, answers });
    return {
      name: way.name,
      kind: way.kind,
      way,
      ...alike,
      ...(alike.wavelengths.some(holdsForSome) && {
        wavelengths: designOf(own, arrangements, wavelengths, way.fibre),
      }),
      ...(alone && { power: powerOf(own, way), signal: signalOf(own, wavelengths, way) }),
      applications: answers.map(applicationOf),
    };
  });
  const byService = link.terms.carries.map((carried) =>
    supports.flatMap(({ way, answers }) =>
      answers.filter((answer) => answer.carried === carried).map((answer) => ({ way, answer })),
    ),
  );
  const all = byService.map(ofAllWays);
  return {
    ways,
    worst: worstOf(ways),
    supports: all.flat(),
    told: all.flatMap((answer, service) => [
      ...answer.map((one): Support => ({ ...one, broken: [], least: undefined })),
      ...failing(byService[service] ?? []),
    ]),
  };
}

/** Some ends carry what others do not, or have other cords: light to each is asked by itself. */
function outsideOfSome({ input, link }: Context): boolean {
  return (input.channels ?? []).length > 0 || link.terms.carries.some(({ fibres }) => fibres);
}

/** A limit of it holds for some ends only: those that a channel goes on from. */
function holdsForSome({ limits }: WavelengthResult): boolean {
  return (limits as readonly ReadingLimit[]).some(({ fibres }) => fibres !== undefined);
}

/** A ring is measured span by span: without `measure` of its own it is asked where its links are, and where its light is. */
function wavelengthsOf({ kind, terms, path }: LinkModel): readonly Picometres[] {
  if (kind !== 'ring' || terms.measure.length > 0) return terms.measure;
  const measured = path.flatMap((element) =>
    element.kind === 'link' ? (element.link?.terms.measure ?? []) : [],
  );
  const sent = terms.carries.flatMap(
    ({ application }) => application?.wavelengths.map(({ wavelength }) => wavelength) ?? [],
  );
  return [...new Set([...measured, ...sent])].sort((a, b) => a - b);
}

function settledByFibre(
  settled: ReadonlyMap<string, Settled>,
): ReadonlyMap<number, ReadonlyMap<string, Settled>> {
  const groups = new Map<number, Map<string, Settled>>();
  for (const [key, one] of settled) {
    const fibre = one.attempts[0]?.measurement.cell.fibre;
    if (fibre === undefined) continue;
    const group = groups.get(fibre) ?? new Map<string, Settled>();
    groups.set(fibre, group.set(key, one));
  }
  return groups;
}

// ---- the worst of them

/** Of a tree the way with the least design margin; of a ring the long way that loses most. */
function worstOf(ways: readonly WayResult[]): WayResult | undefined {
  const long = ways.filter(({ kind }) => kind === 'long-way');
  if (ways.some(({ kind }) => kind !== 'branch')) {
    return most(long.length > 0 ? long : ways, (way) => greatestOf(way.wavelengths));
  }
  const margins = ways.map(({ wavelengths }) => leastMargin(wavelengths));
  const least = margins.reduce(
    (a, b) => (a === undefined || (b !== undefined && b < a) ? b : a),
    undefined,
  );
  const nearest = ways.filter((_, index) => margins[index] === least);
  return most(nearest, (way) => greatestOf(way.wavelengths));
}

function most<Item>(
  items: readonly Item[],
  lossOf: (item: Item) => ExactDb | undefined,
): Item | undefined {
  let best: { item: Item; value: ExactDb | undefined } | undefined;
  for (const item of items) {
    const value = lossOf(item);
    const more = value !== undefined && (best?.value === undefined || value > best.value);
    if (!best || more) best = { item, value };
  }
  return best?.item;
}

function greatestOf(wavelengths: readonly WavelengthResult[]): ExactDb | undefined {
  return most(wavelengths, ({ worst }) => worst)?.worst;
}

function leastMargin(wavelengths: readonly WavelengthResult[]): ExactDb | undefined {
  let least: ExactDb | undefined;
  for (const { designMargin } of wavelengths) {
    if (designMargin !== undefined && (least === undefined || compareDb(designMargin, least) < 0))
      least = designMargin;
  }
  return least;
}

// ---- what is carried, over all ways

interface Answer {
  readonly way: Way;
  readonly answer: Support;
}

function ofAllWays(answers: readonly Answer[]): readonly Support[] {
  const worst = worstSupport(answers.map(({ answer }) => answer));
  const found = answers.find(({ answer }) => answer === worst);
  if (!worst || !found) return [];
  const application = worst.carried.application;
  const isEnd = found.way.kind === 'branch';
  const differential = isEnd && application ? differentialOf(answers, application) : undefined;
  const named: Support = {
    ...worst,
    way: found.way.name,
    because: `${found.way.name}: ${worst.because}`,
    ...(differential && { differential }),
  };
  const { highest, lowest, value, limit } = differential ?? {};
  const bears = value === undefined || limit === undefined || value <= exactDb(limit);
  if (bears || worst.support === 'not supported') return [named];
  const because = `${highest} and ${lowest} may lie ${printExactDb(value)} dB apart, and ${printExactDb(exactDb(limit))} dB is allowed`;
  return [{ ...named, support: 'not supported', because, broken: [] }];
}

/** For each term that some ways break the one that breaks it most, and how many more do. */
function failing(answers: readonly Answer[]): readonly Support[] {
  const most: Readonly<Record<RowTerm, (support: Support) => bigint | number>> = {
    fibre: () => 0,
    reach: ({ length }) => length ?? 0,
    loss: ({ loss }) => loss ?? zeroDb,
    connections: ({ loss }) => loss ?? zeroDb,
    'least loss': ({ least }) => -(least ?? zeroDb),
  };
  return (Object.keys(most) as RowTerm[]).flatMap((term) => {
    const broken = answers.filter(({ answer }) => answer.broken.includes(term));
    const [first, ...others] = broken;
    if (!first) return [];
    const worst = others.reduce(
      (a, b) => (most[term](b.answer) > most[term](a.answer) ? b : a),
      first,
    );
    const more = others.length > 0 ? ` and ${others.length} more` : '';
    return [
      {
        ...worst.answer,
        way: `${worst.way.name}${more}`,
        because: `${worst.way.name}${more}: ${worst.answer.because}`,
        ...(worst.answer.tooMuch !== undefined && {
          tooMuch: `${worst.way.name}${more}: ${worst.answer.tooMuch}`,
        }),
        broken: [term],
        least: term === 'least loss' ? worst.answer.least : undefined,
      },
    ];
  });
}

/**
 * The greatest loss of any end less the least of any other, at the wavelength
 * where that is most: what a receiver that serves them in turn has to bear
 * (differential optical path loss, ITU-T G.984.2 and G.9807.1).
 */
function differentialOf(
  answers: readonly Answer[],
  application: ApplicationType,
): Differential | undefined {
  const limit = application.rows.find((row) => row.differential !== undefined)?.differential;
  let worst: Differential | undefined;
  for (const { wavelength } of application.wavelengths) {
    const at = answers.flatMap(({ way, answer }) =>
      answer.light
        .filter((light) => light.wavelength === wavelength)
        .map(({ greatest, least }) => ({ name: way.name, greatest, least })),
    );
    const one = apart(at);
    if (one && (!worst || one.value > worst.value)) worst = { wavelength, ...one, limit };
  }
  return worst;
}

interface Bounds {
  readonly name: string;
  readonly greatest?: ExactDb;
  readonly least: ExactDb;
}

/** The two ends that may lie furthest apart: with the two highest and the two lowest every pair is met. */
function apart(bounds: readonly Bounds[]): Omit<Differential, 'wavelength' | 'limit'> | undefined {
  const byLoss = bounds
    .filter(({ greatest }) => greatest !== undefined)
    .sort((a, b) => compareDb(b.greatest!, a.greatest!));
  const byLeast = [...bounds].sort((a, b) => compareDb(a.least, b.least));
  let worst: Omit<Differential, 'wavelength' | 'limit'> | undefined;
  for (const high of firstTwo(byLoss)) {
    for (const low of firstTwo(byLeast)) {
      if (high.name === low.name || high.greatest === undefined) continue;
      const value = subtractDb(high.greatest, low.least);
      if (!worst || value > worst.value) worst = { value, highest: high.name, lowest: low.name };
    }
  }
  return worst;
}

/** The first two ends: one of them may be sent to in both directions. */
function firstTwo(bounds: readonly Bounds[]): readonly Bounds[] {
  const [first] = bounds;
  const second = bounds.find(({ name }) => name !== first?.name);
  return [first, second].filter((one) => one !== undefined);
}
