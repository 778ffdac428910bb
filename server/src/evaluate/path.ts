/**
 * The path of a link or channel laid out flat, from A to B: fibres, pairs,
 * splices and parts in the order light meets them, with the links that a
 * channel crosses opened up.
 */
import {
  addLengths,
  lengthWithExcess,
  type Micrometres,
  micrometres,
  type PartsPerMillion,
} from '../../../grammar/src/quantity/index.ts';
import type {
  ComponentType,
  ConnectorType,
  FibreType,
  LinkModel,
  PathElement,
  Place,
  Repair,
  SpliceType,
  SplitterType,
  Way,
} from '../model/types.ts';
import { isTree } from '../model/ways.ts';

export type Piece =
  | {
      readonly kind: 'fibre';
      readonly name: string;
      readonly type?: FibreType;
      /** Length that limits use; undefined where it is missing. */
      readonly length?: Micrometres;
      /** Length along the fibre, for reach: with the excess of the cable. */
      readonly along?: Micrometres;
      /** Of the cable, by which it is the longer. */
      readonly excess?: PartsPerMillion;
      readonly cord: boolean;
      /** The fibre before it in a list is not the one light comes from: a link that is left out lies between. */
      readonly apart?: boolean;
      readonly place: Place;
    }
  | {
      readonly kind: 'pair' | 'plug';
      readonly name: string;
      readonly type?: ConnectorType;
      /** Where it lies, as the path says it. */
      readonly at?: string;
      readonly place: Place;
    }
  | {
      readonly kind: 'splice';
      readonly name: string;
      readonly type?: SpliceType;
      readonly at?: string;
      readonly place: Place;
    }
  | {
      readonly kind: 'part';
      readonly name: string;
      readonly type?: ComponentType;
      /** First and second kind as they stand from A to B; undefined for a part that joins nothing. */
      readonly joins?: readonly [string, string];
      readonly place: Place;
    }
  | {
      readonly kind: 'split';
      readonly name: string;
      readonly type?: SplitterType;
      /** The output that light takes; undefined where the path stops at it. */
      readonly out?: number;
      readonly place: Place;
    };

/** What stands at an end: decides whether a test cord makes a pair there, and which. */
export type End =
  | {
      readonly kind: 'socket';
      readonly name: string;
      readonly type?: ConnectorType;
      /** The part that owns the pair, where it is the outer kind of one that joins two. */
      readonly part?: Extract<Piece, { kind: 'part' }>;
    }
  | { readonly kind: 'plug'; readonly name?: string; readonly type?: ConnectorType }
  /** A part whose own figure holds its joints. */
  | { readonly kind: 'part' }
  /** Nothing written: reported elsewhere. */
  | { readonly kind: 'open' };

export interface FlatPath {
  readonly pieces: readonly Piece[];
  readonly ends: { readonly A: End; readonly B: End };
  /** Everything between the ends: pairs that are end pairs are left out, joining parts keep theirs. */
  readonly inside: readonly Piece[];
  /** A link of a channel is unknown, or a name could not be found: no sum can be trusted. */
  readonly unknown?: string;
}

/**
 * The path that all light of a link takes, or one of its ways, with what repairs
 * put in behind it: where along the path they lie changes no sum.
 */
export function flatten(
  link: LinkModel,
  way: Way | undefined = undefined,
  repairs: readonly Repair[] = [],
): FlatPath {
  const unknown: string[] = [];
  const own = piecesOf(way ? { ...link, path: way.path } : link, false, unknown);
  const pieces = repairs.length > 0 ? repaired(own, repairs) : own;
  const ends = { A: endAt(pieces[0], 0), B: endAt(pieces.at(-1), 1) };
  const first = pieces[0]?.kind === 'pair' ? 1 : 0;
  const last = pieces.length > 1 && pieces.at(-1)?.kind === 'pair' ? 1 : 0;
  return { pieces, ends, inside: pieces.slice(first, pieces.length - last), unknown: unknown[0] };
}

/**
 * What lies outside a link in a channel that crosses it. A pair at a port that
 * two links share belongs to the link asked about. Undefined if the channel
 * does not cross it.
 */
export function outsideOf(channel: LinkModel, link: string): readonly Piece[] | undefined {
  const pieces: Piece[] = [];
  const cuts = [0];
  let crosses = false;
  let after = false;
  for (const element of channel.path) {
    if (element.kind !== 'link') {
      pieces.push(pieceOf(element, false));
      after = false;
      continue;
    }
    if (element.name === link) {
      crosses = true;
      if (pieces.at(-1)?.kind === 'pair' && firstOf(element)?.kind === 'connector') pieces.pop();
      cuts.push(pieces.length);
      after = true;
      continue;
    }
    const crossed = asCrossed(element);
    const other = crossed ? piecesOf(crossed, element.turned, []) : [];
    pieces.push(...(after && other[0]?.kind === 'pair' ? other.slice(1) : other));
    after = false;
  }
  return crosses ? parted(pieces, cuts) : undefined;
}

/** What a channel adds to the links it crosses: its cords, and pairs and parts written in it. */
export function channelOnly(channel: Pick<LinkModel, 'path'>): readonly Piece[] {
  const pieces: Piece[] = [];
  const cuts: number[] = [];
  for (const element of channel.path) {
    if (element.kind === 'link') cuts.push(pieces.length);
    else pieces.push(pieceOf(element, false));
  }
  return parted(pieces, cuts);
}

/** Of each link that a path crosses, the pair at the port that it shares with the link behind it; undefined where it shares none. */
export function pairsShared({ path }: Pick<LinkModel, 'path'>): readonly (Piece | undefined)[] {
  const ends = path.map((element) => {
    if (element.kind !== 'link') return undefined;
    const crossed = asCrossed(element);
    const pieces = crossed ? piecesOf(crossed, element.turned, []) : [];
    return { near: pieces[0], far: pieces.at(-1) };
  });
  return ends.flatMap((end, index) => {
    if (!end) return [];
    const next = ends[index + 1];
    return [end.far?.kind === 'pair' && next?.near?.kind === 'pair' ? end.far : undefined];
  });
}

/** The first fibre from each cut on said to lie apart from what stands before it. */
function parted(pieces: readonly Piece[], cuts: readonly number[]): readonly Piece[] {
  const first = new Set(
    cuts.map((cut) => pieces.findIndex(({ kind }, index) => index >= cut && kind === 'fibre')),
  );
  return pieces.map((piece, index) =>
    piece.kind === 'fibre' && first.has(index) ? { ...piece, apart: true } : piece,
  );
}

/** Before the last piece, so that what closes the path goes on closing it. */
function repaired(pieces: readonly Piece[], repairs: readonly Repair[]): readonly Piece[] {
  return [...pieces.slice(0, -1), ...repairs.flatMap(putIn), ...pieces.slice(-1)];
}

/** What a repair put in. */
export function putIn({ path }: Repair): readonly Piece[] {
  return path.flatMap((element) => (element.kind === 'link' ? [] : [pieceOf(element, false)]));
}

/** Sum of the lengths that limits use, and along the fibre; undefined where one is missing. */
export function lengthsOf(pieces: readonly Piece[]): {
  readonly cable?: Micrometres;
  readonly along?: Micrometres;
} {
  let cable: Micrometres | undefined = micrometres(0);
  let along: Micrometres | undefined = micrometres(0);
  for (const piece of pieces) {
    if (piece.kind !== 'fibre') continue;
    cable =
      cable !== undefined && piece.length !== undefined
        ? addLengths(cable, piece.length)
        : undefined;
    along =
      along !== undefined && piece.along !== undefined ? addLengths(along, piece.along) : undefined;
  }
  return { cable, along };
}

/** Fibres of the path in order, cords included. */
export function fibresOf(pieces: readonly Piece[]): readonly Extract<Piece, { kind: 'fibre' }>[] {
  return pieces.filter((piece) => piece.kind === 'fibre');
}

/** Whether two different core sizes of one mode meet: light then loses in one direction only. */
export function hasCoreStep(pieces: readonly Piece[]): boolean {
  const cores = new Set(fibresOf(pieces).map((piece) => piece.type?.core));
  return cores.size > 1 && !cores.has(undefined);
}

/** Object of a link's evidence: one with a plug at both ends is an assembly (retest bands differ by it). */
export function objectOf(link: LinkModel): 'assembly' | 'link' | 'channel' {
  if (link.kind === 'channel') return 'channel';
  return link.path[0]?.kind === 'plug' && link.path.at(-1)?.kind === 'plug' ? 'assembly' : 'link';
}

type Crossing = Extract<PathElement, { kind: 'link' }>;

/** The link as light crosses it: of a tree to the end whose number is taken. */
function asCrossed({ link, fibres }: Crossing): LinkModel | undefined {
  if (!link || !isTree(link)) return link;
  const [end] = fibres ?? link.fibres;
  const way = link.ways.find(({ fibre }) => fibre === end);
  return way ? { ...link, path: way.path } : link;
}

function piecesOf(link: LinkModel, turned: boolean, unknown: string[]): Piece[] {
  const pieces: Piece[] = [];
  const last = link.path.length - 1;
  link.path.forEach((element, index) => {
    if (element.kind === 'link') {
      const link = asCrossed(element);
      if (!link) {
        unknown.push(element.name);
        return;
      }
      const crossed = piecesOf(link, element.turned, unknown);
      // Two links that meet at one port share its adapter: one pair.
      const shared = pieces.at(-1)?.kind === 'pair' && crossed[0]?.kind === 'pair';
      pieces.push(...(shared ? crossed.slice(1) : crossed));
      return;
    }
    pieces.push(pieceOf(element, index === 0 && last > 0));
  });
  return turned ? pieces.reverse().map(turnedPiece) : pieces;
}

function pieceOf(element: Exclude<PathElement, { kind: 'link' }>, begins: boolean): Piece {
  const { name, place } = { name: '', ...element };
  switch (element.kind) {
    case 'connector':
      return { kind: 'pair', name, type: element.type, at: element.at, place };
    case 'plug':
      return { kind: 'plug', name, type: element.type, place };
    case 'splice':
      return { kind: 'splice', name, type: element.type, at: element.at, place };
    case 'component': {
      // The second kind looks outward, at the port: first where a path begins, last elsewhere.
      const joins = element.type?.joins;
      const swapped = begins !== (element.turned ?? false);
      return {
        kind: 'part',
        name,
        type: element.type,
        joins: joins && (swapped ? [joins[1], joins[0]] : joins),
        place,
      };
    }
    case 'split':
      return { kind: 'split', name: element.splitter, type: element.type, out: element.out, place };
    case 'segment':
      return {
        kind: 'fibre',
        name: element.fibreName,
        type: element.fibre,
        length: element.length,
        along:
          element.length !== undefined && element.cable?.excess !== undefined
            ? lengthWithExcess(element.length, element.cable.excess)
            : element.length,
        ...(element.cable?.excess !== undefined && { excess: element.cable.excess }),
        cord: false,
        place,
      };
    case 'cord':
      return {
        kind: 'fibre',
        name: element.fibreName,
        type: element.fibre,
        length: element.length,
        along: element.length,
        cord: true,
        place,
      };
  }
}

function firstOf(element: Crossing): PathElement | undefined {
  const path = asCrossed(element)?.path;
  return element.turned ? path?.at(-1) : path?.[0];
}

function turnedPiece(piece: Piece): Piece {
  return piece.kind === 'part' && piece.joins
    ? { ...piece, joins: [piece.joins[1], piece.joins[0]] }
    : piece;
}

function endAt(piece: Piece | undefined, outer: 0 | 1): End {
  switch (piece?.kind) {
    case 'pair':
      return { kind: 'socket', name: piece.name, type: piece.type };
    case 'plug':
      return { kind: 'plug', name: piece.name, type: piece.type };
    case 'part':
      return piece.joins
        ? { kind: 'socket', name: piece.joins[outer], part: piece }
        : { kind: 'part' };
    case 'fibre':
      return piece.cord ? { kind: 'plug' } : { kind: 'open' };
    default:
      return { kind: 'open' };
  }
}
