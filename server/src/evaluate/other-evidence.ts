/** Evidence other than losses, judged: traces, lengths, end faces, ports where light was seen. */
import type { EventCell, Place } from '../model/types.ts';
import type { Context } from './context.ts';
import { keyDetails, numbersInWords } from './doubts.ts';
import { doubtsOfEvents, measuredTwice } from './event-doubts.ts';
import { type JudgedEvent, judgeEvents } from './events.ts';
import { doubtsOfInspections, inspectionResults } from './inspections.ts';
import { doubtsOfLengths, lengthResults } from './lengths.ts';
import { nm } from './reasons.ts';
import { doubtsOfRequired } from './required.ts';
import type { Doubt, LinkResult, Verdict } from './result.ts';
import { doubtsOfSeen } from './seen.ts';
import type { Attempt, Settled } from './settle.ts';

export interface OtherEvidence extends Pick<LinkResult, 'events' | 'inspections' | 'lengths'> {
  readonly doubts: readonly Doubt[];
  /** The worst of the events of each fibre that keeps its limit or does not, where the plan requires events. */
  readonly verdicts: ReadonlyMap<number, Verdict>;
}

export function otherEvidence(
  context: Context,
  settled: ReadonlyMap<string, Settled>,
): OtherEvidence {
  const lengths = lengthResults(context);
  const events = judgeEvents(context, lengths);
  const inspections = inspectionResults(context);
  return {
    lengths,
    inspections,
    events: events.map(({ result }) => result),
    verdicts: requiredVerdicts(context, events),
    doubts: [
      ...doubtsOfLengths(context, lengths),
      ...doubtsOfEvents(context, events),
      ...overdue(context, events),
      ...doubtsOfInspections(context, inspections),
      ...doubtsOfSeen(context),
      ...readTwice(settled),
      ...aged(context, { events: events.map(({ result }) => result), inspections, lengths }),
      ...doubtsOfRequired(context, { events, inspections, lengths }),
    ],
  };
}

/** What is required counts like a reading; what could not be judged is listed as missing or in doubt, not here. */
function requiredVerdicts(
  { link }: Context,
  events: readonly JudgedEvent[],
): ReadonlyMap<number, Verdict> {
  const worst = new Map<number, Verdict>();
  if (!link.terms.require.some(({ kind }) => kind === 'events')) return worst;
  for (const { fibre, verdict } of events.map(({ result }) => result)) {
    if (!counted.includes(verdict) || !link.fibres.includes(fibre)) continue;
    const before = worst.get(fibre);
    if (!before || counted.indexOf(verdict) < counted.indexOf(before)) worst.set(fibre, verdict);
  }
  return worst;
}

const counted: readonly Verdict[] = ['fail', 'marginal-fail', 'marginal-pass'];

/** A row that says again what another says of the same time. */
interface Again {
  readonly first: Attempt;
  readonly before: Place;
  readonly whats: string[];
}

/**
 * Attempts are numbered by time: two readings of one key at one time have no
 * order. All columns of a row are one mistake, and so are rows of the same
 * columns in one block: a part of a table was pasted twice.
 */
function* readTwice(settled: ReadonlyMap<string, Settled>): Iterable<Doubt> {
  const rows = new Map<string, Again>();
  for (const { attempts } of settled.values()) {
    if (attempts.length < 2) continue;
    const standing = attempts.filter(({ withdrawn }) => !withdrawn);
    for (const [index, attempt] of standing.entries()) {
      const cell = attempt.measurement.cell;
      const before = standing[index - 1]?.measurement.cell;
      if (before?.at.from !== cell.at.from || before.at.to !== cell.at.to) continue;
      if (attempt.reason?.name === 'set-ups-claim-one-reading') continue;
      const key = `${before.row.block} ${before.row.span.start} ${cell.row.block} ${cell.row.span.start}`;
      const known = rows.get(key) ?? { first: attempt, before: before.place, whats: [] };
      rows.set(key, known);
      known.whats.push(`${nm(cell.wavelength)} nm${cell.direction ? ` ${cell.direction}` : ''}`);
    }
  }
  const alike = new Map<string, Again[]>();
  for (const row of rows.values()) {
    const { place, at } = row.first.measurement.cell;
    const key = `${row.before.block} ${place.block} ${at.text} ${row.whats.join()}`;
    alike.set(key, [...(alike.get(key) ?? []), row]);
  }
  for (const [row, ...others] of alike.values()) {
    const { first, before, whats } = row!;
    const { place, at } = first.measurement.cell;
    const fibres = [row!, ...others].map((one) => one.first.measurement.cell.fibre);
    yield measuredTwice(before, place, {
      ...keyDetails(first),
      what: whats.join(' and '),
      ...(others.length > 0 && { fibres: numbersInWords(fibres), rows: fibres.length }),
      tested: at.text,
    });
  }
}

/** Reflectometers that were past due on the day of a trace. */
function* overdue(context: Context, events: readonly JudgedEvent[]): Iterable<Doubt> {
  const late = new Map<string, EventCell[]>();
  for (const cell of events.flatMap(({ cells }) => cells)) {
    const due = context.input.setup(cell.setup)?.meter?.due;
    if (!due || cell.at.to <= due.to) continue;
    late.set(cell.setup, [...(late.get(cell.setup) ?? []), cell]);
  }
  for (const [name, cells] of late) {
    const instrument = context.input.setup(name)?.meter;
    const [first] = cells;
    if (!instrument || !first) continue;
    const due = instrument.due?.text ?? '';
    yield {
      name: 'calibration-expired',
      place: first.place,
      related: [{ place: instrument.place, message: `${instrument.text}, due ${due}` }],
      details: {
        setup: name,
        instrument: instrument.text,
        due,
        tested: first.at.text,
        readings: cells.length,
      },
    };
  }
}

/** Traces, lengths and end faces that work came after: one note for all of them. */
function* aged(
  context: Context,
  shown: Pick<LinkResult, 'events' | 'inspections' | 'lengths'>,
): Iterable<Doubt> {
  const stale = <One extends { verdict: string }>(list: readonly One[]) =>
    list.filter(({ verdict }) => verdict === 'stale');
  const events = stale(shown.events);
  const faces = stale(shown.inspections);
  const lengths = stale(shown.lengths);
  const first = events[0]?.place ?? faces[0]?.cell?.place ?? lengths[0]?.cell.place;
  const because = [...events, ...faces, ...lengths][0]?.because;
  if (!first || because === undefined) return;
  yield {
    name: 'evidence-aged',
    place: first,
    details: {
      object: context.link.name,
      events: events.length,
      faces: faces.length,
      lengths: lengths.length,
      because,
    },
  };
}
