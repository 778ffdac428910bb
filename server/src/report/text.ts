/** The results table for a terminal: a line a link, and below it each fibre that asks for a look. */
import { type ExactDb, printMicroRounded } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, PlanResult, ReadingResult } from '../evaluate/result.ts';
import { placeName, placeOfObject } from '../model/ways.ts';
import {
  count,
  counted,
  type Display,
  key,
  length,
  limitWords,
  lossBeside,
  margin,
  trueMinus,
} from './figures.ts';
import { leastSupport, marginByDesign } from './rows/support.ts';
import { lookOf } from './verdicts.ts';

export function toText(
  result: PlanResult,
  results: readonly LinkResult[],
  display: Display,
): string {
  const rows = results.map((each) => linkCells(each, display));
  const widths = rows.reduce<number[]>(
    (most, cells) => cells.map((text, index) => Math.max(most[index] ?? 0, text.length)),
    [],
  );
  const lines = [result.title ?? 'Results', ''];
  results.forEach((each, index) => {
    lines.push(
      (rows[index] ?? [])
        .map((text, at) =>
          at === 4 ? text.padStart(widths[at] ?? 0) : text.padEnd(widths[at] ?? 0),
        )
        .join('  ')
        .trimEnd(),
    );
    for (const fibre of each.fibres) {
      const { current, verdict } = fibre;
      if (verdict === 'pass' || verdict === 'untested') continue;
      if (verdict === 'not-judged' && current.length === 0) continue;
      const why = current
        .filter((reading) => reading.verdict === verdict)
        .map((reading) => readingWords(reading, display));
      lines.push(
        `  ${placeName(each.link, fibre.fibre)}: ${lookOf(verdict).word}: ${why.join('; ') || 'see the findings'}`,
      );
    }
    lines.push(...reflectanceLines(each, display));
  });
  const { totals } = result;
  const worst = totals.worst
    ? `; worst margin ${margin(totals.worst.margin, display.precision)} dB at ${totals.worst.link} ${placeOfObject(result.link(totals.worst.link)?.link, totals.worst.reading.fibre)}`
    : '';
  lines.push(
    '',
    `${objectsInWords(results)}, ${count(totals.present)} of ${count(totals.expected)} readings made${worst}; ${totals.accepted ? 'accepted' : 'not accepted yet'}`,
  );
  return `${lines.join('\n')}\n`;
}

/** `67 links, 3 channels`: each kind of what is shown. */
function objectsInWords(results: readonly LinkResult[]): string {
  const kinds = [
    ['link', 'link'],
    ['channel', 'channel'],
    ['ring', 'ring'],
    ['section', 'cable'],
  ] as const;
  const words = kinds.flatMap(([kind, word]) => {
    const number = results.filter(({ link }) => link.kind === kind).length;
    return number > 0 ? [counted(number, word)] : [];
  });
  return words.join(', ') || 'no links';
}

/**
 * Reflectances beside the losses: each that is not pass, and the rest counted
 * with the least that is left of what is asked.
 */
function reflectanceLines(
  { link, reflectances }: LinkResult,
  { precision }: Display,
): readonly string[] {
  const current = reflectances.filter(({ current: stands }) => stands);
  const passed = current.filter(({ verdict }) => verdict === 'pass');
  const least = passed
    .flatMap(({ margin: own }) => own ?? [])
    .reduce<ExactDb | undefined>((a, b) => (a !== undefined && a <= b ? a : b), undefined);
  const lines = current
    .filter(({ verdict }) => verdict !== 'pass')
    .map((each) => {
      const value = each.reading?.reflectance;
      const typed =
        value === undefined ? '' : ` ${trueMinus(printMicroRounded(value, precision))} dB`;
      const why = each.because ? ` (${each.because})` : '';
      return `  ${placeName(link, each.fibre)}: ${lookOf(each.verdict).word}: ${key(each)}${typed}${why}`;
    });
  if (passed.length === 0) return lines;
  const margins = least === undefined ? '' : `, least margin ${margin(least, precision)}`;
  const all = passed.length === current.length ? 'all ' : '';
  return [...lines, `  reflectance: ${all}${counted(passed.length, 'reading')} pass${margins}`];
}

function linkCells(result: LinkResult, display: Display): string[] {
  const { link, worstMargin, verdict, present } = result;
  const design = worstMargin || present > 0 ? undefined : marginByDesign(result, display.precision);
  return [
    link.name,
    lookOf(verdict).word,
    result.length === undefined ? '' : length(result.length, display),
    `${result.present}/${result.expected}`,
    worstMargin ? margin(worstMargin.margin, display.precision) : (design?.text ?? ''),
    limitWords(worstMargin?.reading.limit, display.precision),
    worstMargin
      ? `${placeName(link, worstMargin.reading.fibre)}, ${key(worstMargin.reading)}`
      : [design?.what ?? '', leastSupport(result)?.join(' ') ?? ''].filter(Boolean).join('; '),
  ];
}

function readingWords(reading: ReadingResult, { precision }: Display): string {
  if (reading.loss === undefined) return `${key(reading)} ${reading.because || 'no light'}`;
  const limit = reading.limit?.value;
  const recalled = reading.limit?.recalled ? ' to a recalled limit' : '';
  const over =
    reading.margin === undefined ? '' : `, margin ${margin(reading.margin, precision)}${recalled}`;
  const why = reading.because && reading.verdict !== 'conceded' ? ` (${reading.because})` : '';
  return `${key(reading)} ${lossBeside(reading.loss, limit, precision)}${over}${why}`;
}
