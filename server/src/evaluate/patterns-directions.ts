/** Both directions of a fibre beside each other: far apart, exchanged, or equal to the last digit. */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Direction } from '../model/types.ts';
import { coreStepLoss, middleOf } from '../optics/index.ts';
import { type BatchDoubt, inDetail, level, pathOf, type Standing } from './batches.ts';
import { boundsOf } from './bounds.ts';
import type { Context } from './context.ts';
import { keyDetails, numbersInWords } from './doubts.ts';
import { keyText } from './expected.ts';
import { fibresOf, hasCoreStep } from './path.ts';
import { db, nm } from './reasons.ts';
import type { Doubt } from './result.ts';
import type { Attempt } from './settle.ts';

export function* directionsDoubts(
  context: Context,
  settled: Standing,
  good: readonly Attempt[],
): Iterable<BatchDoubt> {
  yield* exchanged(context, settled, good);
  yield* asymmetry(context, settled, good);
  yield* copied(settled, good, boundsOf(context.settings).copied);
}

/**
 * Light loses more where it goes from the greater core to the smaller. Where
 * every fibre loses more the other way, the headings of the directions are
 * exchanged; or ends A and B of the path are. Without a step in the cores
 * nothing tells one direction from the other.
 */
function* exchanged(
  context: Context,
  settled: Standing,
  good: readonly Attempt[],
): Iterable<BatchDoubt> {
  const pairs = good.flatMap((forward) => {
    if (forward.measurement.cell.direction !== 'A>B') return [];
    const back = partner(settled, forward);
    const order = narrowing(pathOf(context, forward));
    if (!back || !order) return [];
    const more = level(order === 'A>B' ? forward : back) - level(order === 'A>B' ? back : forward);
    return [{ forward, back, more, order }];
  });
  const { asymmetry: bound, exchangedMates } = boundsOf(context.settings);
  const [first] = pairs;
  const middle = middleOf(pairs.map(({ more }) => more));
  if (!first || pairs.length < exchangedMates || middle > -bound / 1e6) return;
  if (pairs.some(({ more }) => more >= 0)) return;
  const fibres = pairs.map(({ forward }) => forward.measurement.cell.fibre);
  yield {
    name: 'directions-exchanged',
    place: first.forward.measurement.cell.place,
    details: {
      fibres: numbersInWords(fibres),
      readings: pairs.length * 2,
      narrowing: first.order,
      less: inDetail(-middle),
      bound: db(bound),
    },
    instead: {
      names: ['direction-asymmetry'],
      attempts: pairs.flatMap(({ forward, back }) => [forward, back]),
    },
  };
}

/** Direction in which the cores of a path only narrow; undefined where they do not step, or step both ways. */
function narrowing({ path: { pieces } }: Context): Direction | undefined {
  if (!hasCoreStep(pieces)) return undefined;
  const cores = fibresOf(pieces).map((piece) => piece.type?.core ?? 0);
  const steps = cores.slice(1).map((core, at) => Math.sign(core - (cores[at] ?? core)));
  if (steps.every((step) => step <= 0)) return 'A>B';
  return steps.every((step) => step >= 0) ? 'B>A' : undefined;
}

/**
 * Both directions of one fibre far apart: a cord, dirt, or a step in core or
 * mode field. Where the limits of the two differ, a step was allowed for in one
 * direction, and so much more is expected there.
 */
function* asymmetry(
  context: Context,
  settled: Standing,
  good: readonly Attempt[],
): Iterable<Doubt> {
  const { average, within } = context.link.terms.directions;
  const bound = average && within !== undefined ? within : boundsOf(context.settings).asymmetry;
  for (const a of good) {
    if (a.measurement.cell.direction !== 'A>B') continue;
    const b = partner(settled, a);
    if (b?.result.loss === undefined || a.result.loss === undefined) continue;
    const difference = a.result.loss - b.result.loss;
    const allowed = limitOf(a) - limitOf(b);
    const forward = difference > Math.max(0, allowed) + bound;
    if (!forward && difference >= Math.min(0, allowed) - bound) continue;
    const [greater, lesser] = forward ? [a, b] : [b, a];
    yield {
      name: 'direction-asymmetry',
      place: greater.measurement.cell.place,
      related: [{ place: lesser.measurement.cell.place, message: 'the other direction' }],
      details: {
        ...keyDetails(greater),
        forward: db(a.result.loss),
        back: db(b.result.loss),
        difference: db(Math.abs(difference)),
        bound: db(bound),
        ...((forward ? allowed > 0 : allowed < 0) && { allowed: db(Math.abs(allowed)) }),
        ...coreStep(context, forward ? 'A>B' : 'B>A'),
      },
    };
  }
}

/** What an overfilled step of the path's cores may take in the direction that lost more. */
function coreStep(context: Context, direction: Direction): Record<string, string | number> {
  const { pieces } = context.path;
  if (!hasCoreStep(pieces)) return {};
  const fibres = fibresOf(pieces);
  const order = direction === 'A>B' ? fibres : [...fibres].reverse();
  for (const [index, next] of order.entries()) {
    const before = order[index - 1];
    const [from, to] = [before?.type?.core, next.type?.core];
    if (from === undefined || to === undefined || from <= to) continue;
    return {
      coreStep: `${before?.name} to ${next.name}`,
      coreLoss: db(coreStepLoss({ core: from }, { core: to })),
    };
  }
  return { coreStep: 'against the step' };
}

function* copied(settled: Standing, good: readonly Attempt[], most: number): Iterable<Doubt> {
  const byWavelength = new Map<Picometres, { first: Attempt; fibres: number[]; differ: boolean }>();
  for (const a of good) {
    if (a.measurement.cell.direction !== 'A>B') continue;
    const b = partner(settled, a);
    if (b?.result.loss === undefined) continue;
    const { wavelength, fibre } = a.measurement.cell;
    const known = byWavelength.get(wavelength) ?? { first: a, fibres: [], differ: false };
    byWavelength.set(wavelength, known);
    if (a.result.loss === b.result.loss) known.fibres.push(fibre);
    else known.differ = true;
  }
  // Wavelengths of which the same fibres are equal were copied together.
  const alike = new Map<string, { first: Attempt; fibres: number[]; wavelengths: number[] }>();
  for (const [wavelength, { first, fibres, differ }] of byWavelength) {
    if (differ || fibres.length <= most) continue;
    const key = fibres.join();
    const known = alike.get(key) ?? { first, fibres, wavelengths: [] };
    known.wavelengths.push(nm(wavelength));
    alike.set(key, known);
  }
  for (const { first, fibres, wavelengths } of alike.values()) {
    const [shortest = 0] = wavelengths;
    yield {
      name: 'direction-fake',
      place: first.measurement.cell.place,
      details: {
        wavelength: shortest,
        ...(wavelengths.length > 1 && { wavelengths: wavelengths.join(' and ') }),
        fibres: numbersInWords(fibres),
        readings: fibres.length * wavelengths.length,
      },
    };
  }
}

function partner(settled: Standing, attempt: Attempt): Attempt | undefined {
  const { fibre, wavelength, direction } = attempt.measurement.cell;
  const other = direction === 'A>B' ? 'B>A' : 'A>B';
  const one = settled.get(keyText(fibre, wavelength, other))?.current;
  return one?.valid && one.result.verdict !== 'stale' ? one : undefined;
}

/** Equal without limits: then nothing is allowed. */
const limitOf = ({ result }: Attempt): number => result.limit?.floor ?? 0;
