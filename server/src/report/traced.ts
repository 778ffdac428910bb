/**
 * What traces saw of the joints, laid on the path: each joint with the mean of
 * both directions where both were read, and the loss it brings the fibre to.
 * A trace tells joints apart and not the fibre between them: fibre, and joints
 * that no trace names, stand in the sum with what they are expected to lose.
 */
import {
  type ExactDb,
  exactDb,
  type Picometres,
  toMetres,
} from '../../../grammar/src/quantity/index.ts';
import type { EventResult, LinkResult, Verdict } from '../evaluate/result.ts';
import { placeName } from '../model/ways.ts';
import type { DrawnElement } from './elements.ts';
import { decibels, toDb } from './figures.ts';
import { rankOf } from './verdicts.ts';

/** One joint or fault as the fibres show it. */
export interface Traced {
  /** Index of the element it is taken for; undefined: a place where the path has none. */
  readonly element?: number;
  /** Metres from A by the trace, on the path's own scale. */
  readonly at: number;
  /** Of the fibre that loses most here. */
  readonly figure: string;
  readonly fibre: string;
  readonly verdict: Verdict;
  /** Loss up to and with it, dB, a fibre each. */
  readonly upTo: readonly { readonly loss: number; readonly verdict: Verdict }[];
}

interface Seen {
  readonly event: EventResult;
  /** Metres from A on the path's own scale. */
  readonly along: number;
  readonly element: number;
  readonly value: ExactDb;
}

/** Events and elements as far apart as this share of the path, or ten metres, are the same joint. */
const shareApart = 0.01;
const metresApart = 10;

export function tracedOn(
  result: LinkResult,
  at: Picometres,
  elements: readonly DrawnElement[],
  metres: number,
  places: number,
): readonly Traced[] {
  const reach = Math.max(metresApart, metres * shareApart);
  const scale = metres / (fibreLength(result) ?? metres);
  const seen = result.events
    .filter(({ quantity, wavelength }) => quantity === 'loss' && wavelength === at)
    .flatMap((event): Seen[] => {
      const value = lossOf(event);
      if (value === undefined) return [];
      const along = toMetres(event.distance) * scale;
      const element = nearest(event.kind, along, elements, reach);
      if (element >= 0 && !elements[element]?.counted) return [];
      return [{ event, along, element, value }];
    })
    .sort((a, b) => a.event.distance - b.event.distance);
  const sums = new Map(fibresOf(seen).flatMap((own) => sumsOf(own, elements)));
  return together(seen, elements).map((same): Traced => {
    const worst = same.reduce((a, b) => (b.value > a.value ? b : a));
    const { event, element, value } = worst;
    return {
      ...(element < 0 ? {} : { element }),
      at: Math.min(placeOn(worst, elements), metres),
      figure: decibels(value, places),
      fibre: placeName(result.link, event.fibre),
      verdict: same
        .map(({ event: { verdict } }) => verdict)
        .sort((a, b) => rankOf(a) - rankOf(b))[0]!,
      upTo: same.flatMap((each) => {
        const loss = sums.get(each);
        return loss === undefined ? [] : [{ loss, verdict: each.event.verdict }];
      }),
    };
  });
}

/** Along the fibre, which is longer than its cable; undefined where no trace tells its length. */
function fibreLength({ lengths }: LinkResult): number | undefined {
  const declared = lengths.find((each) => each.declared !== undefined)?.declared;
  return declared === undefined || declared === 0 ? undefined : toMetres(declared);
}

/** The mean of both directions, exactly; where only one was read, that. */
function lossOf({ sum, forward, back }: EventResult): ExactDb | undefined {
  if (sum !== undefined) return (exactDb(sum) / 2n) as ExactDb;
  const one = forward ?? back;
  return one === undefined ? undefined : exactDb(one.value);
}

const signsOf: Partial<Readonly<Record<EventResult['kind'], readonly DrawnElement['sign'][]>>> = {
  connector: ['pair', 'plug'],
  splice: ['fusion', 'splice'],
  splitter: ['splitter'],
};

/** Index of the nearest element of the event's kind; −1 where none is near. */
function nearest(
  kind: EventResult['kind'],
  along: number,
  elements: readonly DrawnElement[],
  reach: number,
): number {
  const signs = signsOf[kind] ?? [];
  let found = -1;
  let least = reach;
  for (const [index, { sign, at }] of elements.entries()) {
    const apart = Math.abs(at - along);
    if (signs.includes(sign) && apart <= least) {
      found = index;
      least = apart;
    }
  }
  return found;
}

function fibresOf(seen: readonly Seen[]): readonly (readonly Seen[])[] {
  const fibres = [...new Set(seen.map(({ event }) => event.fibre))];
  return fibres.map((fibre) => seen.filter(({ event }) => event.fibre === fibre));
}

/** Loss up to and with each event of one fibre, as long as all before it is known. */
function sumsOf(own: readonly Seen[], elements: readonly DrawnElement[]): [Seen, number][] {
  const matched = new Set(own.map(({ element }) => element));
  const sums: [Seen, number][] = [];
  let measured = 0;
  for (const each of own) {
    measured += toDb(each.value);
    const between = expectedBefore(each, elements, matched);
    if (between === undefined) break;
    sums.push([each, measured + between]);
  }
  return sums;
}

/** What fibre, and joints that the trace does not name, are expected to lose before an event. */
function expectedBefore(
  { along, element }: Seen,
  elements: readonly DrawnElement[],
  matched: ReadonlySet<number>,
): number | undefined {
  const here = element < 0 ? along : (elements[element]?.at ?? 0);
  let sum = 0;
  let before = 0;
  for (const [index, each] of elements.entries()) {
    if (each.at > here || (element >= 0 && index > element)) break;
    if (!each.counted) continue;
    if (!each.expected) return matched.has(index) ? sum : undefined;
    const share = each.expected.upTo - before;
    before = each.expected.upTo;
    if (matched.has(index)) continue;
    sum += each.length > 0 ? share * Math.min(1, (here - each.at) / each.length) : share;
  }
  return sum;
}

/** Events of all fibres at the same joint, or as near to each other as one. */
function together(
  seen: readonly Seen[],
  elements: readonly DrawnElement[],
): readonly (readonly Seen[])[] {
  const groups: Seen[][] = [];
  for (const each of seen) {
    const same = groups.find(([first]) =>
      first === undefined || each.element >= 0 || first.element >= 0
        ? first?.element === each.element
        : Math.abs(first.along - each.along) <= metresApart,
    );
    if (same) same.push(each);
    else groups.push([each]);
  }
  const at = ([first]: readonly Seen[]) => (first ? placeOn(first, elements) : 0);
  return groups.sort((a, b) => at(a) - at(b));
}

function placeOn({ along, element }: Seen, elements: readonly DrawnElement[]): number {
  return elements[element]?.at ?? Math.max(0, along);
}
