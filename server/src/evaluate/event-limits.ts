/** What one joint may lose, and how little it may send back: the figures of the sets in force, else its own. */
import {
  type ExactDb,
  exactDb,
  floorDb,
  type MicroDb,
  type Picometres,
} from '../../../grammar/src/quantity/index.ts';
import type { LimitsSet, LinkModel, ReturnLoss } from '../model/types.ts';
import { type Figures, type Found, ownFigures, setFigures } from './figures.ts';
import type { Limit } from './result.ts';
import { type Joint, jointInWords } from './stations.ts';

/** A hard limit, and the objective below it where the set that gives it has one. */
export interface JointLimit {
  readonly limit: Limit;
  readonly objective?: MicroDb;
}

/** The smallest of the limits in force, as for readings; undefined where no figure is known. */
export function lossLimit(
  joint: Joint,
  link: LinkModel,
  wavelength: Picometres,
): JointLimit | undefined {
  const { limits } = link.terms;
  const own = ownFigures([], wavelength, link.mode, 'max');
  const candidates =
    limits.length > 0
      ? limits.map((set) =>
          ofFigures(joint, setFigures(set, wavelength, link.mode), wavelength, set),
        )
      : [ofFigures(joint, own, wavelength, undefined)];
  return candidates.reduce<JointLimit | undefined>((best, one) => {
    if (!best || !one) return best ?? one;
    return (one.limit.value ?? 0n) < (best.limit.value ?? 0n) ? one : best;
  }, undefined);
}

function ofFigures(
  joint: Joint,
  figures: Figures,
  wavelength: Picometres,
  set: LimitsSet | undefined,
): JointLimit | undefined {
  const found = figureOf(joint, figures, wavelength);
  if (!found) return undefined;
  const limit = limitOf(found, joint, set);
  const objective = joint.kind === 'splice' ? figures.splice(joint)?.each : undefined;
  return objective !== undefined && objective < found.each
    ? { limit, objective: objective as MicroDb }
    : { limit };
}

function figureOf(joint: Joint, figures: Figures, wavelength: Picometres): Found | undefined {
  switch (joint.kind) {
    case 'pair':
    case 'plug':
      return figures.pair(joint.name, joint.type, 'installed');
    case 'splice':
      return figures.spliceAlone(joint);
    case 'part': {
      const whole = figures.part(joint);
      if (whole || !joint.joins) return whole;
      const [a, b] = joint.joins.map((kind) => figures.pair(kind, undefined, 'installed'));
      return a && b ? { ...a, each: a.each + b.each, source: `${a.source}, twice` } : undefined;
    }
    case 'split': {
      const { type, out } = joint;
      const entries = (type?.loss ?? [])
        .filter((entry) => entry.wavelength === undefined || entry.wavelength === wavelength)
        .filter(
          (entry) => entry.out === undefined || (out !== undefined && entry.out.includes(out)),
        )
        .flatMap((entry) => entry.max ?? []);
      if (!type || entries.length === 0) return undefined;
      const source = `${type.name}, greatest`;
      return { each: Math.max(...entries), source, place: type.place };
    }
  }
}

function limitOf(found: Found, joint: Joint, set: LimitsSet | undefined): Limit {
  const value = exactDb(found.each as MicroDb);
  return {
    kind: set?.contract ? 'contract' : 'components',
    name: set?.name ?? jointInWords(joint),
    value,
    floor: floorDb(value),
    terms: [
      {
        what: jointInWords(joint),
        role: joint.kind === 'splice' ? 'splice' : joint.kind === 'pair' ? 'pair' : 'part',
        count: 1,
        each: found.each,
        total: value,
        source: found.source,
        trust: found.trust,
        place: found.place,
      },
    ],
    beside: false,
    recalled: found.trust === 'recalled',
  };
}

/** The least return loss that is asked of a joint: the greatest of what the sets and the part itself say. */
export function returnLossLimit(
  joint: Joint,
  link: LinkModel,
  wavelength: Picometres,
): Limit | undefined {
  if (joint.kind === 'plug' || joint.kind === 'pair') {
    const sets = link.terms.limits.flatMap((set) =>
      set.returnLoss
        .filter(({ connector }) => connector === joint.name)
        .map(({ min, place }) => ({ min, place, source: set.edition ?? set.name, set })),
    );
    const own = leastOf(joint.type?.returnLoss, wavelength);
    return greatest([...sets, ...(own === undefined ? [] : [ownOf(joint, own)])], joint);
  }
  const own = leastOf(joint.type?.returnLoss, wavelength);
  return own === undefined ? undefined : greatest([ownOf(joint, own)], joint);
}

interface Asked {
  readonly min: MicroDb;
  readonly source: string;
  readonly place?: Joint['place'];
  readonly set?: LimitsSet;
}

const ownOf = (joint: Joint, min: MicroDb): Asked => ({
  min,
  source: `${joint.type?.name ?? joint.name}, least return loss`,
  place: joint.type?.place,
});

function leastOf(
  entries: readonly ReturnLoss[] | undefined,
  wavelength: Picometres,
): MicroDb | undefined {
  const entry =
    entries?.find((one) => one.wavelength === wavelength && one.min !== undefined) ??
    entries?.find((one) => one.wavelength === undefined && one.min !== undefined);
  return entry?.min;
}

function greatest(asked: readonly Asked[], joint: Joint): Limit | undefined {
  const most = asked.reduce<Asked | undefined>(
    (best, one) => (best && best.min >= one.min ? best : one),
    undefined,
  );
  if (!most) return undefined;
  const value: ExactDb = exactDb(most.min);
  return {
    kind: most.set?.contract ? 'contract' : 'components',
    name: most.set?.name ?? jointInWords(joint),
    value,
    floor: most.min,
    terms: [
      {
        what: `return loss of ${jointInWords(joint)}`,
        role: joint.kind === 'pair' ? 'pair' : 'part',
        count: 1,
        each: most.min,
        total: value,
        source: most.source,
        place: most.place,
      },
    ],
    beside: false,
    recalled: false,
  };
}
