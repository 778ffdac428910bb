/**
 * A ring cut open at its first node: stations on one line by distance, the loss
 * that light sums up going round either way, and what it loses on the long way
 * when a span is lost.
 */
import { type ExactDb, type Picometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, WayResult } from '../evaluate/result.ts';
import { decibels, length, toDb } from './figures.ts';
import type { Subject } from './subject.ts';
import type { TextPlace } from './view.ts';

interface RingStation {
  readonly name: string;
  /** Metres from the first node, going round as the text does. */
  readonly at: number;
  /** Most allowed loss from the first node, going round either way; undefined from where a figure is missing. */
  readonly there?: number;
  readonly back?: number;
}

interface RingCut {
  /** `Operations room to Lighthouse`. */
  readonly span: string;
  readonly working: string;
  /** Undefined: no long way, for a node does not let light by. */
  readonly long?: {
    readonly length: string;
    readonly loss: number;
    readonly figure: string;
    /** Governing limit or budget it is held against. */
    readonly limit: string;
    readonly over: boolean;
  };
  readonly place?: TextPlace;
}

export interface RingDrawing {
  readonly stations: readonly RingStation[];
  readonly metres: number;
  readonly cuts: readonly RingCut[];
  readonly limit?: { readonly loss: number; readonly figure: string };
}

export function ringOf(subject: Subject, result: LinkResult, at: Picometres): RingDrawing {
  const { precision } = subject.display;
  const spans = result.ways.filter(({ kind }) => kind === 'span');
  const names = (result.link.nodes ?? []).map(({ name }) => name);
  const losses = spans.map((span) => worstOf(span, at));
  const lengths = spans.map((span) => (span.length === undefined ? 0 : toMetres(span.length)));
  const there = summed(losses);
  const back = summed(losses.toReversed()).toReversed();
  let metres = 0;
  const stations = [...names, names[0] ?? ''].map((name, index): RingStation => {
    if (index > 0) metres += lengths[index - 1] ?? 0;
    const [up, down] = [there[index], back[index]];
    return {
      name,
      at: metres,
      ...(up === undefined ? {} : { there: up }),
      ...(down === undefined ? {} : { back: down }),
    };
  });
  const cuts = spans.map((span): RingCut => {
    const long = result.ways.find(({ kind, way }) => kind === 'long-way' && way.cut === span.name);
    const place = subject.plan.locate(span.way.place);
    const working = waveOf(span, at)?.worst;
    return {
      span: span.name,
      working: working === undefined ? '' : decibels(working, precision),
      ...(long ? { long: longWay(subject, long, at) } : {}),
      ...(place ? { place } : {}),
    };
  });
  const limit = sharedLimit(result.ways, at);
  return {
    stations,
    metres,
    cuts,
    ...(limit ? { limit: { loss: toDb(limit), figure: decibels(limit, precision) } } : {}),
  };
}

const waveOf = (way: WayResult, at: Picometres) =>
  way.wavelengths.find(({ wavelength }) => wavelength === at);

function worstOf(way: WayResult, at: Picometres): number | undefined {
  const worst = waveOf(way, at)?.worst;
  return worst === undefined ? undefined : toDb(worst);
}

/** Loss before each station and behind the last; undefined from where a span has none. */
function summed(losses: readonly (number | undefined)[]): (number | undefined)[] {
  let sum: number | undefined = 0;
  return [
    0,
    ...losses.map((loss) => {
      sum = sum === undefined || loss === undefined ? undefined : sum + loss;
      return sum;
    }),
  ];
}

function longWay(subject: Subject, way: WayResult, at: Picometres): RingCut['long'] {
  const { precision } = subject.display;
  const wave = waveOf(way, at);
  if (wave?.worst === undefined) return undefined;
  const limit = applicationLimit(way, at);
  return {
    length: way.length === undefined ? '' : length(way.length, subject.display),
    loss: toDb(wave.worst),
    figure: decibels(wave.worst, precision),
    limit: limit === undefined ? '' : decibels(limit, precision),
    over: limit !== undefined && wave.worst > limit,
  };
}

function applicationLimit(way: WayResult, at: Picometres): ExactDb | undefined {
  return waveOf(way, at)?.limits.find(({ kind, beside }) => kind === 'application' && !beside)
    ?.value;
}

/** The application's limit, where all ways have the same. */
function sharedLimit(ways: readonly WayResult[], at: Picometres): ExactDb | undefined {
  const [first, ...rest] = ways.map((way) => applicationLimit(way, at));
  return rest.every((limit) => limit === first) ? first : undefined;
}
