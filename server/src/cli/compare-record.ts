/**
 * A record that was written as JSON, held against the evidence of the plan as it
 * is: each reading that the record counts on must still be there, as it was.
 */
import { readFile } from 'node:fs/promises';
import type { LinkResult } from '../evaluate/index.ts';
import { planEnding } from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';
import { eventJson, inspectionJson, lengthJson } from '../report/evidence-json.ts';
import { fingerprintOf, readingJson } from '../report/json.ts';
import { pathFrom } from '../report/record/recorded.ts';
import { CommandError } from './console.ts';
import type { RecordCompared } from './formats/changes/since-record.ts';
import { openPaths, toPath } from './open.ts';
import { onlyPlan } from './paper.ts';
import { recordIn } from './read-record.ts';
import { type RecordedObject, type RecordJson, readRecordJson } from './record-json.ts';

export type Difference = 'altered' | 'removed' | 'withdrawn' | 'added' | 'judged';

/** One thing that is other than the record says. */
export interface SinceRecord {
  readonly difference: Difference;
  readonly object: string;
  /** `fibre 9, 850 nm A>B, attempt 1`. */
  readonly subject: string;
  readonly was?: string;
  readonly now?: string;
  /** Of one that is judged otherwise: its verdict then and now. */
  readonly verdicts?: string;
  /** Where it stands now; what is gone has none. */
  readonly place?: Place;
}

type Place = NonNullable<LinkResult['readings'][number]['reading']>['place'];

/** Evidence is kept as it was: these are not what a later day may do to it. */
export const breaking: ReadonlySet<Difference> = new Set(['altered', 'removed', 'added']);

/** The record that a path names, with its bytes read; undefined where it names a plan, or nothing. */
export async function recordAt(path: string): Promise<RecordJson | undefined> {
  if (path.endsWith(planEnding)) return undefined;
  const bytes = await readFile(path).catch(() => undefined);
  if (!bytes) return undefined;
  const record = readRecordJson(bytes.toString('utf8'));
  if (!record && recordIn(bytes)) {
    throw new CommandError(
      `${path} does not hold its readings as data: only a record written as JSON can be compared with a plan. "record --verify ${path}" says which files are others now.`,
    );
  }
  if (!record)
    throw new CommandError(`${path} is neither a plan nor a record that this tool wrote.`);
  return record;
}

/** The record against the one plan that a path names. */
export async function comparedWithRecord(
  record: RecordJson,
  recordPath: string,
  planPath: string,
  asOf: Instant,
): Promise<RecordCompared> {
  const { project, plans } = await openPaths([planPath], asOf);
  const plan = onlyPlan(plans);
  const files = plan.files.map((uri) => ({
    path: pathFrom(plan.root, uri),
    text: project.document(uri)?.text() ?? '',
  }));
  const top = { line: 0, character: 0 };
  return {
    record,
    recordPath,
    planPath: toPath(plan.root),
    same: fingerprintOf(files) === record.results.plan.fingerprint,
    differences: sinceRecord(record, plan).map((each) => {
      const at = each.place && plan.locate(each.place);
      return {
        ...each,
        path: toPath(at?.uri ?? plan.root),
        range: at?.range ?? { start: top, end: top },
      };
    }),
  };
}

/** In the order of the record, what is added last. */
function sinceRecord(record: RecordJson, plan: Plan): readonly SinceRecord[] {
  const { links, channels, rings, sections } = record.results;
  const objects = [...links, ...channels, ...rings, ...sections];
  const now = plan.result.order.flatMap((name) => plan.result.link(name) ?? []);
  if (objects.length > 0 && !objects.some(({ name }) => plan.result.link(name))) {
    throw new CommandError(
      'None of the links of this record is in the plan. Name the plan that it was issued of.',
    );
  }
  const differences = objects.flatMap((object) => {
    const result = plan.result.link(object.name);
    return [
      ...readingDifferences(object, result, record.date),
      ...otherDifferences(object, result),
    ];
  });
  const known = new Set(objects.map(({ name }) => name));
  return [
    ...differences,
    ...now
      .filter(({ link }) => !known.has(link.name))
      .flatMap((result) => readingDifferences(emptyObject(result.link.name), result, record.date)),
    ...setupDifferences(record, plan),
  ];
}

// Readings

type Held = RecordedObject['readings'][number] & { readonly place?: Place };

function readingDifferences(
  object: RecordedObject,
  result: LinkResult | undefined,
  date: string,
): readonly SinceRecord[] {
  const then = byKey(object.readings.filter(({ time }) => time !== null));
  const now = byKey(result ? heldNow(result) : []);
  const keys = new Set([...then.keys(), ...now.keys()]);
  return [...keys].flatMap((key) => matched(then.get(key) ?? [], now.get(key) ?? [], date));
}

function heldNow(result: LinkResult): readonly Held[] {
  return [...result.readings, ...result.reflectances].flatMap((reading): Held[] =>
    reading.reading
      ? [{ ...readingJson(result.link.name, reading), place: reading.reading.place }]
      : [],
  );
}

function byKey(readings: readonly Held[]): Map<string, Held[]> {
  const groups = new Map<string, Held[]>();
  for (const reading of readings) {
    const { fibre, wavelength_nm, direction, quantity } = reading;
    const key = JSON.stringify([fibre, wavelength_nm, direction, quantity]);
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  return groups;
}

/**
 * Readings of one key: first those that are equal, then those of one time, then
 * one value with another time. A reading that is newer than the record is a new attempt.
 */
function matched(
  then: readonly Held[],
  now: readonly Held[],
  date: string,
): readonly SinceRecord[] {
  const left = new Set(now);
  const open: Held[] = [];
  const differences: SinceRecord[] = [];
  const take = (same: (other: Held) => boolean): Held | undefined => {
    const found = [...left].find(same);
    if (found) left.delete(found);
    return found;
  };
  for (const reading of then) {
    const same = take((other) => valuesOf(other) === valuesOf(reading));
    if (same) differences.push(...judgedOtherwise(reading, same));
    else open.push(reading);
  }
  for (const reading of open) {
    const other =
      take(({ time }) => time === reading.time) ??
      take((each) => measured(each) === measured(reading));
    differences.push(other ? altered(reading, other) : removed(reading));
  }
  for (const reading of left) {
    // A day alone is before every time of it: evidence of that very day was there, or is told.
    if ((reading.time ?? '') <= date) differences.push(added(reading));
  }
  return differences;
}

/** What was typed, in words: time, set-up, what was seen, and by what reference. */
function valuesOf(reading: Held): string {
  return [
    measured(reading),
    reading.reference_dbm === null ? '' : `reference ${inDb(reading.reference_dbm)} dBm`,
    reading.setup ? `set-up ${reading.setup}` : '',
    reading.time ?? '',
  ]
    .filter(Boolean)
    .join(', ');
}

function measured({ power_dbm, loss_db, reflectance_db }: Held): string {
  if (power_dbm !== null) return `${inDb(power_dbm)} dBm`;
  if (reflectance_db !== null) return `${inDb(reflectance_db)} dB`;
  return loss_db === null ? 'no light' : `${inDb(loss_db)} dB`;
}

/** No digit is lost, and two decimals are shown where fewer are there. */
function inDb(value: number): string {
  const two = value.toFixed(2);
  return (Number(two) === value ? two : String(value)).replace('-', '−');
}

function subjectOf({ fibre, wavelength_nm, direction, quantity, attempt }: Held): string {
  const light = [`${wavelength_nm} nm`, direction].filter(Boolean).join(' ');
  const what = quantity === 'loss' ? '' : `, ${quantity}`;
  return `fibre ${fibre}, ${light}${what}, attempt ${attempt ?? 'unknown'}`;
}

function altered(was: Held, now: Held): SinceRecord {
  return {
    difference: 'altered',
    object: was.object,
    subject: subjectOf(was),
    was: valuesOf(was),
    now: valuesOf(now),
    ...(now.place ? { place: now.place } : {}),
  };
}

function removed(was: Held): SinceRecord {
  return {
    difference: 'removed',
    object: was.object,
    subject: subjectOf(was),
    was: valuesOf(was),
  };
}

function added(now: Held): SinceRecord {
  return {
    difference: 'added',
    object: now.object,
    subject: subjectOf(now),
    now: valuesOf(now),
    ...(now.place ? { place: now.place } : {}),
  };
}

/** The same reading, judged otherwise: withdrawn since, aged by work, or by another limit. */
function judgedOtherwise(was: Held, now: Held): readonly SinceRecord[] {
  if (was.verdict === now.verdict && was.limit_db === now.limit_db) return [];
  const withdrawn = now.reason === 'withdrawn' && was.reason !== 'withdrawn';
  const words = ({ verdict, limit_db }: Held) =>
    limit_db === null ? verdict : `${verdict}, limit ${inDb(limit_db)} dB`;
  return [
    {
      difference: withdrawn ? 'withdrawn' : 'judged',
      object: was.object,
      subject: subjectOf(was),
      was: words(was),
      now: withdrawn ? (now.because ?? now.verdict) : words(now),
      verdicts: `${was.verdict} ${now.verdict}`,
      ...(now.place ? { place: now.place } : {}),
    },
  ];
}

// Traces, end faces and lengths

function otherDifferences(
  object: RecordedObject,
  result: LinkResult | undefined,
): readonly SinceRecord[] {
  return [
    ...keyed(
      object.name,
      object.events,
      (result?.events ?? []).map((each) => ({ ...eventJson(each), place: each.place })),
      (each) =>
        `event of fibre ${each.fibre}${each.end ? ` ${each.end}` : ''} at ${each.at_m} m, ${each.wavelength_nm} nm, ${each.quantity}`,
      ({ forward_db, back_db }) =>
        [
          forward_db === null ? '' : `A>B ${inDb(forward_db)} dB`,
          back_db === null ? '' : `B>A ${inDb(back_db)} dB`,
        ]
          .filter(Boolean)
          .join(', '),
      () => '',
    ),
    ...keyed(
      object.name,
      object.inspections.filter(({ seen }) => seen !== null),
      (result?.inspections ?? []).map((each) => ({
        ...inspectionJson(each),
        ...(each.cell ? { place: each.cell.place } : {}),
      })),
      (each) =>
        `end face of fibre ${each.fibre}${each.end ? ` ${each.end}` : ''}, side ${each.side}`,
      ({ seen, time }) => [seen, time].filter(Boolean).join(', '),
      ({ time }) => time ?? '',
    ),
    ...keyed(
      object.name,
      object.lengths,
      (result?.lengths ?? []).map((each) => ({ ...lengthJson(each), place: each.cell.place })),
      (each) => `length of fibre ${each.fibre}${each.end ? ` ${each.end}` : ''}`,
      ({ shown_m, time }) => `${shown_m} m, ${time}`,
      ({ time }) => time,
    ),
  ];
}

/** One thing a key; a newer time is no alteration: it was measured again. */
function keyed<Each extends object>(
  object: string,
  then: readonly Each[],
  now: readonly (Each & { readonly place?: Place })[],
  subject: (each: Each) => string,
  words: (each: Each) => string,
  time: (each: Each) => string,
): readonly SinceRecord[] {
  const there = new Map(now.map((each) => [subject(each), each]));
  return then.flatMap((was): SinceRecord[] => {
    const is = there.get(subject(was));
    if (!is || words(is) === '')
      return [{ difference: 'removed', object, subject: subject(was), was: words(was) }];
    if (words(is) === words(was) || time(is) > time(was)) return [];
    return [
      {
        difference: 'altered',
        object,
        subject: subject(was),
        was: words(was),
        now: words(is),
        ...(is.place ? { place: is.place } : {}),
      },
    ];
  });
}

// References of the set-ups

function setupDifferences({ setups }: RecordJson, plan: Plan): readonly SinceRecord[] {
  return setups.flatMap(({ name, events }) => {
    const model = plan.setup(name);
    return events.flatMap((event): SinceRecord[] => {
      if (event.power_dbm === null) return [];
      const light = event.wavelength_nm === null ? '' : `, ${event.wavelength_nm} nm`;
      const subject = `${event.kind} of ${event.time}${light}`;
      const was = `${inDb(event.power_dbm)} dBm`;
      const same = model?.events.find(
        (each) =>
          each.kind === event.kind &&
          each.at.text === event.time &&
          'power' in each &&
          (event.wavelength_nm === null || nanometres(each) === event.wavelength_nm),
      );
      if (!same || !('power' in same))
        return [{ difference: 'removed', object: name, subject, was }];
      const now = `${inDb(same.power / 1e6)} dBm`;
      if (now === was) return [];
      return [{ difference: 'altered', object: name, subject, was, now, place: same.place }];
    });
  });
}

function nanometres(event: object): number | undefined {
  return 'wavelength' in event ? Number(event.wavelength) / 1000 : undefined;
}

function emptyObject(name: string): RecordedObject {
  return { name, readings: [], events: [], inspections: [], lengths: [] };
}
