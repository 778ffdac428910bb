/** What is not simply a pass: exceedances, concessions, retests, what was not tested, what was withdrawn, answered or done. */
import { microToNumber } from '../../../../grammar/src/quantity/index.ts';
import { numbersInWords } from '../../evaluate/doubts.ts';
import type { LinkResult, ReadingResult, Verdict } from '../../evaluate/result.ts';
import type { Narrowing } from '../../model/types.ts';
import { placeName } from '../../model/ways.ts';
import { decibels, key, margin, wavelength } from '../figures.ts';
import type { Documented } from '../paper/plan.ts';
import { lossText } from '../rows/fibre.ts';
import { rankOf } from '../verdicts.ts';
import { resultsIn } from './judged.ts';

export interface ExceptionLine {
  readonly object: string;
  readonly place: string;
  readonly what: string;
  readonly loss: string;
  readonly limit: string;
  readonly margin: string;
  readonly verdict: Verdict;
  readonly because: string;
}

/** Readings that stand and are no plain pass, the worst first; what is untested is told by link. */
export function exceptionsIn(subject: Documented): readonly ExceptionLine[] {
  return resultsIn(subject)
    .flatMap((result) =>
      result.fibres.flatMap(({ current }) =>
        current
          .filter(({ verdict }) => verdict !== 'pass' && verdict !== 'untested')
          .map((reading) => exceptionOf(subject, result, reading)),
      ),
    )
    .sort((a, b) => rankOf(a.verdict) - rankOf(b.verdict));
}

function exceptionOf(
  { display }: Documented,
  { link }: LinkResult,
  reading: ReadingResult,
): ExceptionLine {
  const { precision } = display;
  return {
    object: link.name,
    place: placeName(link, reading.fibre),
    what: key(reading),
    loss: lossText(reading, precision),
    limit: reading.limit?.value === undefined ? '' : decibels(reading.limit.value, precision),
    margin: reading.margin === undefined ? '' : margin(reading.margin, precision),
    verdict: reading.verdict,
    because: reading.because,
  };
}

export interface Decision {
  readonly object: string;
  readonly of: string;
  readonly what: string;
  readonly because: string;
  readonly by: string;
}

export function concessionsIn(subject: Documented): readonly Decision[] {
  return resultsIn(subject).flatMap(({ link }) =>
    subject.plan.evidence(link.name).concessions.map((each) => ({
      object: link.name,
      of: narrowingInWords(each),
      what: `up to ${microToNumber(each.accepted)} dB${each.until ? ` until ${each.until.text}` : ''}`,
      because: each.because,
      by: [each.by, each.on?.text].filter(Boolean).join(', '),
    })),
  );
}

export function withdrawalsIn(subject: Documented): readonly Decision[] {
  return resultsIn(subject).flatMap(({ link }) =>
    subject.plan.evidence(link.name).withdrawals.map((each) => ({
      object: link.name,
      of: narrowingInWords(each),
      what: each.tested ? `readings of ${each.tested.text}` : 'readings',
      because: each.because,
      by: each.by,
    })),
  );
}

function narrowingInWords({ fibres, wavelength: at, direction }: Narrowing): string {
  const parts = [
    fibres ? `${fibres.length > 1 ? 'fibres' : 'fibre'} ${numbersInWords(fibres)}` : 'all fibres',
    at === undefined ? '' : wavelength(at),
    direction ?? '',
  ];
  return parts.filter(Boolean).join(' ');
}

export interface Retest {
  readonly object: string;
  readonly place: string;
  readonly what: string;
  /** In order: `2.61 fail, 2026-03-16 09:05`. */
  readonly attempts: readonly string[];
}

/** Every fibre, wavelength and direction that was read more than once. */
export function retestsIn(subject: Documented): readonly Retest[] {
  return resultsIn(subject).flatMap((result) => {
    const keys = new Map<string, ReadingResult[]>();
    for (const reading of [...result.readings, ...result.reflectances]) {
      if (reading.attempt === null) continue;
      const own = `${reading.fibre} ${key(reading)}`;
      keys.set(own, [...(keys.get(own) ?? []), reading]);
    }
    return [...keys.values()]
      .filter((attempts) => attempts.length > 1)
      .map((attempts) => ({
        object: result.link.name,
        place: placeName(result.link, attempts[0]!.fibre),
        what: key(attempts[0]!),
        attempts: attempts
          .toSorted((a, b) => (a.attempt ?? 0) - (b.attempt ?? 0))
          .map(
            (each) =>
              `${lossText(each, subject.display.precision)} ${each.verdict}, ${each.reading?.at.text ?? 'no time'}${each.current ? ', stands' : ''}`,
          ),
      }));
  });
}

export interface Untested {
  readonly object: string;
  readonly what: string;
  readonly why: string;
}

/** By link, wavelength and direction, and why where somebody said it. */
export function untestedIn(subject: Documented): readonly Untested[] {
  return resultsIn(subject).flatMap((result) => {
    const { absences } = subject.plan.evidence(result.link.name);
    const groups = new Map<
      string,
      { readonly what: string; readonly why: string; readonly fibres: number[] }
    >();
    for (const reading of result.fibres.flatMap(({ current }) => current)) {
      if (reading.attempt !== null) continue;
      const absence = absences.find(
        (each) =>
          each.fibre === reading.fibre &&
          each.wavelength === reading.wavelength &&
          each.direction === reading.direction,
      );
      const why = absence?.remark ?? reading.because;
      const own = `${key(reading)}\0${why}`;
      const group = groups.get(own) ?? { what: key(reading), why, fibres: [] };
      group.fibres.push(reading.fibre);
      groups.set(own, group);
    }
    return [...groups.values()].map(({ what, why, fibres }) => ({
      object: result.link.name,
      what: `${what}, ${result.link.ways.length > 0 ? fibres.map((fibre) => placeName(result.link, fibre)).join(', ') : `${fibres.length > 1 ? 'fibres' : 'fibre'} ${numbersInWords(fibres)}`}`,
      why,
    }));
  });
}

export interface Answered {
  readonly about: string;
  readonly name: string;
  readonly message: string;
  readonly answer: string;
}

/** Findings that somebody answered in words. */
export function answeredIn({ plan }: Documented): readonly Answered[] {
  return [...plan.allFindings().values()]
    .flat()
    .flatMap(({ about = '', name, message, silenced }) =>
      silenced === undefined ? [] : [{ about, name, message, answer: silenced }],
    );
}

export interface Done {
  readonly object: string;
  readonly what: string;
  readonly on: string;
  readonly by: string;
}

/** Work since which earlier readings no longer speak for the link. */
export function workIn(subject: Documented): readonly Done[] {
  return resultsIn(subject).flatMap(({ link }) =>
    subject.plan.evidence(link.name).work.map(({ done, fibres, at, on, by }) => ({
      object: link.name,
      what: [done, fibres ? `fibres ${numbersInWords(fibres)}` : '', at ? `at ${at}` : '']
        .filter(Boolean)
        .join(', '),
      on: on.text,
      by: by ?? '',
    })),
  );
}
