/**
 * How far a loss spreads where every part states what is typical of it and by
 * how much single ones differ: mean + 3 sigma, for planning. It accepts no
 * single fibre and stands beside the limits.
 *
 * Source: statistical design of ITU-T G.Sup39 clause 10 and G.957 clause 8.3
 * (independent parts, variances added), as a system maker's worked example and
 * textbooks compute it. Fibre of one type is taken as alike all along.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  floorDb,
  type MicroDb,
  type Picometres,
  timesDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Direction, FibreType, PairPolicy, PartLoss } from '../model/types.ts';
import { rootSumSquares } from '../optics/index.ts';
import type { Arrangement } from './arrangement.ts';
import { type Figures, type Found, lossesOfOutput } from './figures.ts';
import type { FlatPath } from './path.ts';
import type { Term } from './result.ts';
import { readingSum } from './sums.ts';

/** Mean + 3 sigma of what a reading holds; undefined where a part states no sigma. */
export function meanAndSpread(
  mean: ExactDb | undefined,
  path: FlatPath,
  arrangement: Arrangement,
  policy: PairPolicy,
  direction: Direction,
  wavelength: Picometres,
): ExactDb | undefined {
  if (mean === undefined) return undefined;
  const sum = readingSum(path, arrangement, sigmas(wavelength), policy, direction, wavelength);
  if ('because' in sum || sum.terms.length === 0) return undefined;
  const sigma = rootSumSquares(sum.terms.flatMap(singly));
  return addDb(mean, timesDb(exactDb(sigma), 3));
}

/** A term's parts one by one: what was taken into the reference spreads as well. */
function singly({ count, each, total, length }: Term): readonly MicroDb[] {
  if (length !== undefined) return [floorDb(total)];
  return Array.from({ length: Math.abs(count) }, () => each as MicroDb);
}

function sigmas(wavelength: Picometres): Figures {
  const ofPart = (losses: readonly PartLoss[] | undefined): Found | undefined => {
    const entry =
      losses?.find((loss) => loss.wavelength === wavelength && loss.sigma !== undefined) ??
      losses?.find((loss) => loss.wavelength === undefined && loss.sigma !== undefined);
    return entry?.sigma === undefined ? undefined : { each: entry.sigma, source: 'sigma' };
  };
  const ofFibre = (type: FibreType | undefined): Found | undefined => {
    const entry = type?.attenuation.find(
      (rate) => rate.wavelength === wavelength && rate.sigma !== undefined,
    );
    return entry?.sigma === undefined ? undefined : { each: entry.sigma, source: 'sigma' };
  };
  return {
    name: 'the parts',
    rate: (_, type) => ofFibre(type),
    pair: (_, type) => ofPart(type?.loss),
    splice: ({ type }) => ofPart(type?.loss),
    spliceAlone: ({ type }) => ofPart(type?.loss),
    part: ({ type }) => ofPart(type?.loss),
    split(piece) {
      const [own, all] = lossesOfOutput(piece);
      return ofPart(own) ?? ofPart(all);
    },
    step: () => undefined,
  };
}
