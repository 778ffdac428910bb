/** What readings say of a service: their losses brought to the whole path, and the rows that these hold or break. */
import {
  type ExactDb,
  exactDb,
  type Picometres,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';
import type { ApplicationRow, ApplicationType, Carried, Direction, Way } from '../model/types.ts';
import type { Context } from './context.ts';
import { ownFigures } from './figures.ts';
import { takenAway } from './limits.ts';
import { ordinaryCords } from './ordinary-cords.ts';
import { lengthsOf, type Piece } from './path.ts';
import { brokenTerms } from './rows.ts';
import type { Settled } from './settle.ts';
import type { Sum } from './sums.ts';
import { sameWindow } from './thresholds.ts';

/** Loss at one wavelength and direction for one fibre of the object, brought to the whole channel. */
export interface Known {
  readonly fibre: number;
  readonly wavelength: Picometres;
  readonly direction: Direction;
  /** Undefined: no light was seen. */
  readonly loss?: ExactDb;
  /** Where no light was seen: it is greater than this, by what the meter could have seen. */
  readonly moreThan?: ExactDb;
  /** What ordinary cords may lose more than those it was read with. */
  readonly ordinary?: ExactDb;
}

/** A service, and the path from equipment to equipment that it is asked of. */
export interface Question {
  readonly context: Context;
  readonly carried: Carried;
  readonly application: ApplicationType;
  readonly pieces: readonly Piece[];
  /** Fibres that the answer is about; undefined: all that the application was given. */
  readonly only?: ReadonlySet<number>;
  readonly known: readonly Known[];
  /** Other paths that its fibres take, by what repairs put into some of them. */
  readonly others?: readonly Pick<Question, 'context' | 'application' | 'pieces'>[];
  /** The way that is asked about, where light has several. */
  readonly way?: Way;
}

/** Standing readings of the application's windows, with what lies outside them added. */
export function knownLosses(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
  application: ApplicationType,
  outside: readonly Piece[],
): readonly Known[] {
  const known: Known[] = [];
  const takenAt = new Map<string, Sum>();
  for (const { current } of settled.values()) {
    if (!current?.valid || current.result.verdict === 'stale') continue;
    const { fibre, wavelength, direction } = current.measurement.cell;
    const { loss, lossBound } = current.result;
    if (direction === undefined || !current.arrangement) continue;
    if (!application.wavelengths.some((light) => sameWindow(light.wavelength, wavelength)))
      continue;
    const seen = loss ?? lossBound;
    if (seen === undefined) continue;
    const key = `${current.arrangement.key}|${wavelength}|${direction}`;
    let taken = takenAt.get(key);
    if (!taken) {
      taken = takenAway(
        outside,
        ownFigures(context.link.terms.limits, wavelength, context.link.mode, 'max'),
        {
          link: context.link,
          path: context.path,
          arrangement: current.arrangement,
          wavelength,
          direction,
          settings: context.settings,
          channels: [],
        },
      );
      takenAt.set(key, taken);
    }
    if ('because' in taken) continue;
    const whole = subtractDb(exactDb(seen), taken.value);
    known.push(
      loss === undefined
        ? { fibre, wavelength, direction, moreThan: whole }
        : {
            fibre,
            wavelength,
            direction,
            loss: whole,
            ordinary: ordinaryCords(context, current.arrangement, wavelength),
          },
    );
  }
  return known;
}

export function byReadings(
  question: Question,
  rows: readonly ApplicationRow[],
): {
  readonly row?: ApplicationRow;
  readonly failing: readonly Known[];
  readonly greatest?: Known;
} {
  const units = unitsOf(question);
  const lit = new Set(units.flat());
  const known = question.known.filter((one) => lit.has(one.fibre));
  const length = lengthsOf(question.pieces).along;
  // Connections are within a measured loss already; a least loss is asked of the reading itself.
  // No light breaks what allows less than the meter could have seen, and holds nothing.
  const breaks = (row: ApplicationRow, { loss, moreThan }: Known) =>
    brokenTerms(
      { ...row, connections: undefined, ...(loss === undefined && { min: undefined }) },
      { length, loss: loss ?? moreThan, least: loss },
    ).length > 0;
  const holding = rows.find((row) => known.every((one) => !breaks(row, one)));
  if (!holding) {
    const overLoss = rows.filter(
      (row) => row.reach === undefined || (length ?? Infinity) <= row.reach,
    );
    const failing = known.filter((one) => overLoss.every((row) => breaks(row, one)));
    return { failing: overLoss.length > 0 ? failing : [] };
  }
  const seen = known.filter(({ loss }) => loss !== undefined);
  const complete = units.length > 0 && units.every((unit) => isRead(unit, question, seen));
  const greatest = seen.reduce<Known | undefined>(
    (a, b) => (a?.loss === undefined || (b.loss ?? 0n) > a.loss ? b : a),
    undefined,
  );
  return complete ? { row: holding, failing: [], greatest } : { failing: [] };
}

/** Groups of fibres that one service takes: as many as the application needs, in order. */
function unitsOf({
  context,
  carried,
  application,
  only,
  way,
}: Question): readonly (readonly number[])[] {
  const { link } = context;
  const out = new Set([
    ...link.dead.map((entry) => entry.fibre),
    ...(carried.fibres ? [] : link.spare),
  ]);
  // To an end of a tree leads one fibre: which of those carried was asked before.
  const asked = way?.fibre === undefined ? (carried.fibres ?? link.fibres) : [way.fibre];
  const fibres = asked.filter((fibre) => !out.has(fibre) && (only?.has(fibre) ?? true));
  const units: (readonly number[])[] = [];
  for (let at = 0; at + application.count <= fibres.length; at += application.count) {
    units.push(fibres.slice(at, at + application.count));
  }
  return units;
}

/** Whether a unit was read in the directions its light takes: half of its fibres each way, or as each wavelength goes. */
function isRead(
  unit: readonly number[],
  { application }: Question,
  known: readonly Known[],
): boolean {
  const has = (fibre: number, wavelength: Picometres, direction: Direction) =>
    known.some(
      (one) =>
        one.fibre === fibre &&
        one.direction === direction &&
        sameWindow(one.wavelength, wavelength),
    );
  const half = Math.ceil(unit.length / 2);
  const [front, rear] = [unit.slice(0, half), unit.slice(half)];
  return application.wavelengths.every((light) => {
    const { wavelength, direction } = light;
    if (direction) return unit.every((fibre) => has(fibre, wavelength, direction));
    if (unit.length === 1) {
      return unit.every((fibre) => has(fibre, wavelength, 'A>B') && has(fibre, wavelength, 'B>A'));
    }
    const way = (first: readonly number[], second: readonly number[]) =>
      first.every((fibre) => has(fibre, wavelength, 'A>B')) &&
      second.every((fibre) => has(fibre, wavelength, 'B>A'));
    return way(front, rear) || way(rear, front);
  });
}
