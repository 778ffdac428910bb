/**
 * How far the readings have come: a matrix a link, its fibres across, its
 * wavelengths and directions down; of a plan with many links one line a cable.
 * Links with work stand first.
 */
import type { FibreResult, LinkResult, ReadingResult, Verdict } from '../evaluate/result.ts';
import { isTree, placeName } from '../model/ways.ts';
import { byCable, cableOf } from './cable.ts';
import { count, key, listed, wavelength } from './figures.ts';
import type { TableView } from './question.ts';
import { columnsOf } from './rows/link.ts';
import type { Subject } from './subject.ts';
import { type Summary, summaryOf } from './summary.ts';
import { filterOf } from './table.ts';

/** From here on a plan has a line a cable. */
const linesFrom = 60;
/** Matrices that are made at once. */
const mostMatrices = 60;
/** Fibres are named one by one up to this many stretches. */
const mostStretches = 4;

export interface CoverageView {
  /** Empty where matrices say it. */
  readonly lines: readonly CoverageLine[];
  readonly matrices: readonly CoverageMatrix[];
  /** Links beyond the matrices made. */
  readonly more: number;
  readonly present: number;
  readonly expected: number;
  readonly toMake: number;
  readonly toRepeat: number;
}

/** All links that take fibres of one cable. */
export interface CoverageLine {
  /** Empty for links in no cable. */
  readonly cable: string;
  readonly links: number;
  readonly present: number;
  readonly expected: number;
  /** `15 to test`, `complete`. */
  readonly todo: string;
  readonly complete: boolean;
}

export interface CoverageMatrix {
  readonly name: string;
  readonly todo: string;
  /** `fibre 11 850 nm B>A`; empty where nothing is to be done. */
  readonly which: string;
  readonly complete: boolean;
  readonly fibres: readonly { readonly fibre: number; readonly label: string }[];
  readonly rows: readonly CoverageRow[];
}

export interface CoverageRow {
  readonly picometres: number;
  readonly wavelength: string;
  readonly direction: string;
  /** One a fibre; null: the plan asks for none. */
  readonly cells: readonly (Verdict | null)[];
}

/** `cable` takes its links alone, as matrices; '' those in none. */
export function coverageOf(subject: Subject, view: TableView, cable?: string): CoverageView {
  const keep = filterOf(view);
  const kept = subject.plan.result.order.flatMap((name) => {
    const link = subject.plan.result.link(name);
    const summary = link && summaryOf(link);
    const fibres = summary && keep(summary);
    return summary && fibres && fibres.length > 0 ? [{ summary, fibres }] : [];
  });
  const sum = (pick: (summary: Summary) => number) =>
    kept.reduce((total, { summary }) => total + pick(summary), 0);
  const chosen =
    cable === undefined ? kept : kept.filter(({ summary }) => cableOf(summary.result) === cable);
  const inLines = cable === undefined && kept.length > linesFrom;
  const sorted = inLines
    ? []
    : [...chosen].sort((a, b) => Number(workIn(b.summary) > 0) - Number(workIn(a.summary) > 0));
  return {
    lines: inLines ? linesOf(kept.map(({ summary }) => summary)) : [],
    matrices: sorted.slice(0, mostMatrices).map(({ summary, fibres }) => matrixOf(summary, fibres)),
    more: Math.max(0, sorted.length - mostMatrices),
    present: sum(({ result }) => result.present),
    expected: sum(({ result }) => result.expected),
    toMake: sum(({ result }) => result.counts.untested),
    toRepeat: sum(({ repeat }) => repeat),
  };
}

function workIn({ result, repeat }: Summary): number {
  return result.counts.untested + repeat;
}

function linesOf(summaries: readonly Summary[]): readonly CoverageLine[] {
  const groups = new Map<string, Summary[]>();
  for (const summary of summaries) {
    const cable = cableOf(summary.result);
    const group = groups.get(cable);
    if (group) group.push(summary);
    else groups.set(cable, [summary]);
  }
  return [...groups]
    .map(([cable, group]): CoverageLine => {
      const sum = (pick: (summary: Summary) => number) =>
        group.reduce((total, each) => total + pick(each), 0);
      const work = sum(workIn);
      return {
        cable,
        links: group.length,
        present: sum(({ result }) => result.present),
        expected: sum(({ result }) => result.expected),
        todo: todoOf(
          sum(({ result }) => result.counts.untested),
          sum(({ repeat }) => repeat),
        ),
        complete: work === 0,
      };
    })
    .sort((a, b) => Number(a.complete) - Number(b.complete) || byCable(a.cable, b.cable));
}

function todoOf(test: number, repeat: number): string {
  const parts = [
    test > 0 ? `${count(test)} to test` : '',
    repeat > 0 ? `${count(repeat)} to repeat` : '',
  ].filter(Boolean);
  return parts.length === 0 ? 'complete' : listed(parts);
}

function matrixOf({ result }: Summary, fibres: readonly FibreResult[]): CoverageMatrix {
  const readings = fibres.flatMap(({ current }) => current);
  const toTest = readings.filter(({ attempt }) => attempt === null);
  const toRepeat = readings.filter(({ verdict }) => verdict === 'invalid' || verdict === 'stale');
  const work = [...toTest, ...toRepeat];
  return {
    name: result.link.name,
    todo: todoOf(toTest.length, toRepeat.length),
    which: whichOf(result, fibres, work),
    complete: work.length === 0,
    fibres: fibres.map(({ fibre }) => ({ fibre, label: placeName(result.link, fibre) })),
    rows: columnsOf(result).flatMap(({ wavelength: at, directions }) =>
      directions.map((direction) => ({
        picometres: at,
        wavelength: wavelength(at),
        direction: direction ?? '',
        cells: fibres.map(
          ({ current }) =>
            current.find((each) => each.wavelength === at && each.direction === direction)
              ?.verdict ?? null,
        ),
      })),
    ),
  };
}

/** Which readings there are to make: `all fibres`, `fibre 7`, `fibres 3 to 5`, and at what. */
function whichOf(
  result: LinkResult,
  fibresOf: readonly FibreResult[],
  work: readonly ReadingResult[],
): string {
  if (work.length === 0) return '';
  const [only] = work;
  if (work.length === 1 && only) return `${placeName(result.link, only.fibre)} ${key(only)}`;
  const numbers = [...new Set(work.map(({ fibre }) => fibre))].sort((a, b) => a - b);
  const ends = isTree(result.link);
  const who =
    numbers.length === fibresOf.length
      ? ends
        ? 'all ends'
        : 'all fibres'
      : ends
        ? `${count(numbers.length)} ends`
        : inStretches(numbers);
  const keys = keysOf(work);
  const wanted = keysOf(fibresOf.flatMap(({ current }) => current));
  return keys.size === wanted.size ? who : `${who}, ${listed(inWords(keys, wanted))}`;
}

function keysOf(readings: readonly ReadingResult[]): ReadonlyMap<string, string> {
  return new Map(readings.map((each) => [key(each), wavelength(each.wavelength)]));
}

/** A wavelength of which every direction is meant stands for them. */
function inWords(
  keys: ReadonlyMap<string, string>,
  wanted: ReadonlyMap<string, string>,
): readonly string[] {
  const of = (all: ReadonlyMap<string, string>, at: string) =>
    [...all].filter(([, each]) => each === at).length;
  return [...new Set([...keys].map(([each, at]) => (of(keys, at) === of(wanted, at) ? at : each)))];
}

function inStretches(numbers: readonly number[]): string {
  const stretches: [number, number][] = [];
  for (const each of numbers) {
    const last = stretches.at(-1);
    if (last && each === last[1] + 1) last[1] = each;
    else stretches.push([each, each]);
  }
  if (stretches.length > mostStretches) return `${count(numbers.length)} fibres`;
  const words = stretches.map(([from, to]) =>
    from === to ? `${from}` : to === from + 1 ? `${from} and ${to}` : `${from} to ${to}`,
  );
  return `${numbers.length === 1 ? 'fibre' : 'fibres'} ${words.join(', ')}`;
}

/** The reading of a cell, of those that stand or are to be made. */
export function standingAt(
  result: LinkResult | undefined,
  fibre: number,
  at: number,
  direction: string,
): ReadingResult | undefined {
  return result?.fibres
    .find((each) => each.fibre === fibre)
    ?.current.find((each) => each.wavelength === at && (each.direction ?? '') === direction);
}
