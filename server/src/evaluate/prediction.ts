/** A channel, or a way round a ring, foretold from readings of the links it crosses and the greatest figures of what it adds. */
import {
  addDb,
  compareDb,
  type ExactDb,
  exactDb,
  type MicroDb,
  type Picometres,
  subtractDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type { Carried, Direction, LinkModel, PathElement } from '../model/types.ts';
import type { Context } from './context.ts';
import { type Figures, onLine, ownFigures, withPartsAt } from './figures.ts';
import { leastLoss } from './least.ts';
import { fibresTaken } from './maps-along.ts';
import { channelOnly, pairsShared } from './path.ts';
import { wholeSum } from './sums.ts';
import { sameWindow } from './thresholds.ts';

type Crossing = Extract<PathElement, { kind: 'link' }>;

/** What one light of it loses: with the rest at its greatest, and with the rest at its least. */
export interface Foretold {
  readonly loss: ExactDb;
  readonly least: ExactDb;
}

/** Losses per fibre that it lights, direction and wavelength; incomplete where a reading of a link is missing. */
export function predictedFromLinks(
  context: Context,
  { application, fibres }: Pick<Carried, 'application' | 'fibres'>,
  { path }: Pick<LinkModel, 'path'>,
): { readonly complete: boolean; readonly losses: readonly Foretold[] } {
  const { link, input } = context;
  const crossings = path.filter((element) => element.kind === 'link');
  if (!application || crossings.length === 0 || !input.crossed)
    return { complete: false, losses: [] };
  const losses: Foretold[] = [];
  let complete = link.fibres.length > 0;
  for (const [index, fibre] of link.fibres.entries()) {
    if (fibres && !fibres.includes(fibre)) continue;
    const taken = fibresTaken(path, link.fibres.length, index + 1);
    for (const light of application.wavelengths) {
      const directions: readonly Direction[] = light.direction ? [light.direction] : ['A>B', 'B>A'];
      const read = directions.flatMap((direction) => {
        const sum = crossedAt(context, path, crossings, taken, light.wavelength, direction);
        return sum === undefined ? [] : [sum];
      });
      losses.push(...read);
      // Each fibre of a duplex or parallel service carries light one way: one reading of each is the least.
      if (read.length < (light.direction || application.count > 1 ? 1 : 2)) complete = false;
    }
  }
  return { complete, losses };
}

function crossedAt(
  context: Context,
  path: LinkModel['path'],
  crossings: readonly Crossing[],
  taken: ReadonlyMap<Crossing, number | undefined>,
  wavelength: Picometres,
  direction: Direction,
): Foretold | undefined {
  const parts: ExactDb[] = [];
  for (const crossing of crossings) {
    const result = context.input.crossed?.(crossing.name)?.result;
    const fibre = taken.get(crossing);
    const way: Direction = crossing.turned ? (direction === 'A>B' ? 'B>A' : 'A>B') : direction;
    const reading = result?.fibres
      .find((one) => one.fibre === fibre)
      ?.current.find(
        (one) =>
          one.direction === way &&
          // A reading with more than one cord lacks pairs that the channel has.
          one.method === 'one-cord' &&
          one.loss !== undefined &&
          sameWindow(one.wavelength, wavelength as typeof one.wavelength) &&
          !['invalid', 'stale', 'untested'].includes(one.verdict),
      );
    if (reading?.loss === undefined) return undefined;
    parts.push(exactDb(reading.loss));
    if (parts.length === crossings.length) {
      const { limits } = context.link.terms;
      const own = (at: Picometres) => ownFigures(limits, at, context.link.mode, 'max');
      const figures = withPartsAt(own(reading.wavelength), own(onLine(context.link, wavelength)));
      const others = channelOnly({ path });
      const rest = wholeSum(others, figures, direction, reading.wavelength);
      if ('because' in rest) return undefined;
      const least = leastLoss(others, onLine(context.link, reading.wavelength));
      const twice = addDb(zeroDb, ...pairsReadTwice(parts, path, figures));
      return {
        loss: addDb(...parts, rest.value),
        least: subtractDb(addDb(...parts, least), twice),
      };
    }
  }
  return undefined;
}

/** What pairs that two readings hold may have lost in both: no more than their figure, nor than either reading. */
function pairsReadTwice(
  readings: readonly ExactDb[],
  path: LinkModel['path'],
  figures: Figures,
): readonly ExactDb[] {
  return pairsShared({ path }).flatMap((pair, index) => {
    const [a, b] = [readings[index], readings[index + 1]];
    if (pair?.kind !== 'pair' || a === undefined || b === undefined) return [];
    const found = figures.pair(pair.name, pair.type, 'installed');
    const most = found ? exactDb(found.each as MicroDb) : a;
    return [a, b, most].sort(compareDb).slice(0, 1);
  });
}
