/**
 * Rows of traces put in their places: which joint of the path an event is, and
 * which cells of several traces speak of the same one.
 */
import type { Micrometres } from '../../../grammar/src/quantity/index.ts';
import type { EventCell } from '../model/types.ts';
import type { Context } from './context.ts';
import { covers } from './measurement.ts';
import { flatten, putIn } from './path.ts';
import {
  indicesOf,
  inGlass,
  isAway,
  type Joint,
  type Station,
  stationsOf,
  stationsWith,
} from './stations.ts';
import { eventAway } from './thresholds.ts';

/** One event of one fibre at one wavelength: the cells of its two directions, in order of time. */
export interface Sighting {
  readonly fibre: number;
  readonly end?: string;
  readonly kind: EventCell['kind'];
  readonly quantity: EventCell['quantity'];
  /** In the glass, from end A. */
  readonly distance: Micrometres;
  readonly context: Context;
  /** Undefined where a length of the path is missing. */
  readonly stations?: readonly Station[];
  /** The joint it is taken for; undefined where none of its kind is near. */
  readonly station?: Station;
  readonly forward: readonly EventCell[];
  readonly back: readonly EventCell[];
  /** Of which the direction is not said. */
  readonly undirected: readonly EventCell[];
}

export function sightingsOf(context: Context): readonly Sighting[] {
  const { events, withdrawals } = context.input.evidence;
  const standing = events.filter((cell) => !withdrawals.some((one) => covers(one, cell)));
  const sightings = new Map<string, Growing>();
  for (const row of placed(rowsOf(standing, context))) {
    const at = row.station ? `@${row.stations?.indexOf(row.station)}` : row.distance;
    for (const cell of row.cells) {
      const key = `${cell.fibre} ${cell.kind} ${cell.quantity} ${cell.wavelength} ${at}`;
      let known = sightings.get(key);
      if (!known) {
        const { fibre, end, kind, quantity } = cell;
        const { distance, station, stations, along } = row;
        const place = { distance, station, stations, context: along };
        known = { fibre, end, kind, quantity, ...place, forward: [], back: [], undirected: [] };
        sightings.set(key, known);
      }
      const list =
        cell.direction === 'A>B'
          ? known.forward
          : cell.direction === 'B>A'
            ? known.back
            : known.undirected;
      list.push(cell);
    }
  }
  const all = [...sightings.values()];
  for (const { forward, back, undirected } of all) {
    for (const list of [forward, back, undirected]) list.sort(byTime);
  }
  return all.sort(
    (a, b) => a.fibre - b.fibre || a.distance - b.distance || wavelengthOf(a) - wavelengthOf(b),
  );
}

interface Growing extends Sighting {
  readonly forward: EventCell[];
  readonly back: EventCell[];
  readonly undirected: EventCell[];
}

const wavelengthOf = ({ forward, back, undirected }: Sighting) =>
  (forward[0] ?? back[0] ?? undirected[0])?.wavelength ?? 0;

const byTime = (a: EventCell, b: EventCell) => a.at.from - b.at.from || a.at.to - b.at.to;

interface Row {
  readonly cells: EventCell[];
  readonly distance: Micrometres;
  readonly along: Context;
  readonly stations?: readonly Station[];
  station?: Station;
}

/** Rows of each trace; a row typed twice is one, so that it does not look for a second joint. */
function rowsOf(cells: readonly EventCell[], context: Context): readonly (readonly Row[])[] {
  const stations = new Map<Context, readonly Station[] | undefined>();
  const traces = new Map<string, Map<string, Row>>();
  for (const cell of cells) {
    const trace = `${cell.row.block} ${cell.fibre} ${cell.at.from} ${cell.at.to}`;
    const rows = traces.get(trace) ?? new Map<string, Row>();
    traces.set(trace, rows);
    const key = `${cell.kind} ${cell.distance}`;
    const known = rows.get(key);
    if (known) {
      known.cells.push(cell);
      continue;
    }
    const along = context.along(cell.fibre, cell.at.from);
    if (!stations.has(along)) stations.set(along, stationsAlong(context, along, cell));
    const { pieces } = along.path;
    const indices = indicesOf(context.input.setup(cell.setup), pieces, cell.wavelength);
    const distance = inGlass(cell.distance, indices);
    rows.set(key, { cells: [cell], distance, along, stations: stations.get(along) });
  }
  return [...traces.values()].map((rows) => [...rows.values()]);
}

/** Joints of the path that a fibre takes when it is measured, repairs of it where they say they lie. */
function stationsAlong(
  { link }: Context,
  along: Context,
  { fibre, at }: EventCell,
): readonly Station[] | undefined {
  const repairs = link.repairs.filter(
    (repair) => repair.on.from <= at.from && repair.fibres.includes(fibre),
  );
  if (repairs.every((repair) => repair.at === undefined)) return stationsOf(along.path.pieces);
  const way = link.ways.find((one) => one.fibre === fibre);
  const unplaced = repairs.filter((repair) => repair.at === undefined);
  const base = stationsOf(flatten(link, way, unplaced).pieces);
  const inserted = repairs.flatMap((repair) =>
    repair.at === undefined ? [] : [{ at: repair.at, pieces: putIn(repair) }],
  );
  return base && stationsWith(base, inserted);
}

/** Nearest pairs of row and joint first, so that each joint is one event of a trace. */
function placed(traces: readonly (readonly Row[])[]): readonly Row[] {
  for (const rows of traces) {
    const pairs = rows.flatMap((row) =>
      (row.stations ?? []).flatMap((station) => {
        const kind = row.cells[0]?.kind;
        if (kind === undefined || !isLike(kind, station.joint)) return [];
        if (isAway(station.distance, row.distance, eventAway)) return [];
        return [{ row, station, apart: Math.abs(station.distance - row.distance) }];
      }),
    );
    pairs.sort((a, b) => a.apart - b.apart);
    const taken = new Set<Station>();
    for (const { row, station } of pairs) {
      if (row.station || taken.has(station)) continue;
      row.station = station;
      taken.add(station);
    }
  }
  return traces.flat();
}

/** Which joints an event of a kind may be. */
function isLike(kind: EventCell['kind'], joint: Joint): boolean {
  switch (kind) {
    case 'connector':
      return joint.kind === 'pair' || joint.kind === 'plug' || joint.kind === 'part';
    case 'reflection':
      return joint.kind !== 'split';
    case 'splice':
      return joint.kind === 'splice';
    case 'splitter':
      return joint.kind === 'split';
    case 'bend':
    case 'end':
      return false;
  }
}
