/** What judging one object looks up again and again, computed once. */
import type {
  ExactDb,
  MicroDb,
  Picometres,
  RatePerKm,
} from '../../../grammar/src/quantity/index.ts';
import {
  addDb,
  exactDb,
  fibreLoss,
  subtractDb,
  timesDb,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import type {
  Direction,
  Evidence,
  LinkModel,
  PlanSettings,
  ReferenceMethod,
  Repair,
  Setup,
  Way,
  When,
  WorkEvent,
} from '../model/types.ts';
import { isTree } from '../model/ways.ts';
import { alikeWays } from './alike.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import { type Cords, cordFault, cordsAt, pairFigure } from './cords.ts';
import { type Uncertainty, uncertaintyFor } from './decide.ts';
import { ownLoss, ownRate, splitLoss } from './figures.ts';
import { limitsOf, type ReadingLimit } from './limits.ts';
import { type FlatPath, fibresOf, flatten } from './path.ts';
import type { Reason } from './reasons.ts';
import type { LinkResult } from './result.ts';
import { type Standing, standingIn } from './timeline.ts';

/** A reading elsewhere in the plan that cannot be: it holds what was taken with the same set-up until a check passes. */
export interface Suspicion {
  readonly wavelength: Picometres;
  readonly at: When;
}

export interface EvaluationInput {
  readonly link: LinkModel;
  readonly evidence: Evidence;
  setup(name: string): Setup | undefined;
  readonly settings: PlanSettings;
  /** The instant of judgement in minutes of the site's clock; evaluation never asks a clock. */
  readonly asOf: number;
  /** Most entries of `readings` to hand back; all are judged and counted whatever it is. */
  readonly readingLimit?: number;
  /** For a link: channels that cross it, which say what lies outside it. */
  readonly channels?: readonly LinkModel[];
  /** For a channel: result and work of the links it crosses, from which it is predicted and by whose work it ages. */
  crossed?(
    link: string,
  ): { readonly result: LinkResult; readonly work: readonly WorkEvent[] } | undefined;
  /** Impossible readings of a set-up in other objects, from {@link suspicionsIn}. */
  suspected?(setup: string): readonly Suspicion[];
}

/** By a number of cords in the reference, or by a trace. */
export type LossMethod = ReferenceMethod | 'otdr';

/** Lowest legitimate loss, and what of it is the link's own: its fibre, and parts that state a least. */
export interface Floor {
  readonly own: ExactDb;
  readonly lowest: ExactDb;
}

export interface Context {
  readonly input: EvaluationInput;
  readonly link: LinkModel;
  readonly path: FlatPath;
  readonly settings: PlanSettings;
  /** Work on the object, and for a channel that on the links it crosses, in its own numbers. */
  readonly work: readonly WorkEvent[];
  /** Some limit in force takes the figures of reference-grade pairs. */
  readonly gradeNeeded: boolean;
  standing(setup: Setup, wavelength: Picometres, when: When): Standing;
  cords(setup: Setup, minute: number): Cords;
  /** What is wrong with the cords of a reading; null if nothing is. */
  fault(
    setup: Setup,
    cords: Cords,
    direction: Direction | undefined,
    wavelength: Picometres,
  ): Reason | null;
  arrangement(
    setup: Setup,
    method: ReferenceMethod,
    cords: Cords,
    direction: Direction | undefined,
  ): Arrangement;
  limits(
    arrangement: Arrangement,
    wavelength: Picometres,
    direction: Direction,
  ): readonly ReadingLimit[];
  floor(arrangement: Arrangement, wavelength: Picometres): Floor;
  uncertainty(wavelength: Picometres, method: LossMethod | undefined): Uncertainty;
  /** Fibres that share an array joint with one, itself included. */
  sharing(fibre: number): readonly number[];
  /**
   * The context of the path that one fibre takes at one time: an end of a tree
   * has its own, and a repair puts a piece in from its day on. The same object
   * where all fibres take one path.
   */
  along(fibre: number, minute: number): Context;
  /** The context of one way of the link, as it is after all repairs of its fibre. */
  alongWay(way: Way): Context;
}

export function contextOf(input: EvaluationInput): Context {
  const { link } = input;
  const branches = new Map(
    link.ways.flatMap((way) => (way.fibre === undefined ? [] : [[way.fibre, way] as const])),
  );
  const alike = alikeWays(link.ways);
  const known = new Map<string, Context>();
  const variant = (way: Way | undefined, repairs: readonly Repair[]): Context => {
    const key = `${way ? (alike.get(way) ?? '') : ''}|${repairs.map((one) => link.repairs.indexOf(one)).join()}`;
    const made = known.get(key);
    if (made) return made;
    const context = contextOn(input, flatten(link, way, repairs), along, alongWay);
    known.set(key, context);
    return context;
  };
  const repairsOf = (fibre: number | undefined, minute: number) =>
    link.repairs.filter(
      ({ fibres, on }) => on.from <= minute && fibres.some((each) => each === fibre),
    );
  const dead = new Set(link.dead.map(({ fibre }) => fibre));
  const living = link.fibres.filter((fibre) => !dead.has(fibre));
  // What was put into all its fibres is part of the path as it is now.
  const all = link.repairs.filter(
    (repair) =>
      living.length > 0 &&
      repair.on.from <= input.asOf &&
      living.every((fibre) => repair.fibres.includes(fibre)),
  );
  const whole = variant(undefined, all);
  function along(fibre: number, minute: number): Context {
    if (branches.size === 0 && link.repairs.length === 0) return whole;
    return variant(branches.get(fibre), repairsOf(fibre, minute));
  }
  function alongWay(way: Way): Context {
    return variant(way, repairsOf(way.fibre, Infinity));
  }
  return whole;
}

/** The same object judged on another path than its declaration gives. */
export function contextWith({ input, along, alongWay }: Context, path: FlatPath): Context {
  return contextOn(input, path, along, alongWay);
}

function contextOn(
  input: EvaluationInput,
  path: FlatPath,
  along: Context['along'],
  alongWay: Context['alongWay'],
): Context {
  const { link, settings } = input;
  const limits = remembered(
    (arrangement: Arrangement, wavelength: Picometres, direction: Direction) =>
      limitsOf({
        link,
        path,
        arrangement,
        wavelength,
        direction,
        settings,
        channels: input.channels ?? [],
      }),
    (arrangement, wavelength, direction) => `${arrangement.key}|${wavelength}|${direction}`,
  );
  const arrangements = remembered(
    (setup: Setup, method: ReferenceMethod, cords: Cords, direction: Direction | undefined) =>
      arrangementOf(setup, method, cords, direction),
    (_setup, _method, cords, direction) => `${direction}|${numberOf(cords)}`,
  );
  const gradeNeeded = link.terms.limits.some((set) => {
    const policy = set.policy ?? link.terms.policy ?? settings.policy;
    return policy !== undefined && policy !== 'counting';
  });
  return {
    input,
    link,
    path,
    settings,
    work: workOn(input),
    gradeNeeded,
    standing: remembered(
      (setup: Setup, wavelength: Picometres, when: When) =>
        standingIn(setup, wavelength, when, settings),
      (setup, wavelength, when) => `${setup.name}|${wavelength}|${when.from}|${when.to}`,
    ),
    cords: remembered(cordsAt, (setup, minute) =>
      setup.cords.some((cord) => cord.since) ? `${setup.name}|${minute}` : setup.name,
    ),
    fault: remembered(
      (
        setup: Setup,
        cords: Cords,
        direction: Direction | undefined,
        wavelength: Picometres,
      ): Reason | null =>
        cordFault({ setup, link, path, cords, direction, wavelength, gradeNeeded }) ?? null,
      (_setup, cords, direction, wavelength) => `${numberOf(cords)}|${direction}|${wavelength}`,
    ),
    arrangement: arrangements,
    limits,
    floor: remembered(
      (arrangement: Arrangement, wavelength: Picometres) =>
        floorOf(link, path, arrangement, wavelength),
      (arrangement, wavelength) => `${arrangement.key}|${wavelength}`,
    ),
    uncertainty: remembered(
      (wavelength: Picometres, method: LossMethod | undefined) =>
        uncertaintyFor(
          settings,
          wavelength,
          method,
          link.mode,
          fibresOf(path.pieces).map((piece) => piece.type),
        ),
      (wavelength, method) => `${wavelength}|${method}`,
    ),
    sharing: sharingOf(link, path),
    along,
    alongWay,
  };
}

/**
 * Lowest legitimate reading: Σ least α·L + Σ least of parts and splitters that state one
 * − nR·R at most + F added − F away. Joints and splices may lose nothing; a pair
 * that the reference took is at most the figure of its declared grade, whatever
 * the policy of the limit.
 */
function floorOf(
  link: LinkModel,
  path: FlatPath,
  arrangement: Arrangement,
  wavelength: Picometres,
): Floor {
  const fibres = fibresOf(path.pieces).map((piece) => {
    const rate = ownRate(piece.type, wavelength, 'min')?.each ?? 0;
    return fibreLoss(rate as RatePerKm, piece.length ?? (0 as typeof piece.length & {}));
  });
  const parts = path.pieces.flatMap((piece) => {
    const least =
      piece.kind === 'split'
        ? splitLoss(piece, wavelength, 'min')
        : piece.kind === 'part' && ownLoss(piece.type, piece.type?.loss, wavelength, 'min');
    return least ? [exactDb(least.each as MicroDb)] : [];
  });
  const own = addDb(...fibres, ...parts);
  const added = arrangement.added.map((cord) => {
    const rate = ownRate(cord.fibreType, wavelength, 'min')?.each ?? 0;
    return cord.length ? fibreLoss(rate as RatePerKm, cord.length) : zeroDb;
  });
  const away = arrangement.away.map((cord) => {
    const rate = ownRate(cord.fibreType, wavelength, 'max')?.each ?? 0;
    return cord.length ? fibreLoss(rate as RatePerKm, cord.length) : zeroDb;
  });
  const cord = arrangement.connectors.A ?? arrangement.connectors.B;
  const graded = cord && { ...cord, grade: arrangement.grade };
  const figure = graded ? (pairFigure(graded, link, wavelength) ?? 0) : 0;
  const taken = timesDb(exactDb(figure as MicroDb), arrangement.referencePairs);
  return {
    own,
    lowest: subtractDb(addDb(own, ...added), addDb(taken, ...away)),
  };
}

/**
 * Work on a link ages every object that holds the fibre; work on a channel ages
 * the channel alone. A repair is work on its fibres, whichever object says it.
 */
function workOn(input: EvaluationInput): readonly WorkEvent[] {
  const repairs = input.link.repairs.map(
    ({ name, fibres, on, place }): WorkEvent => ({
      object: input.link.name,
      done: `repair ${name}`,
      on,
      fibres,
      alone: true,
      place,
    }),
  );
  const own = [...input.evidence.work, ...repairs];
  if (input.link.kind !== 'channel' && input.link.kind !== 'ring') return own;
  const { fibres } = input.link;
  const below = input.link.path.flatMap((element) => {
    if (element.kind !== 'link' || !element.link) return [];
    const taken = element.fibres ?? element.link.fibres;
    const sharing = sharingOf(element.link, flatten(element.link));
    const work = input.crossed?.(element.name)?.work ?? [];
    return work.map((event): WorkEvent => {
      const touched = event.fibres?.flatMap(sharing);
      return {
        ...event,
        fibres: touched && fibres.filter((_, place) => touched.includes(taken[place] ?? NaN)),
      };
    });
  });
  return [...own, ...below];
}

const numbers = new WeakMap<Cords, number>();
let last = 0;

/** A number of its own for each set-up’s cords in force: what they make of a reading is worked out once. */
function numberOf(cords: Cords): number {
  const known = numbers.get(cords);
  if (known !== undefined) return known;
  last += 1;
  numbers.set(cords, last);
  return last;
}

/** Fibres of one array connector share a joint: they are taken in order, as many as it has places. */
function sharingOf(link: LinkModel, path: FlatPath): (fibre: number) => readonly number[] {
  // Ends of a tree lie in no array: what they share is their trunk.
  if (isTree(link)) return (fibre) => [fibre];
  const places = path.pieces.flatMap((piece) =>
    piece.kind === 'pair' || piece.kind === 'plug' ? (piece.type?.positions ?? 1) : 1,
  );
  const most = Math.max(1, ...places);
  // Two in one housing are still two joints; more than that share one ferrule.
  if (most <= 2) return (fibre) => [fibre];
  const index = new Map(link.fibres.map((fibre, at) => [fibre, at]));
  return (fibre) => {
    const at = index.get(fibre);
    if (at === undefined) return [fibre];
    const first = Math.floor(at / most) * most;
    return link.fibres.slice(first, first + most);
  };
}

function remembered<Args extends readonly unknown[], Value>(
  compute: (...args: Args) => Value,
  keyOf: (...args: Args) => string,
): (...args: Args) => Value {
  const known = new Map<string, Value>();
  return (...args) => {
    const key = keyOf(...args);
    const hit = known.get(key);
    if (hit !== undefined) return hit;
    const value = compute(...args);
    known.set(key, value);
    return value;
  };
}
