/**
 * What one run of characters says: a number, a date, a range, a pair, a number
 * with its unit, else a name. A run is read whole, or is one finding.
 */
import { composed, copied } from './characters.ts';
import { type Decimal, findUnit, readDecimal } from './quantity/index.ts';
import type { Argument, Span } from './tree.ts';

/** A range names at most so many; larger cables do not exist, and a slip of the hand is found. */
const longestRange = 100_000;

/** What is wrong with a run: the name of the finding, its details and a replacement. */
export interface RunProblem {
  readonly name: string;
  readonly details?: Record<string, string | number>;
  /** What to write instead, and what that is called. */
  readonly instead?: string;
}

export interface ReadRun {
  readonly argument: Argument;
  readonly problem?: RunProblem;
}

const glued = /^([-−]?(?:\d+(?:\.\d+)?|\.\d+))(.+)$/u;
const plainRange = /^(\d+)\.\.(\d+)$/u;
const namedRange = /^(.*?)(\d+)\.\.(\d+)$/u;
const pair = /^(\d+):(\d+)$/u;
const date = /^(\d{4})-(\d{2})-(\d{2})$/u;
const holdsLetter = /\p{L}/u;

/** Number from its digits. `decimal` is undefined where the run is no number. */
function readNumber(text: string, span: Span): Argument | undefined {
  const value = fastDecimal(text) ?? slowDecimal(text);
  return value && { kind: 'number', span, digits: text, value };
}

function fastDecimal(text: string): Decimal | undefined {
  if (text.length > 15) return undefined;
  let at = text.charCodeAt(0) === 45 ? 1 : 0;
  const negative = at === 1;
  let value = 0;
  let places = -1;
  const first = at;
  for (; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code >= 48 && code <= 57) {
      value = value * 10 + code - 48;
      if (places >= 0) places++;
    } else if (code === 46 && places < 0) {
      places = 0;
    } else {
      return undefined;
    }
  }
  if (places === 0 || at === first) return undefined;
  return { scaled: BigInt(negative ? -value : value), places: Math.max(places, 0) };
}

function slowDecimal(text: string): Decimal | undefined {
  return text.startsWith('+') ? undefined : readDecimal(text);
}

/** Reads a run of the characters that runs are made of. */
export function readRun(text: string, span: Span): ReadRun {
  if (isAsciiLetter(text.charCodeAt(0))) return readLettered(text, span);
  const number = readNumber(text, span);
  if (number) return { argument: number };
  if (text === '-' || text === '−') return { argument: { kind: 'absent', span } };
  const day = text.length === 10 ? date.exec(text) : null;
  if (day) return readDay(text, span, day);
  const range = plainRange.exec(text);
  if (range) return readRange(text, span, '', range[1]!, range[2]!);
  const ratio = pair.exec(text);
  if (ratio) {
    return {
      argument: { kind: 'pair', span, first: copied(ratio[1]!), second: copied(ratio[2]!) },
    };
  }
  const withUnit = glued.exec(text);
  if (withUnit) {
    const quantity = readGlued(span, withUnit[1]!, withUnit[2]!);
    if (quantity) return { argument: quantity };
  }
  return readLettered(text, span);
}

/** A run that can only be a name, or names that end in a range. */
function readLettered(text: string, span: Span): ReadRun {
  if (text.includes('..')) {
    const named = namedRange.exec(text);
    if (named && holdsLetter.test(named[1]!)) {
      return readRange(text, span, named[1]!, named[2]!, named[3]!);
    }
  }
  return readName(text, span);
}

function isAsciiLetter(code: number): boolean {
  return (code >= 97 && code <= 122) || (code >= 65 && code <= 90);
}

function readName(text: string, span: Span): ReadRun {
  if (isAsciiLetter(text.charCodeAt(0))) return name(text, span);
  if (text.startsWith('+')) {
    const number = readNumber(text.slice(1), { start: span.start + 1, end: span.end });
    if (number) {
      const problem = { name: 'plus-sign', details: { written: text }, instead: text.slice(1) };
      return { argument: { ...number, span } as Argument, problem };
    }
    if (holdsLetter.test(text)) {
      return spoilt(text, span, { name: 'needs-quotes', instead: `"${text}"` });
    }
  }
  return holdsLetter.test(text) ? name(text, span) : spoilt(text, span, unreadable(text));
}

function name(text: string, span: Span): ReadRun {
  return { argument: { kind: 'name', span, text: copied(composed(text)) } };
}

function readGlued(span: Span, digits: string, unitText: string): Argument | undefined {
  const unit = findUnit(unitText);
  const number = unit && readNumber(digits, span);
  if (!unit || number?.kind !== 'number') return undefined;
  const unitSpan = { start: span.start + digits.length, end: span.end };
  return { kind: 'quantity', span, digits: number.digits, value: number.value, unit, unitSpan };
}

function readDay(text: string, span: Span, match: RegExpExecArray): ReadRun {
  const [, year, month, day] = match.map(Number) as [number, number, number, number];
  if (month < 1 || month > 12 || day < 1 || day > daysOf(year, month)) {
    return spoilt(text, span, { name: 'no-such-day' });
  }
  return { argument: { kind: 'date', span, value: { day: text } } };
}

function daysOf(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1]!;
}

/** Minutes after midnight, or undefined where the clock has no such time. */
export function minutesOfDay(hours: string, minutes: string): number | undefined {
  if (hours.length > 2 || minutes.length !== 2) return undefined;
  const [hour, minute] = [Number(hours), Number(minutes)];
  return hour < 24 && minute < 60 ? hour * 60 + minute : undefined;
}

function readRange(text: string, span: Span, prefix: string, from: string, to: string): ReadRun {
  const problem = rangeProblem(prefix, from, to);
  if (problem) return spoilt(text, span, problem);
  const first = Number(from);
  const last = Number(to);
  if (prefix === '') return { argument: { kind: 'range', span, first, last, step: 1 } };
  const width = from.length > 1 && from.startsWith('0') ? from.length : 0;
  const name = copied(composed(prefix));
  return { argument: { kind: 'name-range', span, prefix: name, first, last, step: 1, width } };
}

function rangeProblem(prefix: string, from: string, to: string): RunProblem | undefined {
  const first = Number(from);
  const last = Number(to);
  if (first > last) {
    return { name: 'range-descending', instead: `${prefix}${to}..${from}` };
  }
  const zeros = (digits: string) => digits.length > 1 && digits.startsWith('0');
  if ((zeros(from) && from.length !== to.length) || (zeros(to) && from.length !== to.length)) {
    const width = Math.max(from.length, to.length);
    const instead = `${prefix}${from.padStart(width, '0')}..${to.padStart(width, '0')}`;
    return { name: 'range-digits', instead };
  }
  if (last - first >= longestRange || !Number.isSafeInteger(last)) {
    return { name: 'range-too-long', details: { most: longestRange } };
  }
  return undefined;
}

function unreadable(text: string): RunProblem {
  const between = /^(\d+)-(\d+)$|^(\d+)\.{3,}(\d+)$/u.exec(text);
  if (between) {
    const first = between[1] ?? between[3];
    return { name: 'unreadable-range', instead: `${first}..${between[2] ?? between[4]}` };
  }
  const point = /^([-−]?\d+)\.$/u.exec(text);
  if (point) return { name: 'point-at-end', instead: point[1]! };
  const dotted = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/u.exec(text);
  if (dotted) {
    const instead = `${dotted[3]}-${dotted[2]!.padStart(2, '0')}-${dotted[1]!.padStart(2, '0')}`;
    return { name: 'unreadable-date', instead };
  }
  if (/^\d{1,4}[/.]\d{1,2}[/.]\d{1,4}$/u.test(text) || /^\d{1,4}-\d{1,2}-\d{1,4}$/u.test(text)) {
    return { name: 'unreadable-date' };
  }
  return { name: 'unreadable', instead: `"${text}"` };
}

/** A token that could not be read: it fits any argument, so that nothing else complains of it. */
export function spoilt(text: string, span: Span, problem: RunProblem): ReadRun {
  return {
    argument: { kind: 'spoilt', span, text: copied(text) },
    problem: { ...problem, details: { written: shortened(text), ...problem.details } },
  };
}

/** A text short enough to be shown in a sentence. */
export function shortened(text: string): string {
  return text.length > 40 ? `${text.slice(0, 37)}…` : copied(text);
}
