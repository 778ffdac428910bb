/** The row of a fibre: its values in the order of the columns, its strip, its margin. */
import {
  compareDb,
  type ExactDb,
  printMicroRounded,
} from '../../../../grammar/src/quantity/index.ts';
import type { FibreResult, LinkResult, ReadingResult } from '../../evaluate/result.ts';
import { isTree, placeName } from '../../model/ways.ts';
import { decibels, key, lossBeside, margin, size, trueMinus, wavelength } from '../figures.ts';
import { fibreKey } from '../keys.ts';
import { fibreLanes, judgedAt } from '../strip.ts';
import type { Subject } from '../subject.ts';
import { countsForWorst, lookOf, rankOf } from '../verdicts.ts';
import type { FibreRow, Value } from '../view.ts';
import { columnsOf } from './link.ts';

export function fibreRow(
  subject: Subject,
  result: LinkResult,
  fibre: FibreResult,
  open: boolean,
): FibreRow {
  const { precision } = subject.display;
  const place = fibre.current.find((each) => each.reading)?.reading?.row ?? result.link.namePlace;
  const at = subject.plan.locate(place);
  const least = leastMargin(fibre);
  return {
    kind: 'fibre',
    key: fibreKey(result.link.name, fibre.fibre),
    ...(at ? { at } : {}),
    name: result.link.name,
    fibre: fibre.fibre,
    label: isTree(result.link) ? '' : String(fibre.fibre),
    verdict: fibre.verdict,
    open,
    ports: shortPorts(fibre),
    values: columnsOf(result).map(({ wavelength: at, directions }) =>
      directions.map((direction) => {
        const reading = fibre.current.find(
          (each) => each.wavelength === at && each.direction === direction,
        );
        return valueFor(reading, precision);
      }),
    ),
    lanes: fibreLanes(result, fibre.current),
    ...(least
      ? { margin: { text: margin(least.margin, precision), verdict: least.reading.verdict } }
      : {}),
    note: noteOf(fibre, precision),
    spoken: spokenFibre(result, fibre, precision),
  };
}

function valueFor(reading: ReadingResult | undefined, places: number): Value {
  if (!reading) return { text: '', verdict: 'pass', blank: false };
  const blank = reading.attempt === null;
  return { text: blank ? '' : lossText(reading, places), verdict: reading.verdict, blank };
}

/** `2.61`, `dark`, or the power where no loss follows from it. */
export function lossText(reading: ReadingResult, places: number): string {
  if (reading.reading?.typed === 'dark') return 'dark';
  const reflectance = reading.reading?.reflectance;
  if (reflectance !== undefined) return trueMinus(printMicroRounded(reflectance, places));
  if (reading.loss !== undefined) return lossBeside(reading.loss, reading.limit?.value, places);
  return reading.power === undefined
    ? 'none'
    : `${trueMinus(printMicroRounded(reading.power, places))} dBm`;
}

interface Least {
  readonly margin: ExactDb;
  readonly reading: ReadingResult;
}

/** The worst of the readings that stand; of those accepted, void or aged only where there are no others. */
function leastMargin(fibre: FibreResult): Least | undefined {
  const all = fibre.current.flatMap((reading): Least[] =>
    reading.margin === undefined ? [] : [{ margin: reading.margin, reading }],
  );
  const standing = all.filter(
    ({ reading: { verdict } }) => countsForWorst(verdict) || verdict === 'conceded',
  );
  const from = standing.length > 0 ? standing : all;
  return from.reduce<Least | undefined>(
    (least, each) => (least && compareDb(least.margin, each.margin) <= 0 ? least : each),
    undefined,
  );
}

/** Ports without what both their names begin with: `A:07` of `OPS/R2/A:07`. */
function shortPorts({ fromPort = '', toPort = '' }: FibreResult): [string, string] {
  const short = (port: string) => port.slice(port.lastIndexOf('/') + 1);
  return [short(fromPort), short(toPort)];
}

/** What is to be done or known about it, in a few words. */
function noteOf({ current, verdict }: FibreResult, places: number): string {
  if (verdict === 'pass') return '';
  const worst = current
    .filter((each) => each.verdict === verdict)
    .sort((a, b) => compareMargins(a.margin, b.margin));
  const [first] = worst;
  if (!first) return '';
  if (verdict === 'untested') {
    const locked = worst.find(({ because }) => because);
    if (locked) return locked.because;
    return worst.length === current.length
      ? 'nothing tested'
      : `${worst.length > 1 ? `${worst.length} readings` : key(first)} to test`;
  }
  if (verdict === 'conceded' && first.margin !== undefined) {
    return `${size(first.margin, places)} over, accepted`;
  }
  if (first.because) return first.because;
  return first.margin === undefined
    ? ''
    : first.margin < 0n
      ? `over at ${key(first)}`
      : `near at ${key(first)}`;
}

function compareMargins(a: ExactDb | undefined, b: ExactDb | undefined): number {
  if (a === undefined || b === undefined) return a === b ? 0 : a === undefined ? 1 : -1;
  return compareDb(a, b);
}

/** `fibre 7, conceded, 850 nanometres A to B 2.61, B to A 2.58, limit 2.34, over by 0.27, expected 1.05; …` */
function spokenFibre(result: LinkResult, fibre: FibreResult, places: number): string {
  const waves = columnsOf(result).map(({ wavelength: at, directions }) => {
    const readings = directions.flatMap(
      (direction) =>
        fibre.current.find((each) => each.wavelength === at && each.direction === direction) ?? [],
    );
    const judged = judgedAt(result, at, readings[0]);
    const limit = judged?.governing?.value;
    const worst = readings
      .flatMap((each) => each.margin ?? [])
      .reduce<ExactDb | undefined>((a, b) => (a === undefined || b < a ? b : a), undefined);
    return [
      `${wavelength(at).replace('nm', 'nanometres')} ${readings.map((each) => spokenReading(each, places)).join(', ')}`,
      limit === undefined ? 'no limit' : `limit ${decibels(limit, places)}`,
      worst === undefined
        ? ''
        : worst < 0n
          ? `over by ${size(worst, places)}`
          : `margin ${size(worst, places)}`,
      judged?.expected === undefined ? '' : `expected ${decibels(judged.expected, places)}`,
    ]
      .filter(Boolean)
      .join(', ');
  });
  const because = [...fibre.current].sort((a, b) => rankOf(a.verdict) - rankOf(b.verdict))[0]
    ?.because;
  return [
    `${placeName(result.link, fibre.fibre)}, ${lookOf(fibre.verdict).word}, ${waves.join('; ')}`,
    because,
  ]
    .filter(Boolean)
    .join('. ');
}

function spokenReading(reading: ReadingResult, places: number): string {
  const way = reading.direction?.replace('>', ' to ');
  const text = reading.attempt === null ? 'to test' : lossText(reading, places);
  return [way, text].filter(Boolean).join(' ');
}
