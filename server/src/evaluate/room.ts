/**
 * What room a design leaves: how long a path may be for what it carries, by
 * reach and by loss, and how many pairs more it bears. Worked out when asked.
 *
 *   longest by reach = reach − the other lengths
 *   longest by loss  = (loss allowed − all that is no fibre of the stretch) ÷ α
 *
 * Source: the length formula of equipment makers' manuals (budget − joints −
 * reserve) ÷ dB/km, and rows of IEEE 802.3 of which all terms hold at once.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  fibreLoss,
  lengthWithExcess,
  type MicroDb,
  type Micrometres,
  microDb,
  micrometres,
  type PartsPerMillion,
  type Picometres,
  type RatePerKm,
  subtractDb,
  timesDb,
} from '../../../grammar/src/quantity/index.ts';
import type {
  ApplicationRow,
  ApplicationType,
  Carried,
  Direction,
  Place,
  Way,
} from '../model/types.ts';
import { longestFibre } from '../optics/index.ts';
import { type Context, contextOf, type EvaluationInput } from './context.ts';
import type { Figures } from './figures.ts';
import { leastLoss } from './least.ts';
import { lightPathsOf } from './light-paths.ts';
import { hasUnknownLength } from './living.ts';
import { fibresOf, lengthsOf, type Piece } from './path.ts';
import { rowInWords, usableRows } from './rows.ts';
import { connectionsSum, wholeSum } from './sums.ts';
import { figuresFor } from './support-design.ts';
import { thinMargin } from './thresholds.ts';

/** How long one stretch of a path may be by one row of an application, all else as it is. */
export interface Room {
  readonly application: string;
  readonly place: Place;
  /** Of a tree or ring the way that has the least room. */
  readonly way?: string;
  /** The row that leaves most. */
  readonly row: string;
  /** The stretch that is asked about: the longest that is no cord. */
  readonly stretch: { readonly fibre: string; readonly length: Micrometres; readonly place: Place };
  /** Lengths of all other fibre, cords included, along the fibre. */
  readonly others: Micrometres;
  readonly byReach?: { readonly reach: Micrometres; readonly longest: Micrometres };
  readonly byLoss?: LossRoom;
  /** The most that the stretch may be; undefined: it may be of any length. Zero where `never` says why. */
  readonly longest?: Micrometres;
  readonly never?: string;
  readonly left?: Left;
  /** The row, or a figure of the loss, is from memory. */
  readonly recalled: boolean;
}

/** Loss allowed less all that is not the stretch, over its rate. */
export interface LossRoom {
  readonly wavelength: Picometres;
  readonly direction: Direction;
  readonly allowed: MicroDb;
  readonly fixed: ExactDb;
  readonly rate: RatePerKm;
  readonly longest: Micrometres;
}

/** What the row allows less the greatest loss, where least is left; and how many pairs more go into that. */
export interface Left {
  readonly wavelength: Picometres;
  readonly loss: ExactDb;
  /** So much should be left. */
  readonly wanted: ExactDb;
  readonly pairs?: { readonly name: string; readonly each: MicroDb; readonly more: number };
}

/** One for each thing that an object carries and whose lengths are all known. */
export function roomOf(input: EvaluationInput): readonly Room[] {
  const context = contextOf(input);
  const { link } = context;
  return link.terms.carries.flatMap((carried) => {
    const { application } = carried;
    if (!application) return [];
    const all = pathsAsked(context, carried).flatMap(({ way, ...path }) => {
      const room = roomOn(path, carried, application);
      return room ? [{ ...room, ...(way && { way: way.name }) }] : [];
    });
    const least = all.reduce<Room | undefined>(
      (a, b) => (a === undefined || spare(b) < spare(a) ? b : a),
      undefined,
    );
    return least ? [least] : [];
  });
}

/** What should be left of a loss that is allowed: as the plan wants it, else a share of it, and at most so much. */
export function marginWanted(allowed: MicroDb, wanted: MicroDb | undefined): ExactDb {
  const share = Math.round((allowed * thinMargin.share) / 1e6);
  return exactDb(wanted ?? microDb(Math.min(share, thinMargin.most)));
}

function spare({ longest, never, stretch }: Room): number {
  if (never !== undefined) return -Infinity;
  return longest === undefined ? Infinity : longest - stretch.length;
}

interface Asked {
  readonly context: Context;
  readonly pieces: readonly Piece[];
}

/** Every path that light of a service takes, with what lies outside the object. */
function pathsAsked(
  context: Context,
  carried: Carried,
): readonly (Asked & { readonly way?: Way })[] {
  const { link } = context;
  const ways: readonly (Way | undefined)[] = link.ways.length > 0 ? link.ways : [undefined];
  return ways.flatMap((way) => {
    if (hasUnknownLength(way ?? link)) return [];
    const own = way ? context.alongWay(way) : context;
    return lightPathsOf(own, carried, way).map((path) => ({ ...path, way }));
  });
}

type Stretch = Extract<Piece, { kind: 'fibre' }> & { readonly length: Micrometres };

function roomOn(path: Asked, carried: Carried, application: ApplicationType): Room | undefined {
  const stretch = stretchOf(path.pieces);
  const along = lengthsOf(path.pieces).along;
  if (!stretch || along === undefined || path.context.path.unknown) return undefined;
  const others = micrometres(along - (stretch.along ?? stretch.length));
  const lights = lightsOf(path, application, stretch);
  if (!lights) return undefined;
  const base = {
    application: application.name,
    place: carried.place,
    stretch: { fibre: stretch.name, length: stretch.length, place: stretch.place },
    others,
  };
  const rooms = usableRows(application, path.pieces).map((row): Room => {
    const byReach =
      row.reach === undefined
        ? undefined
        : { reach: row.reach, longest: beneath(row.reach - others, stretch.excess) };
    const byLoss = lossRoom(row, lights);
    const longest = lesser(byReach?.longest, byLoss?.longest);
    const never = neverHolds(row, path, lights, stretch, { byReach, byLoss, longest });
    return {
      ...base,
      row: rowInWords(row),
      ...(byReach && { byReach }),
      ...(byLoss && { byLoss }),
      longest: never === undefined ? longest : micrometres(0),
      ...(never !== undefined && { never }),
      left: leftBy(row, path, lights, stretch),
      recalled:
        row.trust === 'recalled' ||
        (row.loss !== undefined && lights.some(({ recalled }) => recalled)),
    };
  });
  return rooms.reduce<Room | undefined>(
    (best, room) => (best === undefined || spare(room) > spare(best) ? room : best),
    undefined,
  );
}

/** The longest that is no cord; the longest of all where there are only cords. */
function stretchOf(pieces: readonly Piece[]): Stretch | undefined {
  const known = fibresOf(pieces).filter((piece): piece is Stretch => piece.length !== undefined);
  const installed = known.filter(({ cord }) => !cord);
  const among = installed.length > 0 ? installed : known;
  return among.reduce<Stretch | undefined>(
    (a, b) => (a === undefined || b.length > a.length ? b : a),
    undefined,
  );
}

interface Light {
  readonly sent: Picometres;
  readonly line: Picometres;
  readonly direction: Direction;
  readonly figures: Figures;
  readonly rate: RatePerKm;
  /** All that the path loses but the stretch. */
  readonly fixed: ExactDb;
  readonly recalled: boolean;
}

/** Undefined where a figure is missing at one of them: then no loss is known. */
function lightsOf(
  { context, pieces }: Asked,
  application: ApplicationType,
  stretch: Stretch,
): readonly Light[] | undefined {
  const both: readonly Direction[] = ['A>B', 'B>A'];
  const lights = application.wavelengths.flatMap((light) => {
    const { wavelength, line, figures } = figuresFor(context, pieces, light.wavelength);
    const found = figures.rate(stretch.name, stretch.type);
    return (light.direction ? [light.direction] : both).map((direction): Light | undefined => {
      const sum = wholeSum(pieces, figures, direction, wavelength);
      if (!found || 'because' in sum) return undefined;
      const rate = found.each as RatePerKm;
      const fixed = subtractDb(sum.value, fibreLoss(rate, stretch.length));
      const recalled = sum.terms.some(({ trust }) => trust === 'recalled');
      return { sent: light.wavelength, line, direction, figures, rate, fixed, recalled };
    });
  });
  return lights.every((light) => light !== undefined) ? lights : undefined;
}

/** The light that ends first; undefined where the row allows any loss, or the stretch loses nothing. */
function lossRoom({ loss }: ApplicationRow, lights: readonly Light[]): LossRoom | undefined {
  if (loss === undefined) return undefined;
  const rooms = lights.flatMap(({ sent, direction, rate, fixed }): LossRoom[] => {
    const longest = longestFibre(exactDb(loss), fixed, rate);
    if (longest === undefined) return [];
    return [{ wavelength: sent, direction, allowed: loss, fixed, rate, longest }];
  });
  return rooms.reduce<LossRoom | undefined>(
    (a, b) => (a === undefined || b.longest < a.longest ? b : a),
    undefined,
  );
}

/** Why a row holds at no length of the stretch; undefined where it does. */
function neverHolds(
  row: ApplicationRow,
  { pieces }: Asked,
  lights: readonly Light[],
  stretch: Stretch,
  { byReach, byLoss, longest }: Pick<Room, 'byReach' | 'byLoss' | 'longest'>,
): string | undefined {
  if (byReach && byReach.longest <= 0) return 'the rest of the path reaches that far already';
  if (row.loss !== undefined) {
    const over = lights.some(({ fixed }) => fixed > exactDb(row.loss!));
    if (over || byLoss?.longest === 0)
      return 'what is not this fibre takes all of the loss already';
  }
  if (row.connections !== undefined) {
    const most = exactDb(row.connections);
    const over = lights.some(
      ({ figures }) => (connectionsSum(pieces, figures) ?? most + 1n) > most,
    );
    if (over) return 'its connections alone may lose too much';
  }
  if (row.min === undefined || longest === undefined) return undefined;
  const grown = pieces.map((piece) =>
    piece === stretch ? { ...piece, length: longest, along: longest } : piece,
  );
  const least = exactDb(row.min);
  return lights.some(({ line }) => leastLoss(grown, line) < least)
    ? 'at no length that it reaches does it surely lose enough'
    : undefined;
}

type Pair = Extract<Piece, { kind: 'pair' | 'plug' }>;

/** What the row leaves at the length that is planned. */
function leftBy(
  row: ApplicationRow,
  { context, pieces }: Asked,
  lights: readonly Light[],
  stretch: Stretch,
): Left | undefined {
  const { loss, connections } = row;
  if (loss === undefined) return undefined;
  const pair = commonest(pieces);
  const wanted = marginWanted(loss, context.link.terms.margin);
  let least: Left | undefined;
  let more: number | undefined;
  let each: MicroDb | undefined;
  for (const { sent, figures, rate, fixed } of lights) {
    const left = subtractDb(exactDb(loss), addDb(fixed, fibreLoss(rate, stretch.length)));
    if (least === undefined || left < least.loss) least = { wavelength: sent, loss: left, wanted };
    const found = pair && figures.pair(pair.name, pair.type, 'installed');
    if (!found || found.each <= 0) continue;
    const joints = connectionsSum(pieces, figures);
    const bearable =
      connections === undefined || joints === undefined
        ? left
        : lesserDb(left, subtractDb(exactDb(connections), joints));
    const fits = bearable < 0n ? 0 : Number(bearable / timesDb(exactDb(found.each as MicroDb), 1));
    if (more === undefined || fits < more) [more, each] = [fits, found.each as MicroDb];
  }
  if (!least || !pair || more === undefined || each === undefined) return least;
  return { ...least, pairs: { name: pair.name, each, more } };
}

function commonest(pieces: readonly Piece[]): Pair | undefined {
  const pairs = pieces.filter((piece): piece is Pair => piece.kind === 'pair');
  const count = (name: string) => pairs.filter((pair) => pair.name === name).length;
  return [...pairs].sort((a, b) => count(b.name) - count(a.name))[0];
}

/** The longest cable whose fibre is no longer than a reach, to a micrometre. */
function beneath(reach: number, excess: PartsPerMillion | undefined): Micrometres {
  if (reach <= 0) return micrometres(0);
  if (excess === undefined) return micrometres(reach);
  let length = Number((BigInt(reach) * 1_000_000n) / (1_000_000n + BigInt(excess)));
  while (lengthWithExcess(micrometres(length + 1), excess) <= reach) length += 1;
  while (length > 0 && lengthWithExcess(micrometres(length), excess) > reach) length -= 1;
  return micrometres(length);
}

function lesser(a: Micrometres | undefined, b: Micrometres | undefined): Micrometres | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return a < b ? a : b;
}

function lesserDb(a: ExactDb, b: ExactDb): ExactDb {
  return a < b ? a : b;
}
