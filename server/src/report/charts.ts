/**
 * How readings lie together: of one link by their loss against limit and
 * expectation, in the order of its fibres, and one wavelength against another;
 * of many links, whose limits differ, by their margins. Charts point somewhere
 * and judge nothing.
 */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import { boundsOf } from '../evaluate/bounds.ts';
import type { Doubt, LinkResult, ReadingResult, Verdict } from '../evaluate/result.ts';
import { sameWindow } from '../evaluate/thresholds.ts';
import { placeName } from '../model/ways.ts';
import { middleOf } from '../optics/index.ts';
import { decibels, key, microToDb, toDb, wavelength } from './figures.ts';
import { overallOf } from './head.ts';
import { fibreKey } from './keys.ts';
import type { TableView } from './question.ts';
import { lossText } from './rows/fibre.ts';
import { countsAlong, marginsByWavelength } from './spread.ts';
import { judgedAt, wavelengthsOf } from './strip.ts';
import type { Subject } from './subject.ts';
import { summaryOf } from './summary.ts';
import { filterOf } from './table.ts';
import type { ScaleView, Side } from './view.ts';

export interface ChartsView {
  /** Link or channel; undefined: all that filter and search leave. */
  readonly object?: string;
  readonly spread?: LossSpread;
  readonly courses: readonly Course[];
  readonly relation?: Relation;
  /** Of many links. */
  readonly margins?: MarginSpread;
}

/** A figure at its place on an axis. */
interface At {
  readonly loss: number;
  readonly figure: string;
}

export interface LossSpread {
  /** Width of a bin, dB. */
  readonly bin: number;
  readonly bands: readonly {
    readonly wavelength: string;
    readonly limit?: At;
    readonly expected?: At;
    /** From the least loss up; only those that hold a reading. */
    readonly bins: readonly LossBin[];
  }[];
}

export interface LossBin {
  /** Its lower edge, dB. */
  readonly from: number;
  readonly passes: number;
  /** Readings that are not pass, each by its verdict. */
  readonly others: readonly Verdict[];
}

export interface Point {
  readonly object: string;
  readonly fibre: number;
  /** `fibre 7`, or the port of an end. */
  readonly place: string;
  readonly direction: string;
  readonly side: Side;
  readonly picometres: number;
  readonly loss: number;
  /** `1.12` */
  readonly figure: string;
  /** `850 nm A>B` */
  readonly what: string;
  readonly verdict: Verdict;
  /** Its row in the table. */
  readonly row: string;
}

/** One wavelength in the order of the fibres. */
export interface Course {
  readonly nanometres: number;
  readonly wavelength: string;
  readonly limit?: At;
  readonly expected?: At;
  readonly fibres: readonly number[];
  readonly points: readonly Point[];
  /** Running median of five fibres, dB, one a fibre that was read. */
  readonly median: readonly { readonly fibre: number; readonly loss: number }[];
  /** Where another reference begins: before this fibre. */
  readonly changes: readonly { readonly fibre: number; readonly words: string }[];
  /** `rises 0.03 dB per fibre`, where a check says so. */
  readonly slope: string;
}

export interface Relation {
  readonly short: string;
  readonly long: string;
  readonly points: readonly (Point & {
    /** Loss at the shorter wavelength, dB; `loss` is that at the longer. */
    readonly across: number;
    readonly acrossFigure: string;
    /** `0.38 more at 1550 nm: bend?`; empty inside the band. */
    readonly outside: string;
  })[];
  /** What the longer usually loses less than the shorter, and how far from it is usual still, dB. */
  readonly usual?: { readonly less: number; readonly half: number };
  readonly limits: { readonly short?: At; readonly long?: At };
}

export interface MarginSpread {
  readonly scale: ScaleView;
  readonly bands: readonly {
    readonly wavelength: string;
    readonly read: number;
    readonly least: string;
    readonly most: string;
    /** Along the scale, equal widths. */
    readonly counts: readonly number[];
  }[];
}

const marginBins = 65;
/** In micro-decibel. */
const leastBin = 50_000;
const mostBins = 80;
/** Fibres whose median is taken. */
const window = 5;

export function chartsOf(
  subject: Subject,
  view: TableView,
  object: string | undefined,
): ChartsView {
  const result = object === undefined ? undefined : subject.plan.result.link(object);
  return result ? chartsOfLink(subject, view, result) : chartsOfMany(subject, view);
}

function chartsOfMany(subject: Subject, view: TableView): ChartsView {
  const { scale } = overallOf(subject, view);
  const keep = filterOf(view);
  const fibres = subject.plan.result.order.flatMap((name) => {
    const link = subject.plan.result.link(name);
    return (link && keep(summaryOf(link))) ?? [];
  });
  const bands = marginsByWavelength(fibres).map(({ label, margins }) => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const each of margins) {
      least = Math.min(least, each);
      most = Math.max(most, each);
    }
    return {
      wavelength: label,
      read: margins.length,
      least: least.toFixed(subject.display.precision).replace('-', '−'),
      most: most.toFixed(subject.display.precision).replace('-', '−'),
      counts: countsAlong(margins, scale.reach, marginBins),
    };
  });
  return { courses: [], ...(bands.length > 0 ? { margins: { scale, bands } } : {}) };
}

function chartsOfLink(subject: Subject, view: TableView, result: LinkResult): ChartsView {
  const hidden = new Set(view.hidden);
  const fibres = result.fibres.filter(({ verdict }) => !hidden.has(verdict));
  const points = new Map(
    wavelengthsOf(result).map((at) => [
      at,
      fibres.flatMap(({ current }) =>
        current.flatMap((reading) =>
          reading.wavelength === at && reading.loss !== undefined && reading.attempt !== null
            ? [pointOf(subject, result, reading)]
            : [],
        ),
      ),
    ]),
  );
  const spread = spreadOf(subject, result, points);
  const relation = relationOf(subject, result, points);
  return {
    object: result.link.name,
    ...(spread ? { spread } : {}),
    courses: [...points].flatMap(([at, all]) =>
      all.length === 0 ? [] : [courseOf(subject, result, at, all)],
    ),
    ...(relation ? { relation } : {}),
  };
}

function pointOf(subject: Subject, { link }: LinkResult, reading: ReadingResult): Point {
  const { fibre, direction, wavelength: at, loss, verdict } = reading;
  return {
    object: link.name,
    fibre,
    place: placeName(link, fibre),
    direction: direction ?? '',
    side: direction === 'A>B' ? 'up' : direction === 'B>A' ? 'down' : 'both',
    picometres: at,
    loss: microToDb(loss ?? 0),
    figure: lossText(reading, subject.display.precision),
    what: key(reading),
    verdict,
    row: fibreKey(link.name, fibre),
  };
}

type Points = ReadonlyMap<Picometres, readonly Point[]>;

/** Limit and expectation where all readings of a wavelength share them: ends of a tree do not. */
function linesAt(
  { display: { precision } }: Subject,
  result: LinkResult,
  at: Picometres,
): { readonly limit?: At; readonly expected?: At } {
  const used = new Set(
    result.fibres.flatMap(({ current }) =>
      current.flatMap(({ wavelength: own, limit }) =>
        own === at && limit?.value !== undefined ? [limit.value] : [],
      ),
    ),
  );
  const judged = judgedAt(result, at);
  const limit = used.size === 0 ? judged?.governing?.value : [...used][0];
  const expected = judged?.expected;
  if (used.size > 1 || result.ways.length > 0) return {};
  return {
    ...(limit === undefined
      ? {}
      : { limit: { loss: toDb(limit), figure: decibels(limit, precision) } }),
    ...(expected === undefined
      ? {}
      : { expected: { loss: toDb(expected), figure: decibels(expected, precision) } }),
  };
}

function spreadOf(subject: Subject, result: LinkResult, points: Points): LossSpread | undefined {
  const losses = [...points.values()].flat().map(({ loss }) => Math.round(loss * 1e6));
  const [least, most] = [Math.min(...losses), Math.max(...losses)];
  if (losses.length === 0) return undefined;
  let bin = leastBin;
  while ((most - least) / bin > mostBins) bin *= 2;
  return {
    bin: bin / 1e6,
    bands: [...points].flatMap(([at, all]) => {
      if (all.length === 0) return [];
      const bins = new Map<number, { passes: number; others: Verdict[] }>();
      for (const { loss, verdict } of all) {
        const from = Math.floor(Math.round(loss * 1e6) / bin) * bin;
        const own = bins.get(from) ?? { passes: 0, others: [] };
        if (verdict === 'pass') own.passes += 1;
        else own.others.push(verdict);
        bins.set(from, own);
      }
      return [
        {
          wavelength: wavelength(at),
          ...linesAt(subject, result, at),
          bins: [...bins]
            .sort(([a], [b]) => a - b)
            .map(([from, own]) => ({ from: from / 1e6, ...own })),
        },
      ];
    }),
  };
}

function courseOf(
  subject: Subject,
  result: LinkResult,
  at: Picometres,
  points: readonly Point[],
): Course {
  const fibres = [...new Set(points.map(({ fibre }) => fibre))];
  const means = fibres.map((fibre) => {
    const own = points.filter((point) => point.fibre === fibre);
    return own.reduce((sum, { loss }) => sum + loss, 0) / own.length;
  });
  const half = Math.floor(window / 2);
  return {
    nanometres: at / 1000,
    wavelength: wavelength(at),
    ...linesAt(subject, result, at),
    fibres,
    points,
    median:
      fibres.length < window
        ? []
        : fibres.map((fibre, index) => ({
            fibre,
            loss: middleOf(means.slice(Math.max(0, index - half), index + half + 1)),
          })),
    changes: changesOf(result, at, fibres),
    slope: slopeOf(result.doubts, at, fibres.length),
  };
}

/** Fibres from which on another reference holds, with the time of the first reading by it. */
function changesOf(
  result: LinkResult,
  at: Picometres,
  fibres: readonly number[],
): Course['changes'] {
  let before: string | undefined;
  return fibres.flatMap((number) => {
    const made = result.fibres
      .find(({ fibre }) => fibre === number)
      ?.current.find((each) => each.wavelength === at && each.reading);
    if (!made?.reading) return [];
    const now = `${made.setup} ${made.reference ?? ''}`;
    const changed = before !== undefined && before !== now;
    before = now;
    return changed ? [{ fibre: number, words: made.reading.at.text }] : [];
  });
}

/** The rise that a check found among these readings, a fibre. */
function slopeOf(doubts: readonly Doubt[], at: Picometres, fibres: number): string {
  const found = doubts.find(
    ({ name, details }) =>
      name === 'drift-while-testing' &&
      String(details.wavelengths)
        .split(' and ')
        .includes(String(at / 1000)),
  );
  if (!found || fibres < 2) return '';
  const { size, up, fibres: of } = found.details;
  const each = Number(size) / (Number(of) - 1);
  return `${Number(up) > 0 ? 'rises' : 'falls'} ${each.toFixed(3)} dB per fibre`;
}

/**
 * The longest against the shortest wavelength of another window. The band is
 * the one by which checks ask for a bend: on single-mode what the fibre loses
 * less at the longer wavelength, and the excess let pass; on multimode up to
 * the excess of the longer over the shorter. What chance adds is left out here.
 */
function relationOf(subject: Subject, result: LinkResult, points: Points): Relation | undefined {
  const read = [...points].filter(([, all]) => all.length > 0).map(([at]) => at);
  const [short] = read;
  const long = read.at(-1);
  if (short === undefined || long === undefined || sameWindow(short, long)) return undefined;
  const usual = usualOf(subject, result, short, long);
  const across = new Map(
    (points.get(short) ?? []).map((point) => [`${point.fibre} ${point.direction}`, point]),
  );
  const both = (points.get(long) ?? []).flatMap((point) => {
    const other = across.get(`${point.fibre} ${point.direction}`);
    if (!other) return [];
    const more = usual ? point.loss - other.loss + usual.less : 0;
    const far = usual && Math.abs(more) > usual.half + 1e-9;
    const words = `${Math.abs(more).toFixed(2)} ${more > 0 ? 'more' : 'less'} at ${wavelength(long)}`;
    return [
      {
        ...point,
        across: other.loss,
        acrossFigure: other.figure,
        outside: far ? `${words}${more > 0 ? ': bend?' : ''}` : '',
      },
    ];
  });
  const limits = [short, long].map((at) => linesAt(subject, result, at).limit);
  return both.length === 0
    ? undefined
    : {
        short: wavelength(short),
        long: wavelength(long),
        points: both,
        ...(usual ? { usual } : {}),
        limits: {
          ...(limits[0] ? { short: limits[0] } : {}),
          ...(limits[1] ? { long: limits[1] } : {}),
        },
      };
}

function usualOf(
  { plan }: Subject,
  result: LinkResult,
  short: Picometres,
  long: Picometres,
): Relation['usual'] {
  const { mode } = result.link;
  const [a, b] = [judgedAt(result, short)?.expected, judgedAt(result, long)?.expected];
  if (a === undefined || b === undefined || result.ways.length > 0) return undefined;
  const less = toDb(a) - toDb(b);
  const { bend, bendOfSlope, inversion } = boundsOf(plan.settings);
  if (mode === 'single-mode') {
    return { less, half: microToDb(bend) + (Math.max(0, less) * bendOfSlope) / 1e6 };
  }
  return mode === 'multimode'
    ? { less, half: Math.max(0, less) + microToDb(inversion) }
    : undefined;
}
