/** The gauge at the end of a drawing: the readings at one wavelength, and the labels of what stands on its scale. */
import type { ExactDb, Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Limit, LinkResult, Verdict } from '../evaluate/result.ts';
import type { LinkModel } from '../model/types.ts';
import { placeName } from '../model/ways.ts';
import { decibels, lossBeside, microToDb, roundedApart, toDb, trueMinus } from './figures.ts';
import { lookOf } from './verdicts.ts';
import type { Side } from './view.ts';

export interface DrawnReading {
  readonly loss: number;
  readonly side: Side;
  readonly verdict: Verdict;
}

export interface GaugeLabel {
  readonly text: string;
  readonly loss: number;
  readonly verdict?: Verdict;
  readonly strength: 'limit' | 'expected' | 'reading';
}

export interface LossReading {
  readonly loss: Parameters<typeof lossBeside>[0];
  readonly side: Side;
  readonly verdict: Verdict;
  readonly fibre: number;
  readonly limit?: Limit;
}

export function readingsAt(result: LinkResult, at: Picometres): readonly LossReading[] {
  return result.fibres.flatMap(({ fibre, current }) =>
    current.flatMap(({ wavelength: here, loss, direction, verdict, limit }): LossReading[] =>
      here === at && loss !== undefined
        ? [
            {
              loss,
              side: direction === 'A>B' ? 'up' : direction === 'B>A' ? 'down' : 'both',
              verdict,
              fibre,
              ...(limit ? { limit } : {}),
            },
          ]
        : [],
    ),
  );
}

const mostNamed = 4;

export function labelsOf(
  link: LinkModel,
  limit: Limit | undefined,
  expected: ExactDb | undefined,
  readings: readonly LossReading[],
  places: number,
): readonly GaugeLabel[] {
  const labels: GaugeLabel[] = [];
  if (limit?.value !== undefined) {
    const recalled = limit.recalled ? ', recalled' : '';
    labels.push({
      text: `${decibels(limit.value, places)} limit, ${limit.kind}${recalled}`,
      loss: toDb(limit.value),
      strength: 'limit',
    });
  }
  if (expected !== undefined) {
    const text = trueMinus(roundedApart(expected, limit?.value ?? expected, places));
    labels.push({ text: `${text} expected`, loss: toDb(expected), strength: 'expected' });
  }
  const text = ({ loss }: LossReading) => lossBeside(loss, limit?.value, places);
  const plain = readings
    .filter(({ verdict }) => verdict === 'pass')
    .sort((a, b) => a.loss - b.loss);
  const [least] = plain;
  const greatest = plain.at(-1);
  if (least && greatest) {
    const range =
      least.loss === greatest.loss ? text(least) : `${text(least)} to ${text(greatest)}`;
    labels.push({ text: `${range} measured`, loss: microToDb(greatest.loss), strength: 'reading' });
  }
  const worstOfFibre = new Map<number, LossReading>();
  for (const each of readings) {
    if (each.verdict === 'pass') continue;
    const other = worstOfFibre.get(each.fibre);
    if (!other || other.loss < each.loss) worstOfFibre.set(each.fibre, each);
  }
  const named = [...worstOfFibre.values()].sort((a, b) => b.loss - a.loss);
  for (const each of named.slice(0, mostNamed)) {
    labels.push({
      text: `${text(each)} ${placeName(link, each.fibre)}, ${lookOf(each.verdict).word}`,
      loss: microToDb(each.loss),
      verdict: each.verdict,
      strength: 'reading',
    });
  }
  return labels;
}

/** Of a channel that is not measured: what its light loses at most, and what is allowed for it. */
export function labelsByDesign(
  most: ExactDb | undefined,
  limit: { readonly loss: number; readonly figure: string } | undefined,
  places: number,
): readonly GaugeLabel[] {
  return [
    ...(limit
      ? [
          {
            text: `${limit.figure} limit, application`,
            loss: limit.loss,
            strength: 'limit',
          } as const,
        ]
      : []),
    ...(most === undefined
      ? []
      : [
          {
            text: `${decibels(most, places)} at most, by design`,
            loss: toDb(most),
            strength: 'expected',
          } as const,
        ]),
  ];
}
