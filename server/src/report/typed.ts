/** The moment of typing: the reading at the cursor against its limit, its expected value and its neighbours. */
import {
  compareDb,
  type ExactDb,
  exactDb,
  subtractDb,
} from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult } from '../evaluate/result.ts';
import type { BlockId, Place } from '../model/types.ts';
import { placeName } from '../model/ways.ts';
import { decibels, key, lossBeside, micro, size, toDb } from './figures.ts';
import { fibreRow, lossText } from './rows/fibre.ts';
import { hold, reachFor, shareOver } from './scale.ts';
import { fibreLanes, judgedAt } from './strip.ts';
import type { Subject } from './subject.ts';
import type { Lane, Typed } from './view.ts';

/** A place of the cursor: a block and an offset in its text. */
export interface CursorPlace {
  readonly block: BlockId;
  readonly offset: number;
}

/** The reading whose cell the cursor is in or has just left, on its row. */
export function readingAt(result: LinkResult, cursor: CursorPlace): ReadingResult | undefined {
  const onRow = result.readings.filter(({ reading }) => reading && holds(reading.row, cursor));
  return (
    onRow.find(({ reading }) => reading && holds(reading.place, cursor)) ??
    onRow.findLast(({ reading }) => reading && reading.place.span.end <= cursor.offset) ??
    onRow[0]
  );
}

export function holds({ block, span }: Place, cursor: CursorPlace): boolean {
  return block === cursor.block && span.start <= cursor.offset && cursor.offset <= span.end;
}

const neighbours = 2;

export function typedAt(
  subject: Subject,
  result: LinkResult,
  cursor: CursorPlace,
): Typed | undefined {
  const reading = readingAt(result, cursor);
  if (!reading?.reading) return undefined;
  const { precision } = subject.display;
  const at = judgedAt(result, reading.wavelength, reading);
  const others = result.fibres
    .flatMap(({ current }) => current)
    .filter(
      (each) =>
        each.fibre !== reading.fibre &&
        each.wavelength === reading.wavelength &&
        each.attempt !== null,
    );
  const index = result.fibres.findIndex(({ fibre }) => fibre === reading.fibre);
  const around = result.fibres.slice(Math.max(0, index - neighbours), index + neighbours + 1);
  const limit = reading.limit?.value;
  return {
    object: result.link.name,
    fibre: reading.fibre,
    line: (subject.plan.locate(reading.reading.place)?.range.start.line ?? 0) + 1,
    made: `${result.present} of ${result.expected}`,
    verdict: reading.verdict,
    what: key(reading),
    value: lossText(reading, precision),
    inside: holds(reading.reading.place, cursor),
    ...(limit === undefined ? {} : { limit: decibels(limit, precision) }),
    ...(at?.expected === undefined ? {} : { expected: decibels(at.expected, precision) }),
    lane: laneOf(result, reading, others),
    reach: reachOf(reading, others),
    over: overOf(reading, precision),
    sentence: sentenceOf(reading, at?.expected, others, precision),
    advice: adviceFor(reading),
    next: nextOf(result),
    rows: around.map((fibre) => fibreRow(subject, result, fibre, false)),
  };
}

/** The others as plain strokes, the one typed marked, whatever its verdict. */
function laneOf(
  result: LinkResult,
  reading: ReadingResult,
  others: readonly ReadingResult[],
): Lane {
  const find = (lanes: readonly Lane[]) =>
    lanes.find(({ wavelength }) => key(reading).startsWith(wavelength));
  const own = find(fibreLanes(result, [reading]))!;
  const rest = find(fibreLanes(result, others))!;
  const margin = reading.margin;
  const side = reading.direction === 'A>B' ? 'up' : reading.direction === 'B>A' ? 'down' : 'both';
  const plain = { up: [...rest.plain.up], down: [...rest.plain.down], both: [...rest.plain.both] };
  for (const each of rest.marked) plain[each.side].push(each.margin);
  return {
    ...own,
    plain,
    marked: margin === undefined ? [] : [{ margin: toDb(margin), side, verdict: reading.verdict }],
  };
}

/** Holds this link's readings, and the one typed however far over the limit it is. */
function reachOf(reading: ReadingResult, others: readonly ReadingResult[]): number {
  const margins = [reading, ...others].flatMap(({ margin }) =>
    margin === undefined ? [] : [toDb(margin)],
  );
  const over = reading.margin === undefined ? 0 : Math.max(0, -toDb(reading.margin));
  return reachFor(hold(margins), margins.length, over / shareOver);
}

/** `0.27 dB over the limit` or `1.19 dB inside the limit`; set strong. */
function overOf({ margin, limit }: ReadingResult, places: number): string {
  if (margin === undefined || !limit?.value) return '';
  if (margin === 0n) return 'At the limit';
  return `${size(margin, places)} dB ${margin < 0n ? 'over' : 'inside'} the limit`;
}

function sentenceOf(
  reading: ReadingResult,
  expected: ExactDb | undefined,
  others: readonly ReadingResult[],
  places: number,
): string {
  const { limit, loss, because, verdict } = reading;
  const parts: string[] = [];
  parts.push(
    limit?.value === undefined
      ? because || 'There is no limit to judge it by.'
      : `of ${decibels(limit.value, places)} dB (${limit.kind}${limit.recalled ? ', recalled' : ''}).`,
  );
  if (because && limit?.value !== undefined && verdict !== 'pass') parts.push(sentence(because));
  const compared: string[] = [];
  if (expected !== undefined && loss !== undefined) {
    const difference = subtractDb(exactDb(loss), expected);
    compared.push(
      `${size(difference, places)} dB ${compareDb(difference, 0n as ExactDb) < 0 ? 'below' : 'above'} expected`,
    );
  }
  const losses = others.flatMap((each) => each.loss ?? []).sort((a, b) => a - b);
  const [least] = losses;
  const greatest = losses.at(-1);
  if (least !== undefined && greatest !== undefined) {
    const text = (value: typeof least) => lossBeside(value, limit?.value, places);
    compared.push(
      least === greatest
        ? `the others lie at ${text(least)}`
        : `the others lie at ${text(least)} to ${text(greatest)}`,
    );
  }
  if (compared.length > 0) parts.push(`${compared.join('; ')}.`);
  if (reading.uncertainty > 0 && verdict.startsWith('marginal')) {
    parts.push(`That is within the uncertainty of ${micro(reading.uncertainty)} dB.`);
  }
  return parts.join(' ');
}

function sentence(text: string): string {
  return /[.!?]$/u.test(text) ? text : `${text[0]?.toUpperCase()}${text.slice(1)}.`;
}

function adviceFor({ verdict, reading }: ReadingResult): string {
  if (reading?.typed === 'dark')
    return 'Look whether the far end is lit, and that it is this fibre.';
  switch (verdict) {
    case 'fail':
    case 'marginal-fail':
      return 'Inspect and clean both ends, and repeat.';
    case 'marginal-pass':
      return 'Clean both ends and repeat if you want more margin.';
    case 'invalid':
      return 'Mend what makes it void, then repeat it.';
    default:
      return '';
  }
}

function nextOf({ link, readings, fibres }: LinkResult): string {
  const missing = readings.find(
    (each) => each.attempt === null && each.expectedSet && !each.because,
  );
  if (!missing) return '';
  const fibre = fibres.find((each) => each.fibre === missing.fibre);
  const same = fibre?.current.filter((each) => each.attempt === null).length ?? 1;
  return `${placeName(link, missing.fibre)}, ${key(missing)}${same > 1 ? ` and ${same - 1} more of it` : ''}`;
}
