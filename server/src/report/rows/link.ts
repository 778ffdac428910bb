/** The row of a link, and the head and the last line that it has while it is open. */
import {
  exactDb,
  type MicroDb,
  type MicroDbm,
  type Picometres,
} from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult, ReadingResult } from '../../evaluate/result.ts';
import type { Direction } from '../../model/types.ts';
import { isTree, placeName } from '../../model/ways.ts';
import {
  counted,
  decibels,
  key,
  length,
  limitBeside,
  margin,
  roundedApart,
  trueMinus,
  wavelength,
} from '../figures.ts';
import { columnsKey, limitsKey, linkKey } from '../keys.ts';
import { judgedAt, linkLanes, wavelengthsOf } from '../strip.ts';
import type { Subject } from '../subject.ts';
import { lookOf } from '../verdicts.ts';
import type { ColumnsRow, LimitsRow, LinkRow } from '../view.ts';
import { governingOf } from './governing.ts';
import { limitsAt } from './limits.ts';
import { type ByDesign, leastSupport, marginByDesign, supportsOf } from './support.ts';

export function linkRow(
  subject: Subject,
  result: LinkResult,
  reach: number,
  open: boolean,
): LinkRow {
  const { link, verdict, present, expected, worstMargin } = result;
  const { precision } = subject.display;
  const at = subject.plan.locate(link.namePlace);
  const governing = governingOf(result);
  const design = worstMargin || present > 0 ? undefined : marginByDesign(result, precision);
  const row: Omit<LinkRow, 'spoken'> = {
    kind: 'link',
    key: linkKey(link.name),
    ...(at ? { at } : {}),
    name: link.name,
    title: link.title ?? '',
    object: link.kind,
    verdict,
    open,
    length: result.length === undefined ? '' : length(result.length, subject.display),
    present,
    expected,
    ...(governing?.value === undefined
      ? {}
      : {
          governing: {
            kind: governing.kind,
            // The column is narrow: where the word is needed, the unit gives way.
            figure: `${decibels(governing.value, precision)} ${governing.recalled ? 'recalled' : unitOf(result)}`,
          },
        }),
    lanes: linkLanes(result, reach),
    ...(worstMargin
      ? {
          margin: {
            text: margin(worstMargin.margin, precision),
            verdict: worstMargin.reading.verdict,
          },
        }
      : {}),
    ...(design ? { byDesign: design } : {}),
    worst: worstOf(result, design),
  };
  return { ...row, spoken: spokenLink(row) };
}

/** A link whose block could not be read; the findings say why. */
export function unreadRow(name: string): LinkRow {
  return {
    kind: 'link',
    key: linkKey(name),
    name,
    title: '',
    object: 'link',
    open: false,
    length: '',
    present: 0,
    expected: 0,
    lanes: [],
    worst: ['not read', 'see the findings'],
    spoken: `${name}, not read`,
  };
}

/** Light that was received is judged in dBm, whatever was lost on the way in dB. */
function unitOf({ worstMargin }: LinkResult): 'dB' | 'dBm' {
  return worstMargin && received(worstMargin.reading) ? 'dBm' : 'dB';
}

const received = ({ power, loss }: ReadingResult): boolean =>
  power !== undefined && loss === undefined;

function worstOf(result: LinkResult, design: ByDesign | undefined): [string, string] {
  const { link, worstMargin, verdict, present, expected, readings } = result;
  if (worstMargin) {
    const { reading } = worstMargin;
    return [placeName(link, reading.fibre), key(reading)];
  }
  if (present === 0) {
    const carried = leastSupport(result);
    if (carried) return [...carried];
    const nothing = expected === 0 ? 'nothing to test' : 'nothing tested';
    // A ring is measured span by span; what it has of its own is its worst way round.
    const way = result.worstWay === undefined ? undefined : `worst way ${result.worstWay}`;
    return [nothing, way ?? design?.what ?? ''];
  }
  const why = readings.find((each) => each.current && each.verdict === verdict);
  return why ? [placeName(link, why.fibre), why.because || lookOf(why.verdict).word] : ['', ''];
}

function designInWords(design: LinkRow['byDesign']): string {
  return design ? `margin ${design.text} ${design.what}` : '';
}

function spokenLink(row: Omit<LinkRow, 'spoken'>): string {
  return [
    row.object === 'link'
      ? row.name
      : `${row.object === 'section' ? 'cable' : row.object} ${row.name}`,
    row.title,
    row.verdict ? lookOf(row.verdict).word : 'not read',
    row.length,
    row.expected > 0 ? `${row.present} of ${row.expected} readings made` : '',
    row.governing ? `limit ${row.governing.figure} from ${row.governing.kind}` : '',
    row.margin
      ? `worst margin ${row.margin.text} at ${row.worst.join(', ')}`
      : [row.worst.filter(Boolean).join(' '), designInWords(row.byDesign)]
          .filter(Boolean)
          .join(', '),
  ]
    .filter(Boolean)
    .join(', ');
}

/** Columns of values: wavelengths, and the directions that are wanted or read at each. */
export function columnsOf(result: LinkResult): readonly {
  readonly wavelength: Picometres;
  readonly directions: readonly (Direction | undefined)[];
}[] {
  return wavelengthsOf(result).map((at) => {
    const found = new Set<Direction | undefined>();
    for (const fibre of result.fibres) {
      for (const reading of fibre.current) {
        if (reading.wavelength === at) found.add(reading.direction);
      }
    }
    const directions = [...found].sort((a, b) => (a ?? 'Z').localeCompare(b ?? 'Z'));
    return { wavelength: at, directions };
  });
}

export function columnsRow(subject: Subject, result: LinkResult): ColumnsRow {
  const { precision } = subject.display;
  const columns = columnsOf(result);
  const groups = columns.map(({ wavelength: at, directions }) => {
    const here = result.wavelengths.filter((each) => each.wavelength === at);
    const used = judgedAt(result, at)?.governing;
    const limit =
      windowAt(result, at, precision) ??
      (used?.value === undefined
        ? 'no limit'
        : `limit ${limitBeside(used.value, lossesAt(result, at), precision)}`);
    const varied = new Set(here.map(({ governing }) => governing?.value)).size > 1;
    return {
      wavelength: wavelength(at),
      limit: varied ? `${limit} *` : limit,
      directions: directions.map((direction) => direction ?? 'mean'),
    };
  });
  const words = columns.map(({ wavelength: at }) => wavelength(at));
  const lanes =
    words.length === 2
      ? `upper lane ${words[0]}, lower lane ${words[1]}`
      : words.length > 2
        ? `lanes from above: ${words.join(', ')}`
        : '';
  return {
    kind: 'columns',
    key: columnsKey(result.link.name),
    name: result.link.name,
    numbered: isTree(result.link) ? 'end' : 'fibre',
    groups,
    lanes,
    spoken: `columns: ${groups.map((each) => `${each.wavelength}, ${each.limit}, ${each.directions.join(', ')}`).join('; ')}`,
  };
}

/** `−20.00 to −3.00 dBm`, where all that was read at a wavelength is light that arrived. */
function windowAt(result: LinkResult, at: Picometres, places: number): string | undefined {
  const readings = result.fibres
    .flatMap(({ current }) => current)
    .filter(({ wavelength: of, verdict }) => of === at && verdict !== 'untested');
  if (readings.length === 0 || !readings.every(received)) return undefined;
  const windows = result.link.terms.require.flatMap((asked) =>
    asked.kind === 'power' && asked.min !== undefined && asked.max !== undefined
      ? [`${inDbm(asked.min, places)} to ${inDbm(asked.max, places)} dBm`]
      : [],
  );
  return windows.length > 0 ? windows.join(', ') : undefined;
}

const inDbm = (power: MicroDbm, places: number): string =>
  decibels(exactDb(power as number as MicroDb), places);

function lossesAt(result: LinkResult, at: Picometres): MicroDb[] {
  return result.fibres.flatMap(({ current }) =>
    current.flatMap((each: ReadingResult) =>
      each.wavelength === at && each.loss !== undefined ? [each.loss] : [],
    ),
  );
}

/** The last line of an open link: every limit with its sum. */
export function limitsRow(subject: Subject, result: LinkResult): LimitsRow {
  const { precision } = subject.display;
  const methods = new Set(result.wavelengths.map(({ reference }) => reference));
  const wavelengths = result.wavelengths.map((at) => ({
    wavelength: [wavelength(at.wavelength), at.direction].filter(Boolean).join(' '),
    method: methods.size > 1 ? (at.reference ?? '') : '',
    limits: limitsAt(at, precision),
    expected:
      at.expected === undefined
        ? ''
        : trueMinus(roundedApart(at.expected, at.governing?.value ?? at.expected, precision)),
    statistical: at.statistical === undefined ? '' : decibels(at.statistical, precision),
    greatest: at.worst === undefined ? '' : decibels(at.worst, precision),
  }));
  const supports = supportsOf(result, precision);
  return {
    kind: 'limits',
    key: limitsKey(result.link.name),
    name: result.link.name,
    wavelengths,
    supports,
    spoken: [
      ...wavelengths.map(({ wavelength: at, limits }) => {
        const governing = limits.find(({ governs }) => governs);
        return governing
          ? `${at}: ${governing.kind} limit ${governing.figure} governs, of ${counted(limits.length, 'limit')}`
          : `${at}: no limit`;
      }),
      ...supports.map(({ name, support, power }) =>
        [`${name} ${support}`, power].filter(Boolean).join(', '),
      ),
    ].join('; '),
  };
}
