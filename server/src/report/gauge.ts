/** The gauge at the end of a drawing: the readings at one wavelength, and the labels of what stands on its scale. */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, Verdict, WavelengthResult } from '../evaluate/result.ts';
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
}

export function readingsAt(result: LinkResult, at: Picometres): readonly LossReading[] {
  return result.fibres.flatMap(({ fibre, current }) =>
    current.flatMap(({ wavelength: here, loss, direction, verdict }): LossReading[] =>
      here === at && loss !== undefined
        ? [
            {
              loss,
              side: direction === 'A>B' ? 'up' : direction === 'B>A' ? 'down' : 'both',
              verdict,
              fibre,
            },
          ]
        : [],
    ),
  );
}

const mostNamed = 4;

export function labelsOf(
  link: LinkModel,
  at: WavelengthResult | undefined,
  readings: readonly LossReading[],
  places: number,
): readonly GaugeLabel[] {
  const labels: GaugeLabel[] = [];
  const limit = at?.governing;
  if (limit?.value !== undefined) {
    labels.push({
      text: `${decibels(limit.value, places)} limit, ${limit.kind}`,
      loss: toDb(limit.value),
      strength: 'limit',
    });
  }
  if (at?.expected !== undefined) {
    const text = trueMinus(roundedApart(at.expected, limit?.value ?? at.expected, places));
    labels.push({ text: `${text} expected`, loss: toDb(at.expected), strength: 'expected' });
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
