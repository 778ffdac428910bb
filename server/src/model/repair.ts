/**
 * Repairs: a piece of path put into some fibres on a day. They stand in a
 * cable, by its numbers, or in a link, by the link's own; whoever holds one of
 * their fibres holds them too, in numbers of its own.
 */
import {
  addLengths,
  lengthWithExcess,
  type Micrometres,
  partsPerMillion,
  toMetres,
} from '../../../grammar/src/quantity/index.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { cableSegment } from './cable-segment.ts';
import type { Declaration } from './declaration.ts';
import type { Built, ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { allOf, firstOf } from './lines.ts';
import { elementsOf, type LinkBuilder } from './path.ts';
import { layPath, type PathLine } from './placing.ts';
import { looseSlack } from './reels.ts';
import { resolve } from './resolve.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { Cable, LinkModel, PathElement, Repair, Way } from './types.ts';
import { lengthOf, locationOf, nameOf, placeOf, whenOf, wholesOf } from './values.ts';

export interface Repairs {
  readonly repairs: readonly Repair[];
  readonly findings: readonly ModelFinding[];
}

type CableBuilder = (declaration: Declaration, scope: Scope) => Built<Cable>;

/** What a repair is judged against: the fibres there are, and how far it can lie. */
interface Holder {
  readonly name: string;
  readonly has: (fibre: number) => boolean;
  /** For the sentence: a count, or the numbers there are. */
  readonly details: Readonly<Record<string, string | number>>;
  readonly length?: Micrometres;
  readonly build?: CableBuilder;
}

export function cableRepairs(
  cable: Cable,
  lines: readonly PlacedEntry[],
  scope: Scope,
  build: CableBuilder,
): Repairs {
  const holder: Holder = {
    name: cable.name,
    has: (fibre) => fibre >= 1 && (cable.count === 0 || fibre <= cable.count),
    details: { count: cable.count },
    length: cable.length && alongFibre(cable.length, cable),
    build,
  };
  const made = repairsOf(holder, lines, scope);
  const somewhere = made.repairs.filter(({ at }) => at === undefined && cable.reels.length > 1);
  return {
    repairs: made.repairs,
    findings: [
      ...made.findings,
      ...somewhere.map(({ name, place }) =>
        finding('repair-place-missing', place, { repair: name, cable: cable.name }),
      ),
    ],
  };
}

/** Those written in a link. */
export function linkRepairs(link: LinkModel, lines: readonly PlacedEntry[], scope: Scope): Repairs {
  const known = new Set(link.fibres);
  const [first] = link.fibres;
  const numbers = first === undefined ? '' : `${first} to ${link.fibres.at(-1)}`;
  return repairsOf(
    { name: link.name, has: (fibre) => known.has(fibre), details: { fibres: numbers } },
    lines,
    scope,
  );
}

/** Repairs of the cables, and of the links of a channel, that hold fibres of it: in its own numbers. */
export function inheritedRepairs(
  path: readonly PathElement[],
  fibres: readonly number[],
): readonly Repair[] {
  const own = (repair: Repair, taken: readonly number[]): readonly Repair[] => {
    const touched = fibres.filter((_, place) => repair.fibres.includes(taken[place] ?? Number.NaN));
    return touched.length > 0 ? [{ ...repair, fibres: touched }] : [];
  };
  return path.flatMap((element): readonly Repair[] => {
    if (element.kind === 'link' && element.link) {
      const taken = element.fibres ?? element.link.fibres;
      return element.link.repairs.flatMap((repair) => own(repair, taken));
    }
    if (element.kind !== 'segment' || !element.cable) return [];
    const { cable, cableFibres = [], reel, place } = element;
    // Without a distance it may lie in any reel: counted once for all that a line takes.
    const first = path.find((other) => other.place === place) === element;
    return cable.repairs.flatMap((repair) => {
      const at = reel === undefined ? undefined : reelOfRepair(repair, cable);
      const here = reel === undefined || (at === undefined ? first : at === reel);
      return here ? own(repair, cableFibres) : [];
    });
  });
}

/** Repairs that an end of a tree holds: of its own fibre of a cable, or of the one that feeds it and others. */
export function treeRepairs(ways: readonly Way[]): readonly Repair[] {
  const sharing = new Map<PathElement, Way[]>();
  for (const way of ways) {
    for (const element of way.path) {
      if (element.kind !== 'segment' || !element.cable) continue;
      sharing.set(element, [...(sharing.get(element) ?? []), way]);
    }
  }
  const held = new Map<Repair, Set<number>>();
  for (const [element, through] of sharing) {
    if (element.kind !== 'segment') continue;
    const { cable, cableFibres = [], reel } = element;
    for (const repair of cable?.repairs ?? []) {
      const at = cable && reelOfRepair(repair, cable);
      if (reel !== undefined && at !== undefined && at !== reel) continue;
      for (const [index, { fibre }] of through.entries()) {
        const taken = cableFibres.length === 1 ? cableFibres[0] : cableFibres[index];
        if (fibre === undefined || taken === undefined || !repair.fibres.includes(taken)) continue;
        held.set(repair, (held.get(repair) ?? new Set()).add(fibre));
      }
    }
  }
  return [...held].map(([repair, fibres]) => ({ ...repair, fibres: [...fibres] }));
}

function repairsOf(holder: Holder, lines: readonly PlacedEntry[], scope: Scope): Repairs {
  const findings: ModelFinding[] = [];
  const repairs = allOf(lines, W.repair).flatMap((line) => {
    const repair = repairOf(line, holder, scope, findings);
    return repair ?? [];
  });
  return { repairs, findings };
}

/** Undefined where it says no fibres or no day, which has been reported. */
function repairOf(
  line: PlacedEntry,
  holder: Holder,
  scope: Scope,
  findings: ModelFinding[],
): Repair | undefined {
  const name = nameOf(line.entry.slots.name) ?? '';
  const body = line.entry.body;
  const lines = (body?.entries ?? []).map((entry): PlacedEntry => ({ ...line, entry }));
  const fibresLine = firstOf(lines, W.fibres);
  const fibres = wholesOf(fibresLine?.entry.slots.fibres);
  const onLine = firstOf(lines, W.on);
  const on = onLine && whenOf(onLine, onLine.entry.slots.date);
  const strange = fibres?.find((fibre) => !holder.has(fibre));
  if (strange !== undefined && fibresLine) {
    findings.push(
      finding('fibre-out-of-range', placeOf(fibresLine), {
        of: holder.name,
        fibre: strange,
        ...holder.details,
      }),
    );
  }
  const atLine = firstOf(lines, W.at);
  const at = lengthOf(atLine?.entry.slots.length);
  if (atLine && at !== undefined && holder.length !== undefined && at > holder.length) {
    findings.push(
      finding('repair-beyond-end', placeOf(atLine), {
        repair: name,
        at: locationOf(atLine.entry.slots.length) ?? '',
        of: holder.name,
        length: toMetres(holder.length),
      }),
    );
  }
  const laid = layPath(lines, scope);
  findings.push(...laid.findings);
  const path = piecesPutIn(laid.path, fibres?.length, holder, scope, findings);
  const misread = body?.entries.some(({ word }) => word === '') ?? true;
  if (path.length === 0 && !laid.broken && !misread && !body?.open) {
    findings.push(finding('repair-puts-nothing-in', placeOf(line), { repair: name }));
  }
  if (!fibres || !on) return undefined;
  const because = nameOf(firstOf(lines, W.because)?.entry.slots.text);
  return { name, fibres, on, at, path, because, place: placeOf(line) };
}

function piecesPutIn(
  lines: readonly PathLine[],
  n: number | undefined,
  holder: Holder,
  scope: Scope,
  findings: ModelFinding[],
): readonly PathElement[] {
  return lines.flatMap((line) => {
    const { cable } = line.entry.slots;
    if (line.entry.word === W.segment && cable) {
      const declaration = resolve(W.cable, cable[0], scope);
      return cableSegment(line, declaration, scope, findings, holder.build);
    }
    const made = elementsOf([line], n, holder.name, scope, noLinks);
    findings.push(...made.findings);
    return made.path;
  });
}

/** No link stands in the path of a repair: the vocabulary has no place for one. */
const noLinks: LinkBuilder = () => {
  throw new TypeError('a repair holds no link');
};

// ---- where it lies

/** The reel in which a repair lies, by its distance along the fibre; undefined where it says none. */
export function reelOfRepair(repair: Repair, cable: Cable): string | undefined {
  const { at } = repair;
  if (at === undefined) return undefined;
  let end = looseSlack(cable);
  for (const { name, length, slack } of cable.reels) {
    if (length === undefined) return undefined;
    end = addLengths(end, addLengths(length, slack));
    if (at <= alongFibre(end, cable)) return name;
  }
  return cable.reels.at(-1)?.name;
}

function alongFibre(length: Micrometres, { excess }: Cable): Micrometres {
  return lengthWithExcess(length, excess ?? partsPerMillion(0));
}
