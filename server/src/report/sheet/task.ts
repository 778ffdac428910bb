/** What is left to do at one link: its fibres with what was read and what is to be read, in the order of the plan's columns. */
import {
  type ExactDb,
  exactDb,
  type Picometres,
  subtractDb,
} from '../../../../grammar/src/quantity/index.ts';
import type {
  FibreResult,
  LinkResult,
  ReadingResult,
  WavelengthResult,
} from '../../evaluate/result.ts';
import { fibreInCable } from '../../model/colours.ts';
import type { Direction, LinkModel, PathElement, ReferenceMethod } from '../../model/types.ts';
import { elementsIn, isTree, placeName } from '../../model/ways.ts';
import { decibels, wavelength } from '../figures.ts';
import type { Documented } from '../paper/plan.ts';
import { lossText } from '../rows/fibre.ts';
import { columnsOf } from '../rows/link.ts';
import { lookOf } from '../verdicts.ts';

export interface Task {
  readonly result: LinkResult;
  readonly link: LinkModel;
  /** Readings never made, and readings that are void or aged. */
  readonly toTest: number;
  readonly toRepeat: number;
  /** Fibres over their limit, by the names of their places. */
  readonly over: readonly string[];
  readonly groups: readonly TaskGroup[];
  readonly rows: readonly TaskRow[];
}

/** A wavelength with what its readings are held against. */
export interface TaskGroup {
  readonly wavelength: string;
  readonly directions: readonly string[];
  readonly limits: readonly TaskLimit[];
}

export interface TaskLimit {
  /** Empty where both directions have the same. */
  readonly direction: string;
  /** In dB; empty where there is none, and `because` says why. */
  readonly limit: string;
  readonly from: string;
  readonly because: string;
  readonly expected: string;
  /** From here on a result is marginal: limit less uncertainty. */
  readonly marginal: string;
}

export interface TaskRow {
  /** Its number, or the port of an end of a tree. */
  readonly label: string;
  readonly fromPort: string;
  readonly toPort: string;
  /** `C-101 3, tube 1 blue, green`. */
  readonly lies: string;
  /** It is dead and is left out. */
  readonly dead: boolean;
  readonly cells: readonly TaskCell[];
}

export interface TaskCell {
  readonly text: string;
  readonly blank: boolean;
}

export function taskOf(
  subject: Documented,
  result: LinkResult,
  method: ReferenceMethod | undefined,
): Task {
  const columns = columnsOf(result);
  const readings = result.fibres.flatMap(({ current }) => current);
  return {
    result,
    link: result.link,
    toTest: readings.filter(({ attempt }) => attempt === null).length,
    toRepeat: readings.filter(toRepeat).length,
    over: result.fibres
      .filter(({ current }) => current.some(({ verdict }) => isOver(verdict)))
      .map(({ fibre }) => placeName(result.link, fibre)),
    groups: columns.map(({ wavelength: at, directions }) => ({
      wavelength: wavelength(at),
      directions: directions.map((direction) => direction ?? 'mean'),
      limits: limitsOf(subject, result, at, directions, method),
    })),
    rows: result.fibres.map((fibre) => ({
      label: isTree(result.link) ? placeName(result.link, fibre.fibre) : String(fibre.fibre),
      fromPort: fibre.fromPort ?? '',
      toPort: fibre.toPort ?? '',
      lies: liesIn(result.link, fibre.fibre),
      dead: result.link.dead.some((each) => each.fibre === fibre.fibre),
      cells: columns.flatMap(({ wavelength: at, directions }) =>
        directions.map((direction) => cellOf(subject, fibre, at, direction)),
      ),
    })),
  };
}

function isOver(verdict: ReadingResult['verdict']): boolean {
  return verdict === 'fail' || verdict === 'marginal-fail';
}

function toRepeat({ attempt, verdict }: ReadingResult): boolean {
  return attempt !== null && (verdict === 'invalid' || verdict === 'stale');
}

function cellOf(
  { display }: Documented,
  { current }: FibreResult,
  at: Picometres,
  direction: Direction | undefined,
): TaskCell {
  const reading = current.find((each) => each.wavelength === at && each.direction === direction);
  if (!reading) return { text: '', blank: false };
  if (reading.attempt === null) return { text: '', blank: true };
  const text = lossText(reading, display.precision);
  if (toRepeat(reading)) return { text: `${text} ${reading.verdict}`, blank: true };
  return {
    text: reading.verdict === 'pass' ? text : `${text} ${lookOf(reading.verdict).word}`,
    blank: false,
  };
}

/** One limit for both directions where they have the same, else one for each. */
function limitsOf(
  subject: Documented,
  result: LinkResult,
  at: Picometres,
  directions: readonly (Direction | undefined)[],
  method: ReferenceMethod | undefined,
): readonly TaskLimit[] {
  const here = result.wavelengths.filter((each) => each.wavelength === at);
  const own = here.filter(({ reference }) => reference === method);
  const pool = own.length > 0 ? own : here;
  const found = new Set(
    directions.flatMap(
      (direction) =>
        pool.find((each) => each.direction === undefined || each.direction === direction) ?? [],
    ),
  );
  const all = found.size > 0 ? [...found] : pool.slice(0, 1);
  return all.map((each) => limitOf(subject, result, each));
}

function limitOf({ display }: Documented, result: LinkResult, at: WavelengthResult): TaskLimit {
  const { governing, expected } = at;
  const value = governing?.value;
  const uncertainty = result.fibres
    .flatMap(({ current }) => current)
    .find((each) => each.wavelength === at.wavelength)?.uncertainty;
  const marginal =
    value === undefined || !uncertainty
      ? undefined
      : (subtractDb(value, exactDb(uncertainty)) as ExactDb);
  return {
    direction: at.direction ?? '',
    limit: value === undefined ? '' : decibels(value, display.precision),
    from: governing
      ? `${governing.kind}, ${governing.name}${governing.recalled ? ', a figure from memory' : ''}`
      : '',
    because: value === undefined ? (governing?.because ?? at.limits[0]?.because ?? '') : '',
    expected: expected === undefined ? '' : decibels(expected, display.precision),
    marginal: marginal === undefined ? '' : decibels(marginal, display.precision),
  };
}

type Segment = Extract<PathElement, { kind: 'segment' }>;

/** Cable, number and colours of a fibre in the first cable that its link takes it from. */
export function liesIn(link: LinkModel, fibre: number): string {
  const place = link.fibres.indexOf(fibre);
  const way = link.ways.find((each) => each.fibre === fibre);
  const path = way ? way.path : [...elementsIn(link)];
  const segment = path.find(
    (element): element is Segment => element.kind === 'segment' && element.cable !== undefined,
  );
  const cable = segment?.cable;
  const number = segment?.cableFibres?.[way ? 0 : place];
  if (!cable || number === undefined) return '';
  const { tube, tubeColour, position, colour } = fibreInCable(cable, number);
  return [
    `${cable.name} ${number}`,
    tube === undefined ? '' : `tube ${[tube, tubeColour].filter(Boolean).join(' ')}`,
    colour ? (tube === undefined ? colour : `fibre ${position} ${colour}`) : '',
  ]
    .filter(Boolean)
    .join(', ');
}
