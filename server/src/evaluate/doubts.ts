/**
 * What evaluation noticed of readings, as data for the findings. Numbers in
 * `details` are decibels, dBm, nanometres, metres and counts; times are as
 * written; `fibres` is a list in words. One cause is one doubt, on the first
 * reading it concerns.
 */
import { type ExactDb, exactDb, subtractDb } from '../../../grammar/src/quantity/index.ts';
import type { Short } from './concede.ts';
import type { Context } from './context.ts';
import { type Key, keyText } from './expected.ts';
import { objectOf } from './path.ts';
import { db, nm, type Reason } from './reasons.ts';
import type { Doubt } from './result.ts';
import type { Attempt, Settled } from './settle.ts';

/** Decibels of an exact value as a number for details. */
export function exact(value: ExactDb): number {
  return Number(value) / 1e15;
}

/** `1..3, 7`: numbers in words, runs drawn together. */
export function numbersInWords(numbers: readonly number[]): string {
  const sorted = [...new Set(numbers)].sort((a, b) => a - b);
  const runs: string[] = [];
  for (let at = 0; at < sorted.length; ) {
    let end = at;
    while (sorted[end + 1] === (sorted[end] ?? NaN) + 1) end++;
    runs.push(end > at ? `${sorted[at]}..${sorted[end]}` : `${sorted[at]}`);
    at = end + 1;
  }
  return runs.join(', ');
}

/** Fibre, wavelength and direction of an attempt, for details. */
export function keyDetails(attempt: Attempt): Record<string, string | number> {
  const { fibre, wavelength, direction } = attempt.measurement.cell;
  return { fibre, wavelength: nm(wavelength), ...(direction ? { direction } : {}) };
}

/** Why readings are invalid or stale, one doubt per cause. A cause that a later good reading answered is not raised. */
export function* doubtsOfValidity(settled: ReadonlyMap<string, Settled>): Iterable<Doubt> {
  const causes = new Map<string, { why: Reason; attempts: Attempt[] }>();
  for (const { attempts, current } of settled.values()) {
    for (const attempt of attempts) {
      const why = attempt.reason;
      if (!why || attempt.withdrawn) continue;
      const answered = current?.valid && current.number > attempt.number;
      if (answered) continue;
      if (why.name === 'stale-reading' && attempt !== current) continue;
      const own = grouped.has(why.name)
        ? ''
        : `${attempt.measurement.cell.place.block}:${attempt.measurement.cell.place.span.start}`;
      const key = ofColumn.has(why.name)
        ? columnOf(why.name, attempt)
        : `${why.name}|${why.because}|${own}`;
      const known = causes.get(key);
      if (known) known.attempts.push(attempt);
      else causes.set(key, { why, attempts: [attempt] });
    }
  }
  for (const { why, attempts } of causes.values()) {
    const [first] = attempts;
    if (!first) continue;
    const fibres = attempts.map((attempt) => attempt.measurement.cell.fibre);
    yield {
      name: why.name,
      place: first.measurement.cell.place,
      related: why.related,
      details: {
        ...keyDetails(first),
        ...why.details,
        because: why.because,
        readings: attempts.length,
        fibres: numbersInWords(fibres),
      },
    };
  }
}

/** Causes that lie in the reference of one column of a block, whatever each reading shows. */
const ofColumn: ReadonlySet<string> = new Set(['loss-negative']);

function columnOf(name: string, { measurement: { cell } }: Attempt): string {
  const { setup, wavelength, direction, place } = cell;
  return `${name}|${setup}|${place.block}|${wavelength}|${direction}`;
}

/** Causes that lie in the set-up or in work and concern many readings alike. */
const grouped = new Set([
  'reference-missing',
  'reference-expired',
  'reference-drift',
  'reference-disturbed',
  'reference-suspect',
  'closing-check-missing',
  'receive-cord-missing',
  'cord-not-verified',
  'cord-out-of-spec',
  'cord-grade-missing',
  'cord-fibre-mismatch',
  'cord-polish-mismatch',
  'method-undeclared',
  'setup-unknown',
  'sign-suspect',
  'unit-suspect',
  'reading-in-future',
  'set-ups-claim-one-reading',
  'stale-reading',
  'wrong-pair',
]);

/** Words about each reading that stands: over, marginal, too good, slightly negative, spent concession, not repeatable. */
export function* doubtsOfReading(
  context: Context,
  one: Settled,
  spent: Reason | undefined,
  short?: Short,
): Iterable<Doubt> {
  const { current } = one;
  if (!current?.valid) return;
  const { cell } = current.measurement;
  const at = { place: cell.place, key: keyDetails(current) };
  if (!context.link.fibres.includes(cell.fibre)) {
    // Kept and listed, outside what is asked of the object: nothing else is said of it.
    // An object that does not say how many fibres it has is asked for that instead.
    if (context.link.fibres.length === 0) return;
    yield {
      name: 'fibre-not-in-plan',
      place: at.place,
      details: { ...at.key, object: context.link.name, has: numbersInWords(context.link.fibres) },
    };
    return;
  }
  if (current.noticed) {
    const { name, details, related } = current.noticed;
    yield { name, place: at.place, related, details: { ...at.key, ...details } };
  }
  if (spent) {
    yield {
      name: spent.name,
      place: at.place,
      related: spent.related,
      details: { ...at.key, ...spent.details },
    };
  }
  const { verdict, limit, margin, loss, lossBound, uncertainty } = current.result;
  const named = current.rise ? 'rise-after-repair' : namedVerdict(verdict);
  if (!named || limit?.value === undefined) return;
  const margins: Record<string, number> =
    margin === undefined
      ? lossBound === undefined
        ? darkness(current, context)
        : { over: exact(subtractDb(exactDb(lossBound), limit.value)), dark: 1 }
      : margin < 0n
        ? { over: exact(-margin as ExactDb), margin: exact(margin) }
        : { margin: exact(margin) };
  yield {
    name: named,
    place: at.place,
    details: {
      ...at.key,
      ...(loss === undefined ? {} : { loss: db(loss) }),
      ...(lossBound === undefined ? {} : { bound: db(lossBound) }),
      ...(current.compared?.readings === 2
        ? { average: exact((exactDb(current.compared.sum) / 2n) as ExactDb) }
        : {}),
      ...(cell.quantity === 'power' && current.result.power !== undefined
        ? { power: db(current.result.power) }
        : {}),
      limit: exact(limit.value),
      limitName: limit.name,
      limitKind: limit.kind,
      ...(limit.recalled ? { recalled: 1 } : {}),
      uncertainty: db(uncertainty),
      attempt: current.number,
      ...(short && {
        accepted: short.accepted,
        acceptedBy: short.by,
        ...(short.ended !== undefined && { ended: short.ended }),
      }),
      ...current.rise,
      ...margins,
      ...(named === 'over-limit' ? retest(context, one) : {}),
    },
  };
}

/** No light where power was asked for: less than the floor of the meter. */
function darkness({ measurement }: Attempt, { input }: Context): Record<string, number> {
  const { typed, setup } = measurement.cell;
  const floor = input.setup(setup)?.meter?.floor;
  return typed === 'dark' && floor !== undefined ? { dark: 1, power: db(floor) } : {};
}

function namedVerdict(verdict: string): string | undefined {
  if (verdict === 'fail') return 'over-limit';
  return verdict === 'marginal-pass' || verdict === 'marginal-fail' ? verdict : undefined;
}

/** What a limits set says of a retest: from `reject` over the limit on, or after so many tries, there is none. */
function retest(context: Context, one: Settled): Record<string, string | number> {
  const object = objectOf(context.link);
  const band = context.link.terms.limits
    .flatMap((set) => set.reject)
    .find((entry) => entry.object === undefined || entry.object === object);
  const margin = one.current?.result.margin;
  if (!band) return {};
  const failed = one.attempts.filter(
    (attempt) => attempt.valid && !attempt.withdrawn && (attempt.result.margin ?? 0n) < 0n,
  ).length;
  const tried = failed - 1;
  const far = margin !== undefined && -margin >= exactDb(band.over);
  const often = band.after !== undefined && tried >= band.after;
  return {
    action: far || often ? 'reject' : 'clean and retest',
    reject: db(band.over),
    ...(far && { far: 1 }),
    object,
    retests: Math.max(0, tried),
  };
}

/** Keys of the expected set with nothing that stands: one doubt for the whole object. */
export function* doubtsOfCoverage(
  context: Context,
  expected: readonly Key[],
  settled: ReadonlyMap<string, Settled>,
): Iterable<Doubt> {
  const missing = expected.filter(
    (key) => !settled.get(keyText(key.fibre, key.wavelength, key.direction))?.current,
  );
  const [first] = missing;
  if (!first) return;
  const { link } = context;
  const ends = new Map(link.ways.map((way) => [way.fibre, way.name]));
  const listed = missing
    .slice(0, 6)
    .map(
      ({ fibre, wavelength, direction }) =>
        `${ends.get(fibre) ?? `fibre ${fibre}`}, ${nm(wavelength)} nm ${direction}`,
    );
  yield {
    name: 'readings-missing',
    place: link.namePlace,
    details: {
      missing: missing.length,
      expected: expected.length,
      present: expected.length - missing.length,
      fibre: first.fibre,
      wavelength: nm(first.wavelength),
      direction: first.direction,
      fibres: numbersInWords(missing.map((key) => key.fibre)),
      list: listed.join('; '),
      more: missing.length - listed.length,
    },
  };
}
