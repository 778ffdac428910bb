/** The results table for a terminal: a line a link, and below it each fibre that asks for a look. */
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
} from './figures.ts';
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
      if (fibre.verdict === 'pass' || fibre.verdict === 'untested') continue;
      const why = fibre.current
        .filter((reading) => reading.verdict === fibre.verdict)
        .map((reading) => readingWords(reading, display));
      lines.push(
        `  ${placeName(each.link, fibre.fibre)}: ${lookOf(fibre.verdict).word}: ${why.join('; ')}`,
      );
    }
  });
  const { totals } = result;
  const worst = totals.worst
    ? `; worst margin ${margin(totals.worst.margin, display.precision)} dB at ${totals.worst.link} ${placeOfObject(result.link(totals.worst.link)?.link, totals.worst.reading.fibre)}`
    : '';
  lines.push(
    '',
    `${counted(totals.links, 'link')}, ${count(totals.present)} of ${count(totals.expected)} readings made${worst}; ${totals.accepted ? 'accepted' : 'not accepted yet'}`,
  );
  return `${lines.join('\n')}\n`;
}

function linkCells(result: LinkResult, display: Display): string[] {
  const { link, worstMargin, verdict } = result;
  return [
    link.name,
    lookOf(verdict).word,
    result.length === undefined ? '' : length(result.length, display),
    `${result.present}/${result.expected}`,
    worstMargin ? margin(worstMargin.margin, display.precision) : '',
    limitWords(worstMargin?.reading.limit, display.precision),
    worstMargin ? `${placeName(link, worstMargin.reading.fibre)}, ${key(worstMargin.reading)}` : '',
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
