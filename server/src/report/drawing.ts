/**
 * The drawing of a link: its path over distance, what each element may lose
 * and should lose, and where the readings lie against the limit at the end.
 */
import {
  exactDb,
  type Picometres,
  picometres,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';
import type {
  Limit,
  LimitKind,
  LinkResult,
  SupportWord,
  WavelengthResult,
} from '../evaluate/result.ts';
import { allocate } from './allocation.ts';
import { type BesideTable, besideOf } from './beside.ts';
import { allowedByApplication, type DrawnSums, drawnWavelengths, sumsAt } from './drawn-sums.ts';
import { type DrawnElement, drawElements } from './elements.ts';
import { decibels, length, microToDb, toDb, wavelength } from './figures.ts';
import {
  type DrawnReading,
  type GaugeLabel,
  labelsByDesign,
  labelsOf,
  readingsAt,
} from './gauge.ts';
import { layOut } from './path.ts';
import { type RingDrawing, ringOf } from './ring.ts';
import type { Subject } from './subject.ts';
import {
  type Bracket,
  bracketsOf,
  referencePairs,
  type SetupWords,
  setupOf,
} from './surroundings.ts';
import { type Traced, tracedOn } from './traced.ts';
import { type TreeDrawing, treeOf } from './tree.ts';
import type { TextPlace } from './view.ts';

export interface Drawing {
  readonly object: string;
  readonly what: 'link' | 'channel' | 'ring' | 'cable';
  readonly title: string;
  readonly length: string;
  readonly at?: TextPlace;
  readonly lines: 1 | 2;
  readonly wavelengths: readonly { readonly nanometres: number; readonly label: string }[];
  readonly chosen: number;
  readonly elements: readonly DrawnElement[];
  /** What traces saw, in order from A. */
  readonly traced: readonly Traced[];
  /** Metres from A to B. */
  readonly metres: number;
  readonly brackets: readonly Bracket[];
  /** Of a channel that is not measured there is none. */
  readonly setup?: SetupWords;
  /** The greater of the two sums. */
  readonly allowed?: {
    readonly loss: number;
    readonly figure: string;
    /** Undefined: no limit, but the greatest figures of the parts. */
    readonly kind?: LimitKind;
    readonly name: string;
  };
  readonly limit?: { readonly loss: number; readonly figure: string; readonly kind: LimitKind };
  readonly expected?: { readonly loss: number; readonly figure: string };
  /** Parts of the sum that stand at no element. */
  readonly rest: readonly { readonly what: string; readonly figure: string }[];
  readonly readings: readonly DrawnReading[];
  readonly labels: readonly GaugeLabel[];
  readonly applications: readonly {
    readonly name: string;
    readonly support: SupportWord;
    readonly row: string;
    readonly because: string;
  }[];
  /** What is known beside the losses. */
  readonly beside: readonly BesideTable[];
  /** Where light has several ways, they are drawn in place of the path. */
  readonly tree?: TreeDrawing;
  readonly ring?: RingDrawing;
}

export function drawingOf(
  subject: Subject,
  object: string,
  nanometres: number | undefined,
): Drawing | undefined {
  const result = subject.plan.result.link(object);
  if (!result) return undefined;
  const waves = drawnWavelengths(result);
  const chosen = chosenWavelength(result, waves, nanometres);
  const { precision } = subject.display;
  const { at, most, mostTerms, expectedTerms } = sumsAt(result, chosen);
  const laid = layOut(result.link);
  const allowed = allocate(mostTerms);
  const elements = drawElements(subject, {
    laid: laid.elements,
    allowed,
    expected: allocate(expectedTerms),
    inReference: referencePairs(at),
    ends: [result.link.from[0] ?? '', result.link.to[0] ?? ''],
    light: chosen,
  });
  const readings = chosen === undefined ? [] : readingsAt(result, chosen);
  const measured = at !== undefined || readings.length > 0;
  const judged = at?.governing ?? readings.find(({ limit }) => limit !== undefined)?.limit;
  const limit = measured ? governingOf(judged, precision) : most && allowedFor(result, precision);
  const place = subject.plan.locate(result.link.namePlace);
  return {
    object,
    what: result.link.kind === 'section' ? 'cable' : result.link.kind,
    title: result.link.title ?? '',
    length: result.length === undefined ? '' : length(result.length, subject.display),
    ...(place ? { at: place } : {}),
    lines: result.link.mode === 'single-mode' ? 1 : 2,
    wavelengths: waves.map((each) => ({ nanometres: toNanometres(each), label: wavelength(each) })),
    chosen: chosen === undefined ? 0 : toNanometres(chosen),
    elements,
    traced: chosen === undefined ? [] : tracedOn(result, chosen, elements, laid.length, precision),
    metres: laid.length,
    brackets: bracketsOf(subject, result, laid.elements),
    ...(at ? { setup: setupOf(at) } : {}),
    ...(most ? { allowed: inFigures(most, precision) } : {}),
    ...(limit ? { limit } : {}),
    ...(at?.expected === undefined
      ? {}
      : { expected: { loss: toDb(at.expected), figure: decibels(at.expected, precision) } }),
    rest: allowed.rest().map(({ what, total }) => ({ what, figure: decibels(total, precision) })),
    readings: readings.map(({ loss, side, verdict }) => ({ loss: microToDb(loss), side, verdict })),
    labels: measured
      ? labelsOf(result.link, judged, at?.expected, readings, precision)
      : labelsByDesign(most?.value, limit, precision),
    applications: result.applications.map(({ name, support, row = '', because }) => ({
      name,
      support,
      row,
      because,
    })),
    beside: besideOf(subject, result),
    ...(chosen === undefined ? {} : waysOf(subject, result, chosen)),
  };
}

function governingOf(limit: Limit | undefined, places: number): Drawing['limit'] {
  if (limit?.value === undefined) return undefined;
  const { value, kind } = limit;
  return { loss: toDb(value), figure: decibels(value, places), kind };
}

function allowedFor(result: LinkResult, places: number): Drawing['limit'] {
  const loss = allowedByApplication(result);
  if (loss === undefined) return undefined;
  return { loss: microToDb(loss), figure: decibels(exactDb(loss), places), kind: 'application' };
}

function inFigures(
  { value, kind, name }: NonNullable<DrawnSums['most']>,
  places: number,
): NonNullable<Drawing['allowed']> {
  return { loss: toDb(value), figure: decibels(value, places), ...(kind ? { kind } : {}), name };
}

function waysOf(
  subject: Subject,
  result: LinkResult,
  at: Picometres,
): Pick<Drawing, 'tree' | 'ring'> {
  if (result.link.kind === 'ring') return { ring: ringOf(subject, result, at) };
  if (!result.ways.some(({ kind }) => kind === 'branch')) return {};
  return {
    tree: treeOf(subject, result, at, ({ way }, wave) => {
      const { elements: laid } = layOut({ ...result.link, path: way.path });
      const drawn = drawElements(subject, {
        laid,
        allowed: allocate(wave?.worstTerms ?? []),
        expected: allocate(wave?.expectedTerms ?? []),
        inReference: referencePairs(wave),
        light: at,
      });
      return { laid, drawn };
    }),
  };
}

/** The one asked for, else that of the worst reading or design, else the shortest. */
function chosenWavelength(
  result: LinkResult,
  waves: readonly Picometres[],
  nanometres: number | undefined,
): Picometres | undefined {
  const asked = nanometres === undefined ? undefined : picometres(Math.round(nanometres * 1000));
  if (asked !== undefined && waves.includes(asked)) return asked;
  return result.worstMargin?.reading.wavelength ?? tightest(result) ?? waves[0];
}

/** Of a tree or a ring that nobody has read, the wavelength at which the design has least left. */
function tightest(result: LinkResult): Picometres | undefined {
  if (result.ways.length === 0) return undefined;
  let least: WavelengthResult | undefined;
  for (const each of result.wavelengths) {
    if (each.designMargin === undefined) continue;
    if (least?.designMargin === undefined || each.designMargin < least.designMargin) least = each;
  }
  return least?.wavelength;
}
