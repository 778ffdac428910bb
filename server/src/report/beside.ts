/**
 * What is known of an object beside its losses: windows of power by design,
 * events of its traces, lengths and end faces. Small tables below the drawing,
 * each row leading to its line.
 */
import { type ExactDb, exactDb, toNanometres } from '../../../grammar/src/quantity/index.ts';
import {
  type EventResult,
  type LinkResult,
  type PowerResult,
  type Verdict,
  verdicts,
} from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';
import { placeName } from '../model/ways.ts';
import { decibels, length, margin, trueMinus } from './figures.ts';
import type { Subject } from './subject.ts';
import { lookOf } from './verdicts.ts';
import type { TextPlace } from './view.ts';

interface BesideRow {
  readonly cells: readonly string[];
  /** Of the last cell; undefined: it is no verdict. */
  readonly verdict?: Verdict;
  /** Why, where it is not pass. */
  readonly note: string;
  readonly place?: TextPlace;
}

export interface BesideTable {
  readonly title: string;
  readonly heads: readonly string[];
  /** Heads of columns whose cells are figures. */
  readonly figures: readonly string[];
  readonly rows: readonly BesideRow[];
  /** Rows beyond those shown. */
  readonly more: number;
}

/** Rows of one table on the page; those not pass stand first. */
const mostShown = 60;

export function besideOf(
  subject: Subject,
  result: LinkResult,
  most = mostShown,
): readonly BesideTable[] {
  return [
    windows(subject, result),
    events(subject, result),
    lengths(subject, result),
    faces(subject, result),
  ].flatMap((table) => (table.rows.length === 0 ? [] : [cut(table, most)]));
}

type Whole = Omit<BesideTable, 'more'>;

function cut(table: Whole, most: number): BesideTable {
  const rank = ({ verdict }: BesideRow) => (verdict ? verdicts.indexOf(verdict) : -1);
  const rows =
    table.rows.length > most ? [...table.rows].sort((a, b) => rank(a) - rank(b)) : table.rows;
  return { ...table, rows: rows.slice(0, most), more: Math.max(0, rows.length - most) };
}

function row(
  { plan }: Subject,
  place: Place | undefined,
  cells: readonly string[],
  note: string,
  verdict?: Verdict,
): BesideRow {
  const at = place && plan.locate(place);
  const word = verdict ? [lookOf(verdict).word] : [];
  return {
    cells: [...cells, ...word],
    note: verdict === 'pass' ? '' : note,
    ...(verdict ? { verdict } : {}),
    ...(at ? { place: at } : {}),
  };
}

/**
 * What the receiver has left at both ends of its window, by design. Ways and
 * directions with the same figures stand in one row.
 */
function windows(subject: Subject, result: LinkResult): Whole {
  const { precision } = subject.display;
  const several = result.ways.length > 0;
  const all = several
    ? result.ways.flatMap(({ power, name }) => power.map((each) => ({ each, way: name })))
    : result.power.map((each) => ({ each, way: '' }));
  const alike = new Map<string, Window[]>();
  for (const window of all) {
    const { application, wavelength: light, from, to } = window.each;
    const key = [application, light, from, to, ...figuresOf(window.each, precision)].join('|');
    alike.set(key, [...(alike.get(key) ?? []), window]);
  }
  return {
    title: 'Windows of power, by design',
    heads: ['light', 'from', 'to', ...(several ? ['way'] : []), ...windowFigures],
    figures: windowFigures,
    rows: [...alike.values()].map((windows) => {
      const { each } = windows[0] as Window;
      const [note = '', ...figures] = figuresOf(each, precision);
      return row(
        subject,
        each.place,
        [
          `${each.application} ${toNanometres(each.wavelength)} nm ${directionsOf(windows)}`,
          each.from,
          each.to,
          ...(several ? [waysOf(windows)] : []),
          ...figures,
        ],
        note,
      );
    }),
  };
}

/** The note first, then what stands in the columns of figures. */
function figuresOf(power: PowerResult, places: number): readonly string[] {
  const loss = (value: ExactDb | undefined) => (value === undefined ? '' : decibels(value, places));
  const left = (value: ExactDb | undefined) => (value === undefined ? '' : margin(value, places));
  return [
    noteOfWindow(power, places),
    loss(power.greatestLoss),
    loss(power.leastLoss),
    left(power.margin),
    left(power.overloadMargin),
  ];
}

const windowFigures = ['most loss', 'least loss', 'left at the low end', 'at the high end'];

interface Window {
  readonly each: PowerResult;
  readonly way: string;
}

function directionsOf(windows: readonly Window[]): string {
  const [one, ...others] = new Set(windows.map(({ each }) => each.direction));
  return others.length > 0 ? 'both ways' : (one ?? '');
}

/** `HALL/KIOSK-01 and 7 more`. */
function waysOf(windows: readonly Window[]): string {
  const [first = '', ...others] = new Set(windows.map(({ way }) => way));
  return others.length > 0 ? `${first} and ${others.length} more` : first;
}

function noteOfWindow(power: PowerResult, places: number): string {
  const { margin: low, overloadMargin: high, attenuator } = power;
  const notes = [
    power.because ?? '',
    low !== undefined && low < 0n ? 'too little light' : '',
    high !== undefined && high < 0n ? 'too much light' : '',
    attenuator && attenuator.least <= attenuator.most
      ? `an attenuator of ${decibels(attenuator.least, places)} to ${decibels(attenuator.most, places)} dB closes it`
      : '',
    ...power.mismatches,
    power.recalled ? 'rests on a recalled figure' : '',
  ];
  return notes.filter(Boolean).join('; ');
}

function events(subject: Subject, result: LinkResult): Whole {
  const { precision } = subject.display;
  const signed = (value: number | undefined) =>
    value === undefined ? '' : trueMinus(decibels(exactDb(value as never), precision));
  return {
    title: 'Events of its traces',
    heads: ['place', 'at', 'what', 'light', 'A>B', 'B>A', 'average', 'limit', 'verdict'],
    figures: ['at', 'A>B', 'B>A', 'average', 'limit'],
    rows: result.events.map((event) =>
      row(
        subject,
        event.place,
        [
          placeName(result.link, event.fibre),
          length(event.distance, subject.display),
          [event.part ?? event.kind, event.quantity === 'loss' ? '' : event.quantity]
            .filter(Boolean)
            .join(', '),
          `${toNanometres(event.wavelength)} nm`,
          signed(event.forward?.value),
          signed(event.back?.value),
          averageOf(event, precision),
          event.limit?.value === undefined ? '' : decibels(event.limit.value, precision),
        ],
        event.because,
        event.verdict,
      ),
    ),
  };
}

function averageOf({ sum }: EventResult, places: number): string {
  return sum === undefined ? '' : decibels((exactDb(sum) / 2n) as ExactDb, places);
}

function lengths(subject: Subject, result: LinkResult): Whole {
  return {
    title: 'Lengths as measured',
    heads: ['place', 'measured', 'by the plan', 'verdict'],
    figures: ['measured', 'by the plan'],
    rows: result.lengths.map((each) =>
      row(
        subject,
        each.cell.place,
        [
          placeName(result.link, each.fibre),
          length(each.length, subject.display),
          each.declared === undefined ? '' : length(each.declared, subject.display),
        ],
        each.because,
        each.verdict,
      ),
    ),
  };
}

function faces(subject: Subject, result: LinkResult): Whole {
  const seen = result.inspections.filter(({ cell }) => cell !== undefined);
  return {
    title: 'End faces',
    heads: ['place', 'end', 'seen', 'when', 'criterion', 'verdict'],
    figures: [],
    rows: seen.map((face) =>
      row(
        subject,
        face.cell?.place,
        [
          placeName(result.link, face.fibre),
          face.side,
          face.seen ?? '',
          face.cell?.at.text ?? '',
          face.cell?.criterion ?? '',
        ],
        face.because,
        face.verdict,
      ),
    ),
  };
}
