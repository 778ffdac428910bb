/**
 * Events of traces judged. Loss at a joint by reflectometer is the average of
 * both directions: where two fibres scatter unlike, one direction shows too much
 * and the other too little, even a gain, by the same amount. Sums are compared,
 * so that no average is rounded. A splice seen from one side alone is not
 * judged; a reflection is, from each side by itself.
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  microDb,
  type Picometres,
  printProse,
} from '../../../grammar/src/quantity/index.ts';
import type { EventCell } from '../model/types.ts';
import type { Context } from './context.ts';
import { decide, decideLower, marginTo, uncertaintyFor } from './decide.ts';
import { lossLimit, returnLossLimit } from './event-limits.ts';
import { agingWork } from './measurement.ts';
import { fibresOf } from './path.ts';
import { inDb } from './reasons.ts';
import type { EventResult, LengthResult } from './result.ts';
import { type Sighting, sightingsOf } from './sightings.ts';
import { jointInWords, whereInWords } from './stations.ts';
import { averageBelowZero } from './thresholds.ts';

/** A result with what the findings about it need. */
export interface JudgedEvent {
  readonly sighting: Sighting;
  readonly result: EventResult;
  /** Losses seen at it from one end or the other, each the last that stands. */
  readonly cells: readonly EventCell[];
  /** Tighter than the limit: what a sum takes, and one splice by itself need not keep. */
  readonly objective?: MicroDb;
  /** Of the path, where the event is none of its joints. */
  readonly where?: string;
  /** Its value cannot be: that is why it is invalid. */
  readonly impossible?: true;
  /** Earlier cells of the same time: two statements where there should be one. */
  readonly twice: readonly (readonly [EventCell, EventCell])[];
}

export function judgeEvents(
  context: Context,
  lengths: readonly LengthResult[],
): readonly JudgedEvent[] {
  if (context.input.evidence.events.length === 0) return [];
  return sightingsOf(context).map((sighting) => judgeSighting(sighting, lengths));
}

type Verdicted = Pick<EventResult, 'verdict' | 'because'> &
  Partial<Pick<EventResult, 'limit' | 'margin'>> &
  Partial<Pick<JudgedEvent, 'objective' | 'where' | 'impossible'>>;

function judgeSighting(sighting: Sighting, lengths: readonly LengthResult[]): JudgedEvent {
  const { fibre, end, kind, quantity, distance, station } = sighting;
  const [forward, back] = [sighting.forward.at(-1), sighting.back.at(-1)];
  const cells = [forward, back].flatMap((cell) => cell ?? []);
  const cell = (forward ?? back ?? sighting.undirected.at(-1))!;
  const sum =
    forward && back && quantity === 'loss' ? microDb(forward.value + back.value) : undefined;
  const { objective, where, impossible, ...judged } = verdictOf(
    sighting,
    cells,
    cell,
    sum,
    lengths,
  );
  return {
    sighting,
    cells,
    objective,
    where,
    impossible,
    twice: [...twiceIn(sighting.forward), ...twiceIn(sighting.back)],
    result: {
      fibre,
      end,
      kind,
      quantity,
      distance,
      wavelength: cell.wavelength,
      forward,
      back,
      sum,
      ...(station && {
        part: jointInWords(station.joint),
        at: 'at' in station.joint ? station.joint.at : undefined,
      }),
      ...judged,
      place: cell.place,
    },
  };
}

function verdictOf(
  sighting: Sighting,
  cells: readonly EventCell[],
  cell: EventCell,
  sum: MicroDb | undefined,
  lengths: readonly LengthResult[],
): Verdicted {
  const { context, kind, quantity, station, stations, distance } = sighting;
  for (const each of cells.length > 0 ? cells : [cell]) {
    const setup = context.input.setup(each.setup);
    if (setup?.otdr) continue;
    const because = setup
      ? `set-up ${setup.name} names no reflectometer`
      : `there is no set-up ${each.setup}`;
    return { verdict: 'invalid', because };
  }
  const work = (cells.length > 0 ? cells : [cell]).flatMap(
    (each) => agingWork(context.work, each, context.sharing) ?? [],
  )[0];
  if (work) {
    return { verdict: 'stale', because: `${work.done} on ${work.on.text}, after it was measured` };
  }
  if (cells.length === 0) return notJudged('which way the light went is not said');
  if (kind === 'end') return atEnd(sighting, lengths);
  if (!stations) return notJudged('a length of the path is not known, and so no joint has a place');
  const where = whereInWords(stations, distance);
  if (kind === 'bend')
    return { ...notJudged(`a bend, ${where}: nothing is allowed for it`), where };
  if (!station) return { ...notJudged(`no ${kind} of the path lies there: ${where}`), where };
  return quantity === 'reflectance'
    ? byReturnLoss(sighting, cells, cell.wavelength)
    : byLoss(sighting, cells, cell.wavelength, sum);
}

const notJudged = (because: string): Verdicted => ({ verdict: 'not-judged', because });

/** The end of a trace says how long the fibre is; what is lost or sent back there is no joint's. */
function atEnd({ fibre }: Sighting, lengths: readonly LengthResult[]): Verdicted {
  const length = lengths.find((one) => one.fibre === fibre);
  return length
    ? { verdict: length.verdict, because: length.because }
    : notJudged('its length was withdrawn');
}

function byLoss(
  { context, station }: Sighting,
  cells: readonly EventCell[],
  wavelength: Picometres,
  sum: MicroDb | undefined,
): Verdicted {
  const { joint } = station!;
  const [first] = cells;
  if (sum === undefined && joint.kind === 'splice') {
    return notJudged(`seen ${first?.direction} alone: a splice is the average of both directions`);
  }
  const value = sum ?? first!.value;
  const count = sum === undefined ? 1 : 2;
  const said =
    sum === undefined ? `${inDb(value)} ${first?.direction}` : averageInWords(cells, sum);
  if (value < -averageBelowZero * count) {
    const because = `${said}: a joint cannot gain light, so the trace or its place is not true`;
    return { verdict: 'invalid', because, impossible: true };
  }
  const found = lossLimit(joint, context.link, wavelength);
  if (found?.limit.value === undefined) {
    return notJudged(`${said}; no figure is known for ${jointInWords(joint)}`);
  }
  const { limit, objective } = found;
  const verdict = decide(
    value,
    limit.value!,
    uncertaintyOfTraces(context, wavelength),
    context.settings.decision.rule,
    count,
  );
  const over = objective !== undefined && value > objective * count;
  return {
    verdict,
    because:
      over && verdict === 'pass' ? `${said}, over the objective of ${inDb(objective)}` : said,
    limit,
    margin: marginTo(limit.value!, value, count),
    ...(over && { objective }),
  };
}

/** What is sent back, as a return loss: reflectance without its sign. The worse direction counts. */
function byReturnLoss(
  { context, station }: Sighting,
  cells: readonly EventCell[],
  wavelength: Picometres,
): Verdicted {
  const { joint } = station!;
  const positive = cells.find(({ value }) => value > 0)?.value;
  if (positive !== undefined) {
    const because = `a reflectance is negative: ${inDb(positive)} is a return loss, and is written as ${inDb(-positive)}`;
    return { verdict: 'invalid', because, impossible: true };
  }
  const least = Math.min(...cells.map((cell) => -cell.value));
  const limit = returnLossLimit(joint, context.link, wavelength);
  if (limit?.value === undefined || limit.floor === undefined) {
    return notJudged(`no return loss is asked of ${jointInWords(joint)}`);
  }
  const { rule } = context.settings.decision;
  return {
    verdict: decideLower(least, limit.floor, microDb(0), rule),
    because: `return loss ${inDb(least)}`,
    limit,
    margin: (exactDb(microDb(least)) - limit.value) as ExactDb,
  };
}

/** Only what the plan says of reflectometers: the uncertainty of a loss test is another. */
function uncertaintyOfTraces({ settings, link, path }: Context, wavelength: Picometres): MicroDb {
  const uncertainty = settings.uncertainty.filter(({ method }) => method === 'otdr');
  const fibres = fibresOf(path.pieces).map(({ type }) => type);
  return uncertaintyFor({ uncertainty }, wavelength, 'otdr', link.mode, fibres).expanded;
}

/** `average 0.08 dB of -0.06 dB A>B and 0.22 dB B>A`. */
function averageInWords(cells: readonly EventCell[], sum: MicroDb): string {
  const parts = cells.map(({ value, direction }) => `${inDb(value)} ${direction}`);
  return `average ${printProse(averageOf(sum))} dB of ${parts.join(' and ')}`;
}

/** Half of a sum, exact. */
export function averageOf(sum: MicroDb): ExactDb {
  return (exactDb(sum) / 2n) as ExactDb;
}

function twiceIn(cells: readonly EventCell[]): (readonly [EventCell, EventCell])[] {
  return cells.flatMap((cell, index) => {
    const before = cells[index - 1];
    const same = before && before.at.from === cell.at.from && before.at.to === cell.at.to;
    return same ? [[before, cell] as const] : [];
  });
}
