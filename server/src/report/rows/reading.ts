/** The row of one reading: what it was made with, what it is judged by, which attempt it is. */

import { exactDb } from '../../../../grammar/src/quantity/index.ts';
import type { FibreResult, LinkResult, ReadingResult } from '../../evaluate/result.ts';
import { decibels, key, margin, micro, size } from '../figures.ts';
import { readingKey } from '../keys.ts';
import { fibreLanes } from '../strip.ts';
import type { Subject } from '../subject.ts';
import { lookOf } from '../verdicts.ts';
import type { ReadingRow } from '../view.ts';
import { lossText } from './fibre.ts';

/** All readings of a fibre, earlier attempts too, each key's attempts together and in order. */
export function readingsOf(result: LinkResult, fibre: FibreResult): readonly ReadingResult[] {
  const own = [...result.readings, ...result.reflectances].filter(
    (each) => each.fibre === fibre.fibre,
  );
  const first = new Map(own.map((each) => [key(each), 0]));
  [...first.keys()].forEach((each, index) => void first.set(each, index));
  return own
    .map((reading, index) => ({ reading, index }))
    .sort(
      (a, b) =>
        first.get(key(a.reading))! - first.get(key(b.reading))! ||
        (a.reading.attempt ?? Number.POSITIVE_INFINITY) -
          (b.reading.attempt ?? Number.POSITIVE_INFINITY) ||
        a.index - b.index,
    )
    .map(({ reading }) => reading);
}

export function readingRow(
  subject: Subject,
  result: LinkResult,
  fibre: FibreResult,
  reading: ReadingResult,
): ReadingRow {
  const { precision } = subject.display;
  const place = reading.reading?.place ?? fibre.current.find((each) => each.reading)?.reading?.row;
  const at = subject.plan.locate(place ?? result.link.namePlace);
  const loss = reading.attempt === null ? '' : lossText(reading, precision);
  const facts = factsOf(result, reading, precision);
  const made = madeOf(reading);
  return {
    kind: 'reading',
    key: readingKey(result.link.name, reading),
    ...(at ? { at } : {}),
    name: result.link.name,
    fibre: reading.fibre,
    verdict: reading.verdict,
    what: key(reading),
    loss,
    facts,
    made,
    ...(reading.margin === undefined
      ? {}
      : { margin: { text: margin(reading.margin, precision), verdict: reading.verdict } }),
    // Lanes show margins of losses.
    lanes: fibreLanes(result, reading.reading?.quantity === 'reflectance' ? [] : [reading]),
    current: reading.current,
    spoken: [key(reading), lookOf(reading.verdict).word, loss && `${loss} dB`, ...facts, ...made]
      .filter(Boolean)
      .join(', '),
  };
}

function factsOf(result: LinkResult, reading: ReadingResult, places: number): string[] {
  const same = [...result.readings, ...result.reflectances].filter(
    (each) => each.fibre === reading.fibre && key(each) === key(reading) && each.attempt !== null,
  );
  const replaced = same.find((each) => each.current && each !== reading)?.attempt;
  return [
    reading.because,
    reading.attempt === null && !reading.because ? 'to test' : '',
    reading.limit?.value === undefined
      ? ''
      : `${reading.reading?.quantity === 'reflectance' ? 'at least' : 'limit'} ${decibels(reading.limit.value, places)} ${reading.limit.kind}${reading.limit.recalled ? ', recalled' : ''}`,
    same.length > 1 && reading.attempt !== null
      ? `attempt ${reading.attempt} of ${same.length}${
          reading.current || replaced == null ? '' : `, replaced by attempt ${replaced}`
        }`
      : '',
    otherWay(result, reading, places),
  ].filter(Boolean);
}

function madeOf({ reading, setup, power, reference }: ReadingResult): string[] {
  return [
    power === undefined ? '' : `power ${micro(power)} dBm`,
    reference === undefined || power === undefined ? '' : `reference ${micro(reference)} dBm`,
    setup ?? '',
    reading?.at.text ?? '',
    reading?.by ?? '',
  ].filter(Boolean);
}

/** The difference to the other direction: dirt and bends lose alike both ways, a step in the core does not. */
function otherWay(result: LinkResult, reading: ReadingResult, places: number): string {
  if (!reading.direction || reading.loss === undefined || !reading.current) return '';
  const other = result.readings.find(
    (each) =>
      each.current &&
      each.fibre === reading.fibre &&
      each.wavelength === reading.wavelength &&
      each.direction !== undefined &&
      each.direction !== reading.direction &&
      each.loss !== undefined,
  );
  if (other?.loss === undefined) return '';
  const difference = (exactDb(reading.loss) - exactDb(other.loss)) as ReturnType<typeof exactDb>;
  if (difference === 0n) return `as ${other.direction}`;
  return `${size(difference, places)} ${difference > 0n ? 'more' : 'less'} than ${other.direction}`;
}
