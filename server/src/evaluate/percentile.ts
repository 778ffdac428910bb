/**
 * The loss that so large a share of links keeps whose parts are drawn at random:
 * the spreads of all parts that state one, joined by convolution, on top of the
 * greatest figures of those that do not. For planning; it judges nothing.
 *
 * Source: statistical design of ITU-T G.Sup39 clause 10 (independent parts); that
 * losses are skewed and none is below zero is why this stands beside mean and
 * sigma. Which shape a spread has is what the part states: its shares, else a
 * gamma distribution, which is ours and is said with the result.
 */
import {
  addDb,
  type ExactDb,
  exactDb,
  fibreLoss,
  type MicroDb,
  type PartsPerMillion,
  type Picometres,
  printExactDb,
  roundToMicroDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Declared, Direction, LossShare, PairPolicy, PartLoss } from '../model/types.ts';
import {
  addSpreads,
  between,
  gamma,
  percentileOf,
  type Spread,
  sigmaThrough,
  timesSpread,
} from '../optics/index.ts';
import type { Arrangement } from './arrangement.ts';
import { type Figures, type Found, lossesOfOutput } from './figures.ts';
import type { FlatPath, Piece } from './path.ts';
import type { Percentile, Term } from './result.ts';
import { readingSum } from './sums.ts';

/** How single ones of a part differ, and in what words that is assumed. */
interface PartSpread {
  readonly spread: Spread;
  readonly assumed: string;
}

/** By the source of a term: how each of its parts is spread; of fibre, all of its length, which is alike along a cable. */
type Spreads = Map<string, (term: Term) => PartSpread | undefined>;

/** Undefined where no part states how it is spread, or where the sum cannot be built. */
export function percentileOfReading(
  share: PartsPerMillion,
  greatest: Figures,
  path: FlatPath,
  arrangement: Arrangement,
  policy: PairPolicy,
  direction: Direction,
  wavelength: Picometres,
): Percentile | undefined {
  // Most plans state no spread at all, and need no further sum.
  if (!path.pieces.some(statesSpread)) return undefined;
  const spreads: Spreads = new Map();
  const figures = spreadFigures(greatest, wavelength, spreads);
  const sum = readingSum(path, arrangement, figures, policy, direction, wavelength);
  if ('because' in sum || spreads.size === 0) return undefined;
  const parts = sum.terms.flatMap((term) => {
    const own = spreads.get(term.source)?.(term);
    return own ? [{ term, own }] : [];
  });
  if (parts.length === 0) return undefined;
  const fixed = sum.terms.filter((term) => !parts.some((part) => part.term === term));
  const kept = addDb(zeroDb, ...fixed.map(({ total }) => total));
  const loss = percentileOf(sumOf(parts), share / 1_000_000);
  return {
    share,
    loss: addDb(kept, exactDb(roundToMicroDb(loss))),
    kept,
    parts: parts.map(({ term, own }) => ({
      what: term.what,
      count: term.length === undefined ? term.count : 1,
      assumed: own.assumed,
    })),
  };
}

function statesSpread(piece: Piece): boolean {
  if (piece.kind === 'fibre')
    return piece.type?.attenuation.some(({ sigma }) => sigma !== undefined) ?? false;
  const { type } = piece;
  return (
    type !== undefined &&
    (type.shares.length > 0 || type.loss.some(({ sigma }) => sigma !== undefined))
  );
}

/** Sums of the same parts are the same sum, and most links of a plan are made alike. */
const known = new Map<string, Spread>();
const mostKnown = 200;

function sumOf(parts: readonly { readonly term: Term; readonly own: PartSpread }[]): Spread {
  // What is assumed of a part has all of its digits.
  const key = parts
    .map(({ term, own }) => `${term.length === undefined ? term.count : 1} ${own.assumed}`)
    .join('|');
  const before = known.get(key);
  if (before) return before;
  const sum = parts
    .map(({ term, own }) => timesSpread(own.spread, term.length === undefined ? term.count : 1))
    .reduce(addSpreads);
  if (known.size >= mostKnown) known.clear();
  known.set(key, sum);
  return sum;
}

/** The greatest figures, but for parts that state how they are spread: those under a source of their own. */
function spreadFigures(greatest: Figures, wavelength: Picometres, spreads: Spreads): Figures {
  const own = (
    type: (Declared & { readonly shares: readonly LossShare[] }) | undefined,
    ...losses: readonly (readonly PartLoss[])[]
  ): Found | undefined => {
    const spread = type && partSpread(losses, type.shares, wavelength);
    if (!type || !spread) return undefined;
    if ('always' in spread)
      return { each: spread.always, source: `${type.name}, which does not vary` };
    const source = `${type.name}: ${spread.assumed}`;
    spreads.set(source, () => spread);
    return { each: 0, source };
  };
  return {
    ...greatest,
    rate(name, type) {
      const figure = type?.attenuation.find(
        (rate) => rate.wavelength === wavelength && rate.sigma !== undefined,
      );
      if (!type || figure?.sigma === undefined || figure.typ === undefined)
        return greatest.rate(name, type);
      const { typ, sigma } = figure;
      const source = `${type.name}, spread`;
      if (sigma > 0) {
        spreads.set(source, ({ length }) =>
          length === undefined
            ? undefined
            : gammaOf(fibreLoss(typ, length), fibreLoss(sigma, length)),
        );
      }
      return { each: typ, source };
    },
    pair: (name, type, grade) => own(type, type?.loss ?? []) ?? greatest.pair(name, type, grade),
    splice: (piece) => own(piece.type, piece.type?.loss ?? []) ?? greatest.splice(piece),
    part: (piece) => own(piece.type, piece.type?.loss ?? []) ?? greatest.part(piece),
    split: (piece) => own(piece.type, ...lossesOfOutput(piece)) ?? greatest.split(piece),
  };
}

/**
 * What a part states at a wavelength, else for all: its shares, its mean with one of them, its
 * mean with sigma. Of several lists of figures the first that has one counts.
 */
function partSpread(
  losses: readonly (readonly PartLoss[])[],
  shares: readonly LossShare[],
  wavelength: Picometres,
): PartSpread | { readonly always: MicroDb } | undefined {
  const at = <T extends { readonly wavelength?: Picometres }>(entries: readonly T[]) => {
    const exactly = entries.filter((entry) => entry.wavelength === wavelength);
    return exactly.length > 0 ? exactly : entries.filter((entry) => entry.wavelength === undefined);
  };
  const said = at(shares).toSorted((a, b) => a.share - b.share);
  const figure = (which: 'min' | 'typ' | 'sigma') =>
    losses.flatMap((list) => at(list.filter((loss) => loss[which] !== undefined)))[0]?.[which];
  const [last] = said.slice(-1);
  if (last?.share === whole) return betweenShares(figure('min') ?? (0 as MicroDb), said);
  const mean = figure('typ');
  if (mean === undefined) return undefined;
  const sigma = figure('sigma');
  if (last && said.length === 1) return gammaThrough(mean, last);
  if (sigma === undefined || last) return undefined;
  return sigma === 0 ? { always: mean } : gammaOf(exactDb(mean), exactDb(sigma));
}

const whole = 1_000_000;
const inDb = (loss: number) => loss / 1e6;
const print = (loss: MicroDb) => `${printExactDb(exactDb(loss))} dB`;
const percent = (share: PartsPerMillion) => `${share / 10_000} %`;

function betweenShares(least: MicroDb, shares: readonly LossShare[]): PartSpread | undefined {
  const rising = shares.every(({ loss }, at) => loss >= (shares[at - 1]?.loss ?? least));
  if (!rising) return undefined;
  const points = shares.map(({ share, loss }) => [share / whole, inDb(loss)] as const);
  const listed = shares.map(({ share, loss }) => `${percent(share)} up to ${print(loss)}`);
  return {
    spread: between(inDb(least), points),
    assumed: `evenly between ${print(least)} and its shares: ${listed.join(', ')}`,
  };
}

function gammaThrough(mean: MicroDb, { share, loss }: LossShare): PartSpread | undefined {
  const sigma = sigmaThrough(inDb(mean), share / whole, inDb(loss));
  if (sigma === undefined) return undefined;
  return {
    spread: gamma(inDb(mean), sigma),
    assumed: `a gamma distribution of mean ${print(mean)} and ${percent(share)} up to ${print(loss)}`,
  };
}

function gammaOf(mean: ExactDb, sigma: ExactDb): PartSpread | undefined {
  const [middle, apart] = [Number(mean) / 1e15, Number(sigma) / 1e15];
  if (apart === 0 || middle <= 0) return undefined;
  return {
    spread: gamma(middle, apart),
    assumed: `a gamma distribution of mean ${printExactDb(mean)} dB and sigma ${printExactDb(sigma)} dB`,
  };
}
