/**
 * Whether a reference was in force when a reading was made.
 *
 * A reference belongs to source, launch cord, meter and wavelength. A reading
 * is good if an earlier reference exists with no disturbance between, its age
 * since the last reference or good check is within expiry, no bad check lies
 * between or comes next, and, where a closing check is wanted, the next one is
 * good. A check is judged against the reference, never against the check
 * before, so that drift cannot creep. Order comes from recorded times.
 *
 * Source: MIL-STD-2042-6B(SH) for the recorded reference power and the
 * undisturbed joint at the source; bracketing, tolerances and expiry are
 * common practice and settings of the plan.
 */
import {
  type MicroDb,
  type MicroDbm,
  microDb,
  type Picometres,
  subtractMicroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { PlanSettings, Setup, SetupEvent, When } from '../model/types.ts';
import { rolesInReference } from './cords.ts';
import { db, endOfDay, inDb, nm, type Reason, reason, timeInWords } from './reasons.ts';

export type Standing =
  | {
      readonly good: true;
      readonly reference: MicroDbm;
      /** Largest difference from the reference in the checks on either side, with no sign. */
      readonly drift: MicroDb;
    }
  | { readonly good: false; readonly reference?: MicroDbm; readonly reason: Reason };

type Power = Extract<SetupEvent, { kind: 'taken' | 'checked' }>;
type Disturbed = Extract<SetupEvent, { kind: 'disturbed' }>;

/** Events of one set-up that concern one wavelength, in order. */
interface Timeline {
  readonly setup: Setup;
  readonly wavelength: Picometres;
  readonly powers: readonly { readonly event: Power; readonly order: number }[];
  readonly disturbances: readonly { readonly event: Disturbed; readonly order: number }[];
  readonly settings: PlanSettings;
}

/**
 * The standing of a reading made at some time within `when`: good only if it
 * is good at both ends, and at every event between.
 */
export function standingIn(
  setup: Setup,
  wavelength: Picometres,
  when: When,
  settings: PlanSettings,
): Standing {
  const timeline = timelineOf(setup, wavelength, settings);
  let worst: Standing | undefined;
  for (const minute of instantsIn(timeline, when)) {
    const standing = standingAt(timeline, minute);
    if (!standing.good) return standing;
    if (!worst?.good) worst = standing;
    else {
      // Two references in one interval: the one that makes the loss greater, so that doubt never helps.
      worst = {
        good: true,
        reference: Math.max(standing.reference, worst.reference) as MicroDbm,
        drift: Math.max(standing.drift, worst.drift) as MicroDb,
      };
    }
  }
  return worst ?? standingAt(timeline, when.from);
}

/** Instants at which the reading's fate can change. */
function instantsIn(timeline: Timeline, when: When): readonly number[] {
  const instants = new Set([when.from, when.to]);
  if (when.from === when.to) return [...instants];
  const events = [...timeline.powers, ...timeline.disturbances].map(({ event }) => event.at);
  const changes = timeline.setup.cords.flatMap((cord) => cord.since ?? []);
  for (const at of [...events, ...changes]) {
    for (const minute of [at.from - 1, at.from, at.to, at.to + 1]) {
      if (minute > when.from && minute < when.to) instants.add(minute);
    }
  }
  return [...instants].sort((a, b) => a - b);
}

function timelineOf(setup: Setup, wavelength: Picometres, settings: PlanSettings): Timeline {
  const powers: { event: Power; order: number }[] = [];
  const disturbances: { event: Disturbed; order: number }[] = [];
  for (const [order, event] of setup.events.entries()) {
    if (event.kind === 'disturbed') disturbances.push({ event, order });
    else if (event.kind !== 'verified' && event.wavelength === wavelength) {
      powers.push({ event, order });
    }
  }
  return { setup, wavelength, powers, disturbances, settings };
}

function standingAt(timeline: Timeline, minute: number): Standing {
  const { setup, powers, settings } = timeline;
  const index = powers.findLastIndex(
    ({ event }) => event.kind === 'taken' && event.at.to <= minute,
  );
  const taken = powers[index];
  if (!taken) return { good: false, reason: missing(timeline, minute) };
  const reference = taken.event.power;
  const bad = (why: Reason): Standing => ({ good: false, reference, reason: why });

  const disturbed =
    disturbedBetween(timeline, taken, minute) ?? changedCord(timeline, taken, minute);
  if (disturbed) return bad(disturbed);

  let last = taken.event.at.from;
  let drift = 0;
  let closing: Power | undefined;
  let ended = false;
  for (const { event } of powers.slice(index + 1)) {
    if (event.kind === 'taken') {
      ended = true;
      break;
    }
    const difference = event.power - reference;
    const within = Math.abs(difference) <= settings.drift.loss;
    const before = event.at.to <= minute;
    // A bad check voids what follows it until a new reference, and what precedes it since the last good one.
    if (!within) return bad(drifted(timeline, taken.event, event));
    drift = before ? Math.abs(difference) : Math.max(drift, Math.abs(difference));
    if (before) last = event.at.from;
    if (event.at.from >= minute) {
      closing = event;
      break;
    }
  }
  const closed =
    closing !== undefined && !disturbedBetween(timeline, taken, closing.at.to)
      ? closing
      : undefined;
  const expires =
    settings.drift.expiry === undefined ? endOfDay(last) : last + settings.drift.expiry;
  if (minute > expires && !(settings.drift.extended && closed)) {
    return bad(expired(timeline, last, expires, minute));
  }
  if (settings.drift.closing && !closed) return bad(open(timeline, taken.event, ended));
  return { good: true, reference, drift: microDb(drift) };

  function open(of: Timeline, from: Power, replaced: boolean): Reason {
    const after = replaced ? 'before the next reference' : 'yet';
    const because = `the plan asks for a closing check, and none follows in set-up ${setup.name} ${after}`;
    return reason(
      'closing-check-missing',
      because,
      { setup: setup.name, wavelength: nm(of.wavelength), taken: from.at.text },
      [{ place: from.place, message: `reference of ${from.at.text}` }],
    );
  }
}

function missing(timeline: Timeline, minute: number): Reason {
  const { setup, wavelength, powers } = timeline;
  const later = powers.find(({ event }) => event.kind === 'taken')?.event;
  const dated = later !== undefined && later.at.from <= minute;
  const why = !later
    ? `set-up ${setup.name} has no reference at ${nm(wavelength)} nm`
    : dated
      ? `the reference of ${later.at.text} at ${nm(wavelength)} nm has no time of day`
      : `the first reference at ${nm(wavelength)} nm in set-up ${setup.name} is of ${later.at.text}`;
  return reason(
    'reference-missing',
    why,
    {
      setup: setup.name,
      wavelength: nm(wavelength),
      time: timeInWords(minute),
      ...(later ? { first: later.at.text } : {}),
    },
    later
      ? [{ place: later.place, message: `reference of ${later.at.text}` }]
      : [{ place: setup.place, message: `set-up ${setup.name}` }],
  );
}

function disturbedBetween(
  timeline: Timeline,
  taken: { readonly event: Power; readonly order: number },
  minute: number,
): Reason | undefined {
  const { setup, wavelength } = timeline;
  const hit = timeline.disturbances.find(
    ({ event, order }) =>
      event.at.from <= minute &&
      (event.at.to > taken.event.at.to ||
        (event.at.to === taken.event.at.to && order > taken.order)),
  )?.event;
  if (!hit) return undefined;
  const why = hit.because ? ` (${hit.because})` : '';
  return reason(
    'reference-disturbed',
    `set-up ${setup.name} was disturbed at ${hit.at.text}${why}, and no reference was taken since`,
    {
      setup: setup.name,
      wavelength: nm(wavelength),
      disturbed: hit.at.text,
      taken: taken.event.at.text,
      ...(hit.because ? { cause: hit.because } : {}),
    },
    [{ place: hit.place, message: `disturbed at ${hit.at.text}` }],
  );
}

/** A cord that is part of the reference and was replaced since voids it, and nothing heals that. */
function changedCord(
  timeline: Timeline,
  taken: { readonly event: Power; readonly order: number },
  minute: number,
): Reason | undefined {
  const { setup, wavelength } = timeline;
  const roles = rolesInReference(setup);
  const cord = setup.cords.find(
    ({ role, since }) =>
      since !== undefined &&
      roles.includes(role) &&
      since.to > taken.event.at.to &&
      since.from <= minute,
  );
  if (!cord?.since) return undefined;
  return reason(
    'reference-disturbed',
    `${cord.name} came in at ${cord.since.text} and is part of the reference of ${taken.event.at.text}`,
    {
      setup: setup.name,
      wavelength: nm(wavelength),
      disturbed: cord.since.text,
      taken: taken.event.at.text,
      cord: cord.name,
      cause: `${cord.role} cord replaced`,
    },
    [{ place: cord.place, message: `${cord.name} since ${cord.since.text}` }],
  );
}

function drifted(timeline: Timeline, taken: Power, check: Power): Reason {
  const { setup, wavelength, settings } = timeline;
  const drift = microDb(check.power - taken.power);
  // A source that fell makes later readings too high, which is the safe side; they are void all the same.
  const side = drift < 0 ? 'high' : 'low';
  return reason(
    'reference-drift',
    `the check of ${check.at.text} differs by ${inDb(drift, settings.drift.loss)} from the reference of ${taken.at.text}, more than ${inDb(settings.drift.loss, drift)}; readings may be too ${side}`,
    {
      setup: setup.name,
      wavelength: nm(wavelength),
      drift: db(drift),
      tolerance: db(settings.drift.loss),
      over: db(subtractMicroDb(microDb(Math.abs(drift)), settings.drift.loss)),
      checked: check.at.text,
      taken: taken.at.text,
      reference: db(taken.power),
      check: db(check.power),
      side,
    },
    [
      { place: check.place, message: `check of ${check.at.text}` },
      { place: taken.place, message: `reference of ${taken.at.text}` },
    ],
  );
}

function expired(timeline: Timeline, last: number, expires: number, minute: number): Reason {
  const { setup, wavelength } = timeline;
  return reason(
    'reference-expired',
    `the last reference or good check at ${nm(wavelength)} nm in set-up ${setup.name}, of ${timeInWords(last)}, held until ${timeInWords(expires)}`,
    {
      setup: setup.name,
      wavelength: nm(wavelength),
      last: timeInWords(last),
      expired: timeInWords(expires),
      time: timeInWords(minute),
      age: minute - last,
    },
    [{ place: setup.place, message: `set-up ${setup.name}` }],
  );
}

/**
 * Whether an impossible reading casts doubt on another of the same set-up and
 * wavelength: it does on all since the last good check before it, until a
 * check of that reference passes.
 */
export function isHeld(
  setup: Setup,
  wavelength: Picometres,
  reading: When,
  suspicion: When,
  settings: PlanSettings,
): boolean {
  const { powers } = timelineOf(setup, wavelength, settings);
  const inForce = (minute: number) =>
    powers.findLastIndex(({ event }) => event.kind === 'taken' && event.at.to <= minute);
  const index = inForce(suspicion.from);
  const taken = powers[index]?.event;
  if (!taken || (inForce(reading.from) !== index && inForce(reading.to) !== index)) return false;
  let since = taken.at.from;
  for (const { event } of powers.slice(index + 1)) {
    if (event.kind === 'taken') break;
    if (Math.abs(event.power - taken.power) > settings.drift.loss) continue;
    if (event.at.from >= suspicion.to) return false;
    if (event.at.to <= suspicion.from) since = Math.max(since, event.at.from);
  }
  return reading.to >= since;
}
