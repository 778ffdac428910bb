/** The working of a number as Markdown: terms, counts, figures and their sources. Hover and the command that shows a limit share it. */
import { type ExactDb, toMetres } from '../../../grammar/src/quantity/index.ts';
import { polarityInWords } from '../evaluate/polarity.ts';
import type {
  ApplicationResult,
  Limit,
  LinkResult,
  Percentile,
  ReadingResult,
  Term,
  WavelengthResult,
} from '../evaluate/result.ts';
import { placeName } from '../model/ways.ts';
import { repairsInWords } from './cable-fibres.ts';
import {
  eachInWords,
  fully,
  keyInWords,
  ownMethod,
  readingInWords,
  signed,
  unsigned,
  verdictInWords,
  wavelengthInWords,
} from './wording.ts';

/** A whole link: one limit with its sum per wavelength, what applications say, what is to test. */
export function linkAsMarkdown(result: LinkResult, places: number): string {
  const { link } = result;
  const length = result.length === undefined ? '' : `, ${toMetres(result.length)} m`;
  // Of a cable by itself, and of a channel, no reading may be wanted: those that are there count.
  const readings =
    result.expected === 0
      ? `${result.readings.length} readings`
      : `${result.present} of ${result.expected} readings`;
  const head = `**${link.name}**${link.title ? ` · ${link.title}` : ''}  \n${verdictInWords(result.verdict)}, ${readings}${length}`;
  const limits = ownMethod(result).map((at) => wavelengthAsMarkdown(at, places));
  const polarity = polarityInWords(result.arrivals);
  const comesOut = polarity === undefined ? [] : [`places from A to B: ${polarity}`];
  const applications = result.applications.map(applicationAsMarkdown);
  const repairs = repairsInWords(link) ?? [];
  return [head, ...comesOut, repairs, ...limits, ...applications].flat().join('\n\n');
}

/** Limits side by side at one wavelength, the governing one with its sum, then the expected loss. */
function wavelengthAsMarkdown(at: WavelengthResult, places: number): string {
  const method = [at.reference, at.receiveCord ? 'receive cord added' : '']
    .filter(Boolean)
    .join(', ');
  const lines = [
    `**${wavelengthInWords(at.wavelength)}${at.direction ? ` ${at.direction}` : ''}**${method ? ` · ${method}` : ''}`,
  ];
  if (at.governing) lines.push(limitAsMarkdown(at.governing, places, true));
  for (const limit of at.limits)
    if (limit !== at.governing) lines.push(limitAsMarkdown(limit, places, false));
  if (at.limits.length === 0) lines.push('No limit can be built here, so nothing is judged.');
  if (at.expected !== undefined)
    lines.push(`expected ${unsigned(at.expected, places)} dB: ${sum(at.expectedTerms)}`);
  if (at.statistical !== undefined)
    lines.push(`mean + 3 sigma ${unsigned(at.statistical, places)} dB, which judges nothing`);
  if (at.percentile) lines.push(percentileAsMarkdown(at.percentile, places));
  if (at.worst !== undefined && at.designMargin !== undefined) {
    lines.push(
      `most allowed ${unsigned(at.worst, places)} dB, design margin ${signed(at.designMargin, places)} dB`,
    );
  }
  return lines.join('  \n');
}

/** What a share of links keeps, what of it does not vary, and how the rest is taken to be spread. */
function percentileAsMarkdown({ share, loss, kept, parts }: Percentile, places: number): string {
  const drawn = parts.map(({ what, count, assumed }) =>
    count === 1 ? `${what} (${assumed})` : `${count} ${what} (each ${assumed})`,
  );
  const fixed = kept === 0n ? '' : `${fully(kept)} dB that does not vary, and `;
  return `${share / 10_000} % of such links lose at most ${unsigned(loss, places)} dB, which judges nothing: ${fixed}drawn at random and joined by convolution in steps of 0.005 dB, ${drawn.join(', ')}`;
}

/** One limit: name, figure, and its terms as a sum that can be checked by hand. */
function limitAsMarkdown(limit: Limit, places: number, governs: boolean): string {
  const role = limit.beside ? ', beside' : governs ? ', governs' : '';
  const head = `${limit.kind} (${limit.name})${role}`;
  if (limit.value === undefined) return `${head}: none. ${limit.because ?? ''}`;
  const figure = `${unsigned(limit.value, places)} dB`;
  const recalled = limit.recalled ? ' · rests on a recalled figure' : '';
  const working = limit.terms.length > 1 ? ` = ${sum(limit.terms)}` : '';
  if (!governs) return `${head}: ${figure}${working}${recalled}`;
  return [`${head}: **${figure}**${recalled}`, '', table(limit.terms, limit.value), ''].join('\n');
}

/** A reading: its verdict in words, then what it was judged by. */
export function readingAsMarkdown(
  reading: ReadingResult,
  link: LinkResult,
  places: number,
): string {
  const attempts = link.readings.filter(
    (other) =>
      other.fibre === reading.fibre &&
      other.wavelength === reading.wavelength &&
      other.direction === reading.direction &&
      other.attempt !== null,
  ).length;
  const lines = [
    `**${placeName(link.link, reading.fibre)}, ${keyInWords(reading)}**: ${readingInWords(reading, places)}`,
  ];
  if (reading.because) lines.push(reading.because);
  const facts = [
    reading.attempt !== null && attempts > 1
      ? `attempt ${reading.attempt} of ${attempts}${reading.current ? '' : ', not the one that stands'}`
      : '',
    reading.setup ? `set-up ${reading.setup}` : '',
    reading.reference === undefined ? '' : `reference ${eachInWords(reading.reference)} dBm`,
    reading.power === undefined ? '' : `power ${eachInWords(reading.power)} dBm`,
    reading.loss === undefined ? '' : `loss ${eachInWords(reading.loss)} dB`,
    reading.lossBound === undefined
      ? ''
      : `no light seen: loss over ${eachInWords(reading.lossBound)} dB`,
    reading.uncertainty > 0 ? `uncertainty ${eachInWords(reading.uncertainty)} dB` : '',
  ].filter(Boolean);
  if (facts.length > 0) lines.push(facts.join(' · '));
  const at = link.wavelengths.find(
    (one) =>
      one.wavelength === reading.wavelength &&
      one.governing === reading.limit &&
      (!one.direction || one.direction === reading.direction),
  );
  if (reading.limit) lines.push(limitAsMarkdown(reading.limit, places, true));
  if (at?.expected !== undefined) lines.push(`expected ${unsigned(at.expected, places)} dB`);
  const unusual = unusualInWords(reading, places);
  if (unusual) lines.push(unusual);
  return lines.join('\n\n');
}

/** `+0.12 dB against what its parts typically lose · 3.2 deviations above the median of its mates`. */
function unusualInWords({ residual, matesDeviation }: ReadingResult, places: number): string {
  const side = (matesDeviation ?? 0) < 0 ? 'below' : 'above';
  return [
    residual === undefined
      ? ''
      : `${signed(residual, places)} dB against what its parts typically lose`,
    matesDeviation === undefined
      ? ''
      : `${Math.abs(matesDeviation)} median deviations ${side} the median of its mates`,
  ]
    .filter(Boolean)
    .join(' · ');
}

export function applicationAsMarkdown(application: ApplicationResult): string {
  const row = application.row ? ` (row ${application.row})` : '';
  const recalled = application.recalled ? ' Rests on a recalled figure.' : '';
  return `**${application.name}**: ${application.support}${row}. ${application.because}${recalled}`;
}

function table(terms: readonly Term[], total: ExactDb): string {
  const rows = terms.map((term) => {
    const many =
      term.length === undefined
        ? `${term.count} ×`
        : `${Number(toMetres(term.length)) / 1000} km ×`;
    const trust = term.trust === 'recalled' ? ', recalled' : '';
    return `| ${term.what} | ${many} | ${eachInWords(term.each)} | ${fully(term.total)} | ${term.source}${trust} |`;
  });
  return [
    '| | | each | dB | source |',
    '| :-- | --: | --: | --: | :-- |',
    ...rows,
    `| **sum** | | | **${fully(total)}** | |`,
  ].join('\n');
}

function sum(terms: readonly Term[]): string {
  return terms
    .map(
      ({ what, total }, index) =>
        `${total < 0n ? (index ? ' − ' : '−') : index ? ' + ' : ''}${what} ${fully((total < 0n ? -total : total) as ExactDb)}`,
    )
    .join('');
}
