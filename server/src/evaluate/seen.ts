/**
 * Where light was seen against where the plan lets it out. The plan and the
 * tester then make two statements of one fact: a reading of that light is of
 * another path than the one it is kept under. A passed loss proves no pairing.
 */
import type { ReadingCell, SeenCell } from '../model/types.ts';
import type { Context, EvaluationInput } from './context.ts';
import { agingWork, covers } from './measurement.ts';
import { portAt } from './ports.ts';
import { type Reason, reason } from './reasons.ts';
import type { Doubt } from './result.ts';

/**
 * Why a reading is of another pair than its own; undefined where nothing
 * contradicts it. A row that names no port is held to what was last seen of its
 * fibre, as long as no work came after.
 */
export function wrongPair(cell: ReadingCell, context: Context): Reason | undefined {
  const { fibre, direction } = cell;
  if (context.input.evidence.seen.length === 0) return undefined;
  const seen = cell.seen ?? lastSeen(context).get(fibre)?.port;
  if (seen === undefined) return undefined;
  const far = portAt(context.link, 'B', fibre);
  const near = portAt(context.link, 'A', fibre);
  // A row may hold both directions; it names one port, for light from A where it has that.
  const wanted = direction === 'B>A' && context.link.from.includes(seen) ? near : far;
  return wanted === undefined || wanted === seen
    ? undefined
    : contradiction(fibre, seen, wanted, context);
}

function contradiction(fibre: number, seen: string, wanted: string, context: Context): Reason {
  const { link } = context;
  const other = link.fibres.find(
    (each) => each !== fibre && [portAt(link, 'B', each), portAt(link, 'A', each)].includes(seen),
  );
  const back =
    other === undefined
      ? undefined
      : standing(context).find((one) => one.fibre === other && one.port === wanted);
  const because = `its light came out at ${seen}, and the plan lets it out at ${wanted}`;
  return reason(
    'wrong-pair',
    because,
    {
      fibre,
      seen,
      wanted,
      ...(other === undefined ? {} : { belongs: other }),
      ...(back && { swapped: back.fibre }),
    },
    back ? [{ place: back.place, message: `fibre ${back.fibre} came out at ${wanted}` }] : [],
  );
}

const lastByInput = new WeakMap<EvaluationInput, ReadonlyMap<number, SeenCell>>();

/** The last statement about each fibre that no work came after. */
function lastSeen(context: Context): ReadonlyMap<number, SeenCell> {
  const known = lastByInput.get(context.input);
  if (known) return known;
  const last = new Map<number, SeenCell>();
  for (const cell of standing(context)) {
    if (agingWork(context.work, cell, context.sharing)) continue;
    const before = last.get(cell.fibre);
    if (!before || cell.at.from >= before.at.from) last.set(cell.fibre, cell);
  }
  lastByInput.set(context.input, last);
  return last;
}

function standing(context: Context): readonly SeenCell[] {
  const { seen, withdrawals } = context.input.evidence;
  return seen.filter((cell) => !withdrawals.some((one) => covers(one, cell)));
}

/** Fibres whose light was seen and whose path was not worked on since. */
export function fibresSeen(context: Context): ReadonlySet<number> {
  return new Set(lastSeen(context).keys());
}

/** Where light was seen at the wrong port, and no reading of the fibre is void for it. */
export function* doubtsOfSeen(context: Context): Iterable<Doubt> {
  const { readings, seen } = context.input.evidence;
  if (seen.length === 0) return;
  const read = new Set(readings.map(({ fibre }) => fibre));
  for (const { fibre, port, side, place } of lastSeen(context).values()) {
    const wanted = portAt(context.link, side, fibre);
    if (read.has(fibre) || wanted === undefined || wanted === port) continue;
    const why = contradiction(fibre, port, wanted, context);
    yield { name: why.name, place, related: why.related, details: { ...why.details, readings: 0 } };
  }
}
