/**
 * What the losses of a batch do in the order in which they were measured: a
 * slow drift while the source warms up, or a level that changes at one fibre
 * and stays, as with a cord that went bad. All wavelengths and directions of a
 * fibre are looked at together first, since they mostly share the cause. Rows of
 * one block without times of their own are taken as measured in their order:
 * good enough to ask a question, and nothing is judged by it.
 */
import {
  countsOf,
  mean,
  middleOf,
  neighbourSigma,
  type Step,
  stepOf,
  type Trend,
  trendOf,
} from '../optics/index.ts';
import { type Batch, type BatchDoubt, inDetail, level } from './batches.ts';
import { boundsOf } from './bounds.ts';
import { numbersInWords } from './doubts.ts';
import { db, nm } from './reasons.ts';
import type { Attempt } from './settle.ts';
import {
  courseTimes,
  stepApart,
  stepSide,
  stepSignificance,
  trendErrors,
  trendFew,
  trendSignificance,
} from './thresholds.ts';

/** Readings of some columns, one mean a fibre, in the order of measuring. */
interface Course {
  readonly batches: readonly Batch[];
  readonly fibres: readonly number[];
  readonly values: readonly number[];
  readonly step?: Step;
  readonly trend?: Trend;
  readonly significance: number;
}

export function* orderDoubts(batches: readonly Batch[]): Iterable<BatchDoubt> {
  const sessions = new Map<string, Batch[]>();
  const contexts = [...new Set(batches.map(({ context }) => context))];
  for (const batch of batches) {
    if (batch.attempts.length < boundsOf(batch.context.settings).courseMates) continue;
    const key = `${contexts.indexOf(batch.context)} ${batch.setup}`;
    sessions.set(key, [...(sessions.get(key) ?? []), batch]);
  }
  for (const session of sessions.values()) {
    const found = groupsOf(session).flatMap((group) => courseOf(group) ?? []);
    const [first] = found;
    if (!first) continue;
    const surest = found.reduce((a, b) => (b.significance > a.significance ? b : a), first);
    yield told(sharedBy(session, surest, found) ?? surest);
  }
}

/** Where each wavelength steps at the same fibre, all of them do, however sure one is by itself. */
function sharedBy(
  session: readonly Batch[],
  { step }: Course,
  found: readonly Course[],
): Course | undefined {
  const whole = found.find(({ batches }) => batches === session);
  if (!step || whole?.step?.at !== step.at) return undefined;
  const wavelengths = [...new Set(session.map(({ wavelength }) => wavelength))];
  const shared = wavelengths.every((wavelength) =>
    found.some(
      (one) =>
        one.step?.at === step.at &&
        one.step.size > 0 === step.size > 0 &&
        one.batches.every((batch) => batch.wavelength === wavelength),
    ),
  );
  return shared ? whole : undefined;
}

/** All together, each direction, each wavelength. */
function groupsOf(session: readonly Batch[]): readonly (readonly Batch[])[] {
  const by = (key: (batch: Batch) => unknown) =>
    [...countsOf(session.map(key)).keys()].map((value) =>
      session.filter((batch) => key(batch) === value),
    );
  const groups = [
    session,
    ...by(({ direction }) => direction),
    ...by(({ wavelength }) => wavelength),
  ];
  return groups.filter(
    (group, at) =>
      groups.findIndex(
        (other) => other.length === group.length && other.every((one) => group.includes(one)),
      ) === at,
  );
}

function courseOf(batches: readonly Batch[]): Course | undefined {
  const byFibre = new Map<number, number[]>();
  for (const { attempts } of batches) {
    const middle = middleOf(attempts.map(level));
    for (const attempt of attempts) {
      const { fibre } = attempt.measurement.cell;
      byFibre.set(fibre, [...(byFibre.get(fibre) ?? []), level(attempt) - middle]);
    }
  }
  const whole = [...byFibre].filter(([, each]) => each.length === batches.length);
  const fibres = whole.map(([fibre]) => fibre);
  const values = whole.map(([, each]) => mean(each));
  const [first] = batches;
  if (!first || values.length < boundsOf(first.context.settings).courseMates) return undefined;
  const bound = least(first);
  const step = stepOf(values, stepSide);
  // Most batches end here: the halves of a drift lie half of its rise apart.
  if (step && Math.abs(step.size) < bound / 2) return undefined;
  const trend = trendOf(values);
  const noise = neighbourSigma(values);
  const stepped =
    step &&
    Math.abs(step.size) >= bound &&
    step.significance >= stepSignificance &&
    step.apart >= stepApart;
  // Few values cannot be sure by their ranks alone: then the rise has to stand out from their scatter.
  const ranked = Math.abs(trend.significance);
  const errors = Math.abs(trend.rise) / (noise * Math.sqrt(12 / values.length));
  const drifted =
    Math.abs(trend.rise) >= Math.max(bound, noise) &&
    (ranked >= trendSignificance || (ranked >= trendFew && errors >= trendErrors));
  if (step && stepped && (!drifted || step.misfit <= trend.misfit)) {
    return { batches, fibres, values, step, significance: step.significance };
  }
  if (!drifted) return undefined;
  return { batches, fibres, values, trend, significance: Math.abs(trend.significance) };
}

/** What the plan says, else so many times what two readings of one set-up may differ by chance: √2 · 2 · repeatability. */
function least({ context, wavelength, attempts: [first] }: Batch): number {
  const { course } = boundsOf(context.settings);
  if (course !== undefined) return db(course);
  const { repeatable } = context.uncertainty(wavelength, first?.result.method);
  return courseTimes * Math.SQRT2 * 2 * db(repeatable);
}

function told({ batches, fibres, values, step, trend }: Course): BatchDoubt {
  const attempts = batches.flatMap((batch) => batch.attempts);
  const fibreAt = fibres[step?.at ?? 0];
  const first = attempts.find((attempt) => attempt.measurement.cell.fibre === fibreAt);
  const columns = {
    readings: attempts.length,
    wavelengths: [...new Set(batches.map(({ wavelength }) => nm(wavelength)))].join(' and '),
    directions: [...new Set(batches.flatMap(({ direction }) => direction ?? []))].join(' and '),
    setup: batches[0]?.setup ?? '',
    bound: inDetail(batches[0] ? least(batches[0]) : 0),
  };
  const place = (first ?? (attempts[0] as Attempt)).measurement.cell.place;
  if (step) {
    const later = fibres.slice(step.at);
    return {
      name: 'level-changes',
      place,
      details: {
        ...columns,
        fibre: fibreAt ?? 0,
        before: fibres[step.at - 1] ?? 0,
        later: numbersInWords(later),
        size: inDetail(Math.abs(step.size)),
        up: step.size > 0 ? 1 : 0,
      },
      instead: {
        names: ['pass-but-outlier', 'batch-too-high', 'joint-signature'],
        attempts: attempts.filter(({ measurement }) => later.includes(measurement.cell.fibre)),
      },
    };
  }
  return {
    name: 'drift-while-testing',
    place,
    details: {
      ...columns,
      from: fibres[0] ?? 0,
      to: fibres.at(-1) ?? 0,
      fibres: values.length,
      size: inDetail(Math.abs(trend!.rise)),
      up: trend!.rise > 0 ? 1 : 0,
    },
    instead: { names: ['pass-but-outlier'], attempts },
  };
}
