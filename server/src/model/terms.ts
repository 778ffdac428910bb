/**
 * What is wanted of a link: the nearest layer that says it decides; `limits`,
 * `compare`, `require` and `carries` add up from all layers, unless `only`
 * stands before them.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { type MicroDb, microDb } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import { type Declaration, type EvidencePart, misreadLines } from './declaration.ts';
import { buildApplication, buildLimits } from './limits.ts';
import { resolve } from './resolve.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import { buildTransceiver } from './transceiver.ts';
import type {
  Carried,
  Direction,
  FibreType,
  LimitsSet,
  Mode,
  PairPolicy,
  ReferenceMethod,
  Requirement,
  Silence,
  Terms,
} from './types.ts';
import {
  directionOf,
  has,
  lengthsOf,
  lossOf,
  nameOf,
  namesOf,
  placeOf,
  powerOf,
  shareOf,
  wavelengthOf,
  wavelengthsOf,
  wholeOf,
  wholesOf,
} from './values.ts';

export type Layers = readonly (readonly PlacedEntry[])[];

/** What `for` is compared with, the light's fibres; and whether a plug stands at both ends. */
export interface FibresOfPath {
  readonly mode?: Mode;
  readonly fibres: readonly FibreType[];
  readonly isAssembly?: boolean;
}

/** Readings of a channel are expected only where `measure` stands in it: the plan's is not asked. */
export function buildTerms(
  layers: Layers,
  isChannel: boolean,
  path: FibresOfPath,
  scope: Scope,
): Terms {
  const all = new Wanted(layers, path, scope);
  const directions = all.nearestFor(W.directions)?.entry;
  const direction = directionOf(directions?.slots.direction);
  const within = lossOf(directions?.slots[K.within]);
  const limits = limitSets(all.adding(W.limits), scope);
  const carries = all.adding(W.carries).flatMap((line) => carriedOf(line, scope));
  const unread =
    limits.some((set) => set.unread) ||
    carries.some(({ application, modules }) =>
      [application, ...modules].some((one) => one?.unread),
    ) ||
    isUnread(all, scope);
  return {
    measure: wavelengthsOf(all.nearestFor(W.measure, !isChannel)?.entry.slots.wavelength),
    directions: {
      wanted: direction === undefined ? bothDirections : [direction],
      average: directions !== undefined && has(directions, K.average),
      ...(within !== undefined && { within }),
    },
    reference: referenceOf(all) ?? (path.isAssembly ? C.threeCord : undefined),
    limits,
    compare: limitSets(all.adding(W.compare), scope),
    require: all.adding(W.require).flatMap(requirementOf),
    carries,
    margin: lossOf(all.nearest(W.margin)?.entry.slots.loss),
    reserve: {
      splices: wholeOf(all.reserve(C.splices)?.entry.slots.number) ?? 0,
      repairs: wholeOf(all.reserve(C.repairs)?.entry.slots.number) ?? 0,
      ageing: lossOf(all.reserve(C.ageing)?.entry.slots.loss) ?? (microDb(0) as MicroDb),
    },
    policy: nameOf(scope.plan(W.policy)[0]?.entry.slots.policy) as PairPolicy | undefined,
    ...(unread && { unread: true as const }),
  };
}

/** Words of the plan that links are judged by. */
const judgedBy: ReadonlySet<string> = new Set([
  W.measure,
  W.directions,
  W.reference,
  W.limits,
  W.require,
  W.carries,
  W.reserve,
  W.margin,
  W.policy,
  W.uncertainty,
  W.decision,
]);

function isUnread(all: Wanted, scope: Scope): boolean {
  const lacks = (
    word: typeof W.limits | typeof W.application,
    values: readonly Value[] | undefined,
  ) => values?.some((value) => !resolve(word, value, scope)) === true;
  return (
    scope.plan(misreadLines).some(({ entry }) => judgedBy.has(entry.word)) ||
    all.adding(W.limits).some(({ entry }) => lacks(W.limits, entry.slots.name)) ||
    all.adding(W.carries).some(({ entry }) => lacks(W.application, entry.slots.application))
  );
}

/** Where nobody says otherwise, an assembly takes the place of the cord in the middle of three. */
function referenceOf(all: Wanted): ReferenceMethod | undefined {
  return nameOf(all.nearestFor(W.reference)?.entry.slots.method) as ReferenceMethod | undefined;
}

const bothDirections: readonly Direction[] = ['A>B', 'B>A'];

class Wanted {
  /** Lines of a word, a list for each layer that has any. */
  readonly #lines = new Map<string, PlacedEntry[][]>();
  readonly #path: FibresOfPath;
  readonly #scope: Scope;

  constructor(layers: Layers, path: FibresOfPath, scope: Scope) {
    this.#path = path;
    this.#scope = scope;
    for (const layer of layers) this.#add(layer);
  }

  #add(layer: readonly PlacedEntry[]): void {
    const own = new Map<string, PlacedEntry[]>();
    for (const line of layer) {
      const { word } = line.entry;
      const same = own.get(word);
      if (same) {
        same.push(line);
        continue;
      }
      const lines = [line];
      own.set(word, lines);
      const all = this.#lines.get(word);
      if (all) all.push(lines);
      else this.#lines.set(word, [lines]);
    }
  }

  #of(word: string, withPlan = true): readonly (readonly PlacedEntry[])[] {
    const own = this.#lines.get(word) ?? [];
    return withPlan ? [...own, this.#scope.plan(word)] : own;
  }

  nearest(word: string): PlacedEntry | undefined {
    for (const [line] of this.#of(word)) if (line) return line;
    return undefined;
  }

  /** The nearest that holds for the fibres of the path; within a layer the most exact. */
  nearestFor(word: string, withPlan = true): PlacedEntry | undefined {
    for (const lines of this.#of(word, withPlan)) {
      let best: PlacedEntry | undefined;
      let most = 0;
      for (const line of lines) {
        const exact = exactness(nameOf(line.entry.slots[K.for]), this.#path);
        if (exact > most) {
          most = exact;
          best = line;
        }
      }
      if (best) return best;
    }
    return undefined;
  }

  reserve(what: string): PlacedEntry | undefined {
    for (const lines of this.#of(W.reserve)) {
      const line = lines.find(({ entry }) => nameOf(entry.slots.what) === what);
      if (line) return line;
    }
    return undefined;
  }

  /** Lines of all layers, nearest first; none behind a layer that says `only`. */
  adding(word: string): PlacedEntry[] {
    const lines: PlacedEntry[] = [];
    for (const layer of this.#of(word)) {
      lines.push(...layer);
      if (layer.some(({ entry }) => has(entry, K.only))) break;
    }
    return lines;
  }
}

/** 0: holds not; then for all, for a mode, for a fibre by its name. */
function exactness(held: string | undefined, path: FibresOfPath): number {
  if (held === undefined) return 1;
  if (held === C.multimode || held === C.singleMode || held === C.plastic) {
    return held === path.mode ? 2 : 0;
  }
  const all =
    path.fibres.length > 0 &&
    path.fibres.every(({ name, meets }) => name === held || meets.includes(held));
  return all ? 3 : 0;
}

function limitSets(lines: readonly PlacedEntry[], scope: Scope): LimitsSet[] {
  const sets = new Set<LimitsSet>();
  for (const line of lines) {
    for (const value of line.entry.slots.name ?? []) {
      const declaration = resolve(W.limits, value, scope);
      if (declaration) sets.add(buildLimits(declaration, scope).model);
    }
  }
  return [...sets];
}

function requirementOf(line: PlacedEntry): Requirement[] {
  const { slots } = line.entry;
  const place = placeOf(line);
  const what = nameOf(slots.what);
  switch (what) {
    case C.loss: {
      const loss = lossOf(slots.loss);
      if (loss === undefined) return [];
      const word = nameOf(slots.statistic);
      return [
        {
          kind: 'loss',
          loss,
          wavelength: wavelengthOf(slots[K.wavelength]),
          statistic: word === C.mean ? C.mean : shareOf(slots.statistic),
          sufficient: word === C.sufficient,
          place,
        },
      ];
    }
    case C.power:
      return [{ kind: 'power', min: powerOf(slots[K.min]), max: powerOf(slots[K.max]), place }];
    case C.events:
    case C.inspection:
    case C.length:
    case C.seen:
      return [{ kind: what, place }];
    default:
      return [];
  }
}

function carriedOf(line: PlacedEntry, scope: Scope): Carried[] {
  const { entry } = line;
  const value = entry.slots.application?.[0];
  const name = value && nameOf([value]);
  if (name === undefined) return [];
  const declaration = resolve(W.application, value, scope);
  return [
    {
      name,
      application: declaration && buildApplication(declaration, scope).model,
      fibres: wholesOf(entry.slots[K.fibres]),
      transceivers: namesOf(entry.slots[K.with]),
      modules: (entry.slots[K.with] ?? []).flatMap((module) => {
        const declared = resolve(W.transceiver, module, scope);
        return declared ? [buildTransceiver(declared, scope).model] : [];
      }),
      cords: lengthsOf(entry.slots[K.cords]),
      beside: has(entry, K.beside),
      place: line.taken ?? placeOf(line),
      ...(line.taken && { copied: placeOf(line) }),
    },
  ];
}

/** Findings answered in words, in these lines. */
export function silencesOf(lines: readonly PlacedEntry[]): Silence[] {
  return lines.flatMap((line) => {
    const { entry } = line;
    const name = nameOf(entry.slots.finding);
    const because = nameOf(entry.slots[K.because]);
    if (entry.word !== W.silence || name === undefined || because === undefined) return [];
    return [{ finding: name, because, by: nameOf(entry.slots[K.by]), place: placeOf(line) }];
  });
}

/** Answers written in a declaration itself; those of a table belong to its first row, though they hold for all. */
export function silencesIn(declaration: Declaration): {
  readonly own: readonly Silence[];
  readonly holding: readonly Silence[];
} {
  const { block, entries, table, first } = declaration;
  const placed = (list: readonly BoundEntry[]) =>
    silencesOf(list.map((entry) => ({ block, entry })));
  const own = placed(entries);
  const shared = table ? placed(table.entries) : [];
  return { own: first ? [...own, ...shared] : own, holding: [...own, ...shared] };
}

/** Answers written in a block of evidence. */
export function silencesInPart({ block, content }: EvidencePart): readonly Silence[] {
  const entries = 'head' in content ? content.head.entries : content.entries;
  return silencesOf(entries.map((entry) => ({ block, entry })));
}
