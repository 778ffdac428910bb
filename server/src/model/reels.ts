/** The reels of a long cable, the splices between them, and what contradicts itself there. */
import { addLengths, type Micrometres, micrometres } from '../../../grammar/src/quantity/index.ts';
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { buildSplice, typeOf } from './parts.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type { Cable, PathElement, Reel } from './types.ts';
import { lengthOf, locationOf, nameOf, placeOf, valuePlace } from './values.ts';

type Splice = Extract<PathElement, { kind: 'splice' }>;

export interface Reels {
  readonly reels: readonly Reel[];
  readonly joints: Cable['joints'];
  readonly findings: readonly ModelFinding[];
}

/** `lines` are the reels, splices and slack of a cable in order of the text. */
export function reelsOf(cable: string, lines: readonly PlacedEntry[], scope: Scope): Reels {
  const findings: ModelFinding[] = [];
  const reels: Reel[] = [];
  const joints: (Splice | undefined)[] = [];
  let waiting: Splice | undefined;
  let before: PlacedEntry | undefined;
  for (const line of lines) {
    if (line.entry.word === W.splice) {
      const splice = jointOf(line, scope);
      if (!before || before.entry.word === W.splice) {
        findings.push(finding('joint-between-no-reels', placeOf(line), { cable }));
      } else waiting = splice;
      before = line;
    }
    if (line.entry.word !== W.reel) continue;
    const reel = reelOf(line);
    if (reels.length > 0) {
      joints.push(waiting);
      if (!waiting) findings.push(jointMissing(cable, reels.at(-1)!, reel));
    }
    waiting = undefined;
    findings.push(...checkReel(line, reel, reels));
    reels.push(reel);
    before = line;
  }
  if (waiting && before) {
    findings.push(finding('joint-between-no-reels', placeOf(before), { cable }));
  }
  const slack = lines.filter(({ entry }) => entry.word === W.slack);
  return { reels: withSlack(reels, joints, slack), joints, findings };
}

function reelOf(line: PlacedEntry): Reel {
  const { slots } = line.entry;
  return {
    name: nameOf(slots.name) ?? '',
    length: lengthOf(slots.length),
    written: locationOf(slots.length) ?? '',
    slack: micrometres(0),
    marks: marksOf(line),
    place: placeOf(line),
  };
}

/** A range is two marks, never all between them. */
function marksOf(line: PlacedEntry): readonly [number, number] | undefined {
  const ends = endsOf(line);
  return ends.length === 2 ? [ends[0]!, ends[1]!] : undefined;
}

function endsOf({ entry }: PlacedEntry): readonly number[] {
  return (entry.slots[K.marks] ?? []).flatMap((value) => {
    if (value.kind === 'wholes') return [value.first, value.last];
    return value.kind === 'whole' ? [value.value] : [];
  });
}

function jointOf(line: PlacedEntry, scope: Scope): Splice {
  const { slots } = line.entry;
  return {
    kind: 'splice',
    name: nameOf(slots.splice) ?? '',
    type: typeOf(W.splice, buildSplice, line, scope),
    at: locationOf(slots[K.at]),
    place: placeOf(line),
  };
}

function jointMissing(cable: string, first: Reel, second: Reel): ModelFinding {
  return finding(
    'reel-joint-missing',
    second.place,
    { cable, first: first.name, second: second.name },
    { related: [{ place: first.place, message: `${first.name}, the reel before it.` }] },
  );
}

// ---- one reel

/** Micrometres of a metre and of a foot: sheaths are marked in either. */
const METRE = 1_000_000;
const FOOT = 304_800;

/**
 * What sheath marks and length may differ by: two marks at each end, and 1 % of
 * the length (accuracy of printed length marks, from memory).
 */
const MARKS_AT_ENDS = 2;
const SHARE_OF_LENGTH = 0.01;

function* checkReel(
  line: PlacedEntry,
  reel: Reel,
  before: readonly Reel[],
): Iterable<ModelFinding> {
  const [named] = line.entry.slots.name ?? [];
  const twin = before.find(({ name }) => name === reel.name);
  if (twin && named) {
    yield finding(
      'reel-named-twice',
      valuePlace(line, named),
      { reel: reel.name },
      { related: [{ place: twin.place, message: `${reel.name} stands here first.` }] },
    );
  }
  const ends = endsOf(line);
  const [mark] = line.entry.slots[K.marks] ?? [];
  if (mark && mark.kind !== 'spoilt' && ends.length !== 2) {
    const details = { reel: reel.name, marks: ends.length };
    yield finding('marks-not-two', valuePlace(line, mark), details);
  }
  if (reel.length === undefined) return;
  if (reel.length <= 0) {
    yield finding('length-not-positive', reel.place, { length: reel.written });
    return;
  }
  if (!reel.marks || !mark) return;
  const marked = Math.abs(reel.marks[1] - reel.marks[0]);
  if ([METRE, FOOT].some((unit) => agree(marked * unit, reel.length!, unit))) return;
  yield finding('marks-against-length', valuePlace(line, mark), {
    reel: reel.name,
    from: reel.marks[0],
    to: reel.marks[1],
    marked,
    length: reel.written,
    feet: feetForMetres(marked, reel.length),
  });
}

function agree(a: number, b: number, unit: number): boolean {
  return Math.abs(a - b) <= MARKS_AT_ENDS * unit + SHARE_OF_LENGTH * Math.max(a, b);
}

/** 1 where the length would fit the marks if its metres were feet, -1 the other way round, else 0. */
function feetForMetres(marked: number, length: Micrometres): number {
  const metres = marked * METRE;
  const feet = marked * FOOT;
  if (agree(metres, (length / METRE) * FOOT, METRE)) return 1;
  return agree(feet, (length / FOOT) * METRE, METRE) ? -1 : 0;
}

// ---- slack

/**
 * Slack lies at the reel it names, at the reel before the closure it names, or
 * where its distance falls; other slack is of the cable as a whole.
 */
function withSlack(
  reels: readonly Reel[],
  joints: Cable['joints'],
  slack: readonly PlacedEntry[],
): readonly Reel[] {
  const added = new Map<Reel, Micrometres>();
  for (const { entry } of slack) {
    const length = lengthOf(entry.slots.length);
    const reel = length !== undefined && reelAt(entry.slots[K.at], reels, joints);
    if (reel) added.set(reel, addLengths(added.get(reel) ?? micrometres(0), length));
  }
  return reels.map((reel) => ({ ...reel, slack: added.get(reel) ?? reel.slack }));
}

function reelAt(
  at: PlacedEntry['entry']['slots'][string] | undefined,
  reels: readonly Reel[],
  joints: Cable['joints'],
): Reel | undefined {
  const distance = lengthOf(at);
  if (distance !== undefined) {
    let end = 0;
    return reels.find(({ length }) => {
      end += length ?? Infinity;
      return distance <= end;
    });
  }
  const place = locationOf(at);
  if (place === undefined) return undefined;
  const named = reels.find(({ name }) => name === place);
  return named ?? reels[joints.findIndex((joint) => joint?.at === place)];
}

/** Slack that no reel has: only the whole cable holds it. */
export function looseSlack(cable: Cable): Micrometres {
  return micrometres(cable.reels.reduce((left, reel) => left - reel.slack, cable.slack as number));
}
