/** What traces give to say: joints over their limits, gains, bends, what fits no joint. One cause is one doubt. */
import {
  type ExactDb,
  exactDb,
  subtractDb,
  toMetres,
} from '../../../grammar/src/quantity/index.ts';
import type { Place } from '../model/types.ts';
import type { Context } from './context.ts';
import { exact, numbersInWords } from './doubts.ts';
import { averageOf, type JudgedEvent } from './events.ts';
import { db, nm } from './reasons.ts';
import type { Doubt } from './result.ts';
import { doubtsOfTraceSetups } from './trace-setups.ts';

export function* doubtsOfEvents(context: Context, judged: readonly JudgedEvent[]): Iterable<Doubt> {
  const fibres = new Set(context.link.fibres);
  const known = judged.filter(({ result }) => fibres.has(result.fibre));
  const fresh = known.filter(({ result }) => result.verdict !== 'stale');
  yield* strangers(context, judged);
  yield* withoutReflectometer(context, fresh);
  yield* worstOfEach(fresh);
  yield* doubtsOfTraceSetups(context, fresh);
  yield* grouped('splice-gain', fresh.filter(isGain));
  yield* grouped('splice-one-way', fresh.filter(isOneWay));
  for (const { twice } of known) {
    for (const [before, cell] of twice) {
      yield measuredTwice(before.place, cell.place, {
        fibre: cell.fibre,
        what: `${cell.kind} at ${toMetres(cell.distance)} m`,
        tested: cell.at.text,
      });
    }
  }
}

/** One joint that several wavelengths complain of is one doubt, at the worst of them. */
function worstOfEach(judged: readonly JudgedEvent[]): Iterable<Doubt> {
  const worst = new Map<string, Doubt>();
  for (const one of judged) {
    const { fibre, quantity, part } = one.result;
    for (const doubt of doubtsOfOne(one)) {
      const where = part === undefined ? doubt.details.at : jointKey(one);
      const key = `${doubt.name} ${fibre} ${quantity} ${where}`;
      const known = worst.get(key);
      if (!known || size(doubt) > size(known)) worst.set(key, doubt);
    }
  }
  return worst.values();
}

const jointKey = ({ sighting: { stations, station } }: JudgedEvent) =>
  station && `joint ${stations?.indexOf(station)}`;

const size = ({ details }: Doubt) => Math.abs(Number(details.over ?? details.value ?? 0));

/** Two statements of one key at one time: neither is the later. */
export function measuredTwice(first: Place, place: Place, details: Doubt['details']): Doubt {
  return {
    name: 'measured-twice',
    place,
    related: [{ place: first, message: 'the first one' }],
    details,
  };
}

function* strangers(context: Context, judged: readonly JudgedEvent[]): Iterable<Doubt> {
  const said = new Set<number>();
  // An object that does not say how many fibres it has is asked for that instead.
  if (context.link.fibres.length === 0) return;
  for (const { result } of judged) {
    const { fibre } = result;
    if (context.link.fibres.includes(fibre) || said.has(fibre)) continue;
    said.add(fibre);
    const has = numbersInWords(context.link.fibres);
    const details = { fibre, wavelength: nm(result.wavelength), object: context.link.name, has };
    yield { name: 'fibre-not-in-plan', place: result.place, details };
  }
}

/** One for each set-up that traces name though it holds no reflectometer. */
function* withoutReflectometer(context: Context, judged: readonly JudgedEvent[]): Iterable<Doubt> {
  const said = new Set<string>();
  for (const { cells, result } of judged) {
    for (const cell of cells) {
      const setup = context.input.setup(cell.setup);
      if (!setup || setup.otdr || said.has(setup.name)) continue;
      said.add(setup.name);
      yield {
        name: 'reflectometer-missing',
        place: result.place,
        related: [{ place: setup.namePlace, message: `set-up ${setup.name}` }],
        details: { setup: setup.name, object: context.link.name },
      };
    }
  }
}

function* doubtsOfOne(one: JudgedEvent): Iterable<Doubt> {
  const { result, where, objective } = one;
  const { kind, limit, margin, quantity, place } = result;
  const details = detailsOf(one);
  if (kind === 'bend' && where !== undefined) {
    yield { name: 'bend-on-trace', place, details: { ...details, where } };
    return;
  }
  if (where !== undefined) {
    yield { name: 'event-unexplained', place, details: { ...details, where } };
    return;
  }
  if (one.impossible) {
    const names = { loss: 'event-impossible', reflectance: 'reflectance-positive' } as const;
    yield { name: names[quantity], place, details };
    return;
  }
  if (limit?.value === undefined || margin === undefined) return;
  const against = {
    ...details,
    limit: exact(limit.value),
    limitName: limit.name,
    limitKind: limit.kind,
    margin: exact(margin),
    over: exact((margin < 0n ? -margin : margin) as ExactDb),
  };
  if (result.verdict === 'fail' || result.verdict === 'marginal-fail') {
    yield {
      name: quantity === 'loss' ? 'joint-over-limit' : 'return-loss-low',
      place,
      details: { ...against, verdict: result.verdict },
    };
    return;
  }
  if (objective === undefined || result.sum === undefined) return;
  const over = exact(subtractDb(averageOf(result.sum), exactDb(objective)));
  yield {
    name: 'splice-over-objective',
    place,
    details: { ...against, objective: db(objective), over },
  };
}

function detailsOf({ result, cells }: JudgedEvent) {
  const { fibre, distance, wavelength, kind, part, sum, because } = result;
  const value = cells[0]?.value;
  return {
    fibre,
    at: toMetres(distance),
    wavelength: nm(wavelength),
    kind,
    because,
    ...(part === undefined ? {} : { part }),
    ...(sum === undefined ? {} : { average: exact(averageOf(sum)) }),
    ...(value === undefined ? {} : { value: db(value) }),
  };
}

const isGain = ({ cells, result }: JudgedEvent) =>
  result.quantity === 'loss' &&
  (result.kind === 'splice' || result.kind === 'connector') &&
  result.sum !== undefined &&
  result.verdict !== 'invalid' &&
  cells.some(({ value }) => value < 0);

const isOneWay = ({ cells, result }: JudgedEvent) =>
  result.kind === 'splice' &&
  result.quantity === 'loss' &&
  result.part !== undefined &&
  cells.length === 1 &&
  result.verdict === 'not-judged';

/** One note for all of a kind, on the first. */
function* grouped(name: string, judged: readonly JudgedEvent[]): Iterable<Doubt> {
  const [first] = judged;
  if (!first) return;
  const [a, b] = first.cells;
  const fibres = numbersInWords(judged.map(({ result }) => result.fibre));
  yield {
    name,
    place: first.result.place,
    details: {
      ...detailsOf(first),
      events: new Set(judged.map((one) => `${one.result.fibre} ${jointKey(one)}`)).size,
      fibres,
      ...(a?.direction && { direction: a.direction }),
      ...(a &&
        b && { forward: db(a.value), back: db(b.value), unlike: halfApart(a.value, b.value) }),
    },
  };
}

/** By how much two fibres scatter unlike: half of what the directions differ by. */
function halfApart(a: number, b: number): number {
  return Math.abs(a - b) / 2 / 1e6;
}
