/** What a reflectometer, as it was set up, could not have seen. One set-up is said once. */
import { type Micrometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import type { EventCell, Setup, TestCord } from '../model/types.ts';
import { pulseLength } from '../optics/index.ts';
import type { Context } from './context.ts';
import type { JudgedEvent } from './events.ts';
import type { Doubt } from './result.ts';
import { indicesOf, jointInWords } from './stations.ts';

interface Seen {
  readonly event: JudgedEvent;
  readonly cell: EventCell;
  readonly setup: Setup;
}

export function* doubtsOfTraceSetups(
  context: Context,
  judged: readonly JudgedEvent[],
): Iterable<Doubt> {
  const seen = judged.flatMap((event): Seen[] =>
    event.cells.flatMap((cell) => {
      const setup = context.input.setup(cell.setup);
      return setup?.otdr ? [{ event, cell, setup }] : [];
    }),
  );
  yield* once(seen, ({ setup, event, cell }) => cordMissing(setup, event, cell));
  yield* once(seen, ({ setup, event, cell }) => beyondRange(setup, event, cell));
  yield* merged(context, seen);
}

function* once(seen: readonly Seen[], ask: (one: Seen) => Doubt | undefined): Iterable<Doubt> {
  const said = new Set<string>();
  for (const one of seen) {
    if (said.has(one.setup.name)) continue;
    const doubt = ask(one);
    if (!doubt) continue;
    said.add(one.setup.name);
    yield doubt;
  }
}

/** The pair that the instrument is plugged into hides in its own flash, and so does the open far end. */
function cordMissing(setup: Setup, event: JudgedEvent, cell: EventCell): Doubt | undefined {
  const { station, stations = [] } = event.sighting;
  if (!station || cell.quantity !== 'loss') return undefined;
  const near = cell.direction === 'B>A' ? stations.at(-1) : stations[0];
  const far = cell.direction === 'B>A' ? stations[0] : stations.at(-1);
  const lacks = (...roles: readonly TestCord['role'][]) =>
    !setup.cords.some(({ role }) => roles.includes(role));
  const end =
    station === near && lacks('launch')
      ? 'launch'
      : station === far && station !== near && lacks('tail', 'receive')
        ? 'tail'
        : undefined;
  if (end === undefined) return undefined;
  return {
    name: 'end-pair-unseen',
    place: cell.place,
    related: [{ place: setup.namePlace, message: `set-up ${setup.name}` }],
    details: {
      fibre: cell.fibre,
      setup: setup.name,
      cord: end,
      part: jointInWords(station.joint),
      ...(cell.direction && { direction: cell.direction }),
    },
  };
}

function beyondRange({ name, range, namePlace }: Setup, _: JudgedEvent, cell: EventCell) {
  if (range === undefined || cell.distance <= range) return undefined;
  return {
    name: 'event-beyond-range',
    place: cell.place,
    related: [{ place: namePlace, message: `set-up ${name}` }],
    details: {
      fibre: cell.fibre,
      setup: name,
      at: toMetres(cell.distance),
      range: toMetres(range),
    },
  };
}

/** Two joints of one trace that lie nearer than its pulse is long show as one event. */
function* merged(context: Context, seen: readonly Seen[]): Iterable<Doubt> {
  const traces = new Map<string, Seen[]>();
  for (const one of seen) {
    const { block } = one.cell.row;
    const { fibre, wavelength, direction, quantity, at } = one.cell;
    if (one.cell.kind === 'end') continue;
    const key = `${block} ${fibre} ${wavelength} ${direction} ${quantity} ${at.from}`;
    traces.set(key, [...(traces.get(key) ?? []), one]);
  }
  const said = new Set<string>();
  for (const trace of traces.values()) {
    trace.sort((a, b) => a.cell.distance - b.cell.distance);
    for (const [index, one] of trace.entries()) {
      const before = trace[index - 1];
      const length = lengthOf(context, one);
      if (!before || length === undefined || said.has(one.setup.name)) continue;
      const apart = one.cell.distance - before.cell.distance;
      if (apart >= length) continue;
      said.add(one.setup.name);
      yield {
        name: 'pulse-too-long',
        place: one.cell.place,
        related: [{ place: before.cell.place, message: 'the event before it' }],
        details: {
          fibre: one.cell.fibre,
          setup: one.setup.name,
          pulse: (one.setup.pulse ?? 0) / 1000,
          length: toMetres(length),
          apart: toMetres(apart as Micrometres),
        },
      };
    }
  }
}

/** Undefined where pulse or group index is not said. */
function lengthOf({ input }: Context, { setup, event, cell }: Seen): Micrometres | undefined {
  if (setup.pulse === undefined || input.evidence.events.length === 0) return undefined;
  const { pieces } = event.sighting.context.path;
  const index = indicesOf(setup, pieces, cell.wavelength)?.glass;
  return index === undefined ? undefined : pulseLength(setup.pulse, index);
}
