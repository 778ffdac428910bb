/**
 * Where light comes out: the product of all maps along a link or channel, and
 * whether that is the right pair and the right side.
 *
 * Place 1 of a duplex port sends and place 2 receives, so what leaves at place
 * p of a port of n must arrive at place n + 1 − p of the port it belongs to
 * (duplex and array polarity of the TIA-568 and ISO/IEC 11801 families). An odd
 * number of crossings is necessary and not enough. No loss proves any of it.
 */
import type { Carried, LinkModel, PathElement, Place, Way } from '../model/types.ts';
import { numbersInWords } from './doubts.ts';
import { across, type Through, through, throughPath } from './maps-along.ts';
import { portAt } from './ports.ts';
import type { Arrival, Doubt } from './result.ts';

/** One per fibre, in their order; empty where no map stands in the path. */
export function arrivalsOf(link: LinkModel): readonly Arrival[] {
  if (link.kind === 'ring' || link.kind === 'section' || link.ways.length > 0) return [];
  const { places, mapped } = through(link);
  if (!mapped) return [];
  const wanted = wantedOf(link);
  return link.fibres.map((fibre, index) => {
    const place = places[index];
    return {
      fibre,
      place,
      port: portAt(link, 'B', fibre, index),
      wanted: wanted.get(index + 1)?.place,
    };
  });
}

// ---- right pair, right side

interface Wanted {
  readonly place: number;
  /** Places of the equipment's port: 2 of a duplex one. */
  readonly port: number;
  /** Lanes of the service. */
  readonly lanes: number;
}

/** By place at A: where its light should arrive. Only a channel and a way round a ring reach from equipment to equipment. */
function wantedOf(link: LinkModel): ReadonlyMap<number, Wanted> {
  const wanted = new Map<number, Wanted>();
  if (link.kind !== 'channel' && link.kind !== 'ring') return wanted;
  const n = link.fibres.length;
  const services: readonly (Carried | undefined)[] =
    link.terms.carries.length > 0 ? link.terms.carries : [undefined];
  for (const carried of services) {
    // Two places of a channel that says nothing of what it carries are a pair.
    const lanes = carried ? carried.application?.count : n === 2 ? 2 : undefined;
    if (lanes === undefined) continue;
    const port = portSize(link, lanes);
    if (n % port !== 0) continue;
    const lit = new Set(carried?.fibres ?? link.fibres);
    for (const [index, fibre] of link.fibres.entries()) {
      if (!lit.has(fibre)) continue;
      const base = Math.floor(index / port) * port;
      wanted.set(index + 1, { place: base + port - (index - base), port, lanes });
    }
  }
  return wanted;
}

/** A duplex port holds a pair; one of several lanes all places of its array, dark ones too. */
function portSize(link: LinkModel, lanes: number): number {
  const n = link.fibres.length;
  if (lanes <= 2) return lanes;
  const named = link.from.length > 0 ? n / link.from.length : NaN;
  if (Number.isInteger(named) && named >= lanes) return named;
  const array = Math.max(0, ...link.path.flatMap((element) => arraysOf(element)));
  if (array >= lanes && n % array === 0) return array;
  return n % lanes === 0 ? lanes : n;
}

function arraysOf(element: PathElement): readonly number[] {
  if (element.kind === 'link') return element.link?.path.flatMap(arraysOf) ?? [];
  if (element.kind === 'connector' || element.kind === 'plug')
    return [element.type?.positions ?? 1];
  return [];
}

/** Light that goes astray in a link, meets a transmitter, or arrives in another pair or order. */
export function* doubtsOfPolarity(link: LinkModel, arrivals: readonly Arrival[]): Iterable<Doubt> {
  if (link.kind === 'ring') yield* doubtsOfRing(link);
  if (arrivals.length === 0) return;
  if (link.kind === 'link') yield* doubtsOfPairs(link, arrivals);
  if (link.kind !== 'channel') return;
  const along = through(link);
  yield* astray(link, along);
  yield* misled(along, {
    name: link.name,
    place: link.namePlace,
    wanted: wantedOf(link),
    related: mapsAlong(link.path, link.fibres.length),
  });
}

/**
 * Each span of a ring, and then the long ways, whose light crosses once for each
 * span and for each cord that lets it by and crosses. A way that begins or ends
 * in a bare link says nothing of the cords to the equipment: it is not judged.
 */
function* doubtsOfRing(link: LinkModel): Iterable<Doubt> {
  const wanted = wantedOf(link);
  const n = link.fibres.length;
  const wrongOn = (way: Way, more = 0): readonly Doubt[] => {
    const corded = way.path[0]?.kind === 'cord' && way.path.at(-1)?.kind === 'cord';
    if (!corded) return [];
    const others = more > 0 ? `, and ${more} more` : '';
    return [
      ...misled(throughPath(way.path, n), {
        name: `${link.name}, ${way.name}${others}`,
        place: way.place,
        wanted,
        related: mapsAlong(way.path, n),
      }),
    ];
  };
  const spans = link.ways.filter(({ kind }) => kind === 'span');
  for (const span of spans) yield* astray(link, throughPath(span.path, n));
  const wrong = spans.flatMap((span) => wrongOn(span));
  yield* wrong;
  if (wrong.length > 0) return;
  // Long ways are wrong alike where each span is right: said once.
  const long = link.ways.filter((way) => way.kind === 'long-way' && wrongOn(way).length > 0);
  const [first] = long;
  if (first) yield* wrongOn(first, long.length - 1);
}

/** Light that comes out of a link where the path does not go on from. */
function* astray(link: LinkModel, { lost }: Through): Iterable<Doubt> {
  for (const { crossing, entered, out, taken } of lost) {
    yield {
      name: 'comes-out-elsewhere',
      place: crossing.place,
      details: {
        channel: link.name,
        link: crossing.name,
        entered: listInWords(entered),
        out: listInWords(out),
        taken: listInWords(taken),
        lights: entered.length,
      },
    };
  }
}

interface Judged {
  readonly name: string;
  readonly place: Place;
  readonly wanted: ReadonlyMap<number, Wanted>;
  readonly related: Doubt['related'];
}

function* misled({ places, mapped }: Through, judged: Judged): Iterable<Doubt> {
  if (!mapped) return;
  const wrong = places.flatMap((place, index) => {
    const should = judged.wanted.get(index + 1);
    if (!should || place === undefined || place === should.place) return [];
    return [{ left: index + 1, place, should }];
  });
  const say = (name: string, all: typeof wrong): Doubt => {
    // Of a pair, place 1 sends: what the other end sends goes wrong alike.
    const sending = all.filter(({ left, should }) => should.lanes > 2 || left % 2 === 1);
    const some = sending.length > 0 ? sending : all;
    return {
      name,
      place: judged.place,
      related: judged.related,
      details: {
        channel: judged.name,
        left: listInWords(some.map(({ left }) => left)),
        arrives: listInWords(some.map(({ place }) => place)),
        wanted: listInWords(some.map(({ should }) => should.place)),
        places: some.length,
        // Sides agree where sent light arrives at a place that receives.
        sides: some.every(({ place, should }) => place % 2 === should.place % 2)
          ? 'right'
          : 'wrong',
      },
    };
  };
  const lanes = wrong.filter(({ should }) => should.lanes > 2);
  const duplex = wrong.filter(({ should }) => should.lanes <= 2);
  const pairOf = (place: number, { port }: Wanted) => Math.ceil(place / port);
  const elsewhere = duplex.filter(
    ({ place, should }) => pairOf(place, should) !== pairOf(should.place, should),
  );
  const back = duplex.filter((one) => !elsewhere.includes(one));
  if (back.length > 0) yield say('pair-order-broken', back);
  if (elsewhere.length > 0) yield say('arrives-at-wrong-pair', elsewhere);
  if (lanes.length > 0) yield say('lanes-out-of-order', lanes);
}

/** Two fibres of a duplex port that no duplex cord can take at the other end: they come out at two ports. */
function* doubtsOfPairs(link: LinkModel, arrivals: readonly Arrival[]): Iterable<Doubt> {
  if (endsInArray(link)) return;
  for (const carried of link.terms.carries) {
    if (carried.application?.count !== 2) continue;
    const lit = new Set(carried.fibres ?? link.fibres);
    const parted = arrivals.flatMap((first, index) => {
      const second = arrivals[index + 1];
      if (index % 2 === 1 || !second || !lit.has(first.fibre) || !lit.has(second.fibre)) return [];
      if (first.place === undefined || second.place === undefined) return [];
      return Math.ceil(first.place / 2) === Math.ceil(second.place / 2) ? [] : [{ first, second }];
    });
    const [one] = parted;
    if (!one) continue;
    const { first, second } = one;
    yield {
      name: 'pair-parted',
      place: carried.place,
      related: mapsAlong(link.path, link.fibres.length),
      details: {
        link: link.name,
        application: carried.name,
        first: first.fibre,
        second: second.fibre,
        firstPlace: first.place ?? 0,
        secondPlace: second.place ?? 0,
        pairs: parted.length,
      },
    };
  }
}

/** Whether its end B is an array: its places are no duplex ports. */
function endsInArray({ path }: LinkModel): boolean {
  const last = path.at(-1);
  if (last?.kind === 'component') {
    const face = last.type?.joined?.[last.turned ? 0 : 1];
    return (face?.positions ?? 1) > 1;
  }
  return last?.kind === 'connector' || last?.kind === 'plug'
    ? (last.type?.positions ?? 1) > 1
    : true;
}

/** What changes places on the way, where it stands, in words. */
function mapsAlong(
  path: LinkModel['path'],
  n: number,
): readonly { readonly place: Place; readonly message: string }[] {
  return path.flatMap((element) => {
    if (element.kind === 'cord') {
      const map = typeof element.map === 'object' ? mapInWords(element.map) : element.map;
      return [{ place: element.place, message: `this cord: ${map ?? 'not said'}` }];
    }
    if (element.kind === 'segment' && element.map) {
      return [{ place: element.place, message: `this segment: ${mapInWords(element.map)}` }];
    }
    if (element.kind === 'component' && element.map) {
      return [{ place: element.place, message: `${element.name}: ${mapInWords(element.map)}` }];
    }
    if (element.kind !== 'link' || !element.link) return [];
    const crossed = across(element, n, []);
    if (!crossed.mapped) return [];
    const places = crossed.places.map((place) => place ?? NaN);
    return [{ place: element.place, message: `${element.name}: ${mapInWords(places)}` }];
  });
}

/** `straight`, `1 -> 2, 2 -> 1`, at most eight places of it. */
function mapInWords(map: readonly number[]): string {
  if (map.every((to, index) => to === index + 1)) return 'straight';
  const shown = map
    .slice(0, 8)
    .map((to, index) => `${index + 1} -> ${Number.isNaN(to) ? 'not known' : to}`);
  return map.length > 8 ? `${shown.join(', ')} …` : shown.join(', ');
}

/** Numbers in their order, runs drawn together either way: `12..9`, `1, 3`. */
function listInWords(numbers: readonly number[]): string {
  const ascending = numbers.every((number, index) => index === 0 || number > numbers[index - 1]!);
  if (ascending) return numbersInWords(numbers);
  const falling = numbers.every(
    (number, index) => index === 0 || number === numbers[index - 1]! - 1,
  );
  if (falling && numbers.length > 2) return `${numbers[0]} down to ${numbers.at(-1)}`;
  return numbers.join(', ');
}

/** The map of a link or channel end to end, as it is written in a hover; undefined where none stands in it. */
function wholeMapInWords(arrivals: readonly Arrival[]): string | undefined {
  if (arrivals.length === 0) return undefined;
  if (arrivals.every(({ place }) => place === undefined)) return 'not known';
  return mapInWords(arrivals.map(({ place }) => place ?? NaN));
}

/** `1 -> 12, 2 -> 11 …: right pair, right side`, where what a channel carries says which that is. */
export function polarityInWords(arrivals: readonly Arrival[]): string | undefined {
  const map = wholeMapInWords(arrivals);
  if (map === undefined) return undefined;
  const judged = arrivals.filter(({ wanted }) => wanted !== undefined);
  if (judged.length === 0 || judged.some(({ place }) => place === undefined)) return map;
  const right = judged.every(({ place, wanted }) => place === wanted);
  return `${map}: ${right ? 'as it must be' : 'not as it must be'}`;
}
