/**
 * Evidence about one object, from what its blocks say: readings, traces and
 * inspections with their time and set-up; what was untestable and why; work,
 * withdrawals and concessions.
 */
import { K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Declaration, EvidencePart, RowsPart } from './declaration.ts';
import { gatherEvents } from './events.ts';
import { rowsBlock } from './evidence-rows.ts';
import { gatherInspections } from './inspection.ts';
import { gatherReadings } from './readings.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import type {
  Absence,
  Concession,
  EventCell,
  Evidence,
  InspectionCell,
  LengthCell,
  Narrowing,
  ReadingCell,
  SeenCell,
  Withdrawal,
  WorkEvent,
} from './types.ts';
import {
  directionOf,
  locationOf,
  lossOf,
  nameOf,
  wavelengthOf,
  whenOf,
  wholesOf,
} from './values.ts';

interface Gathered {
  readonly readings: ReadingCell[];
  readonly absences: Absence[];
  readonly work: WorkEvent[];
  readonly withdrawals: Withdrawal[];
  readonly concessions: Concession[];
  readonly lengths: LengthCell[];
  readonly seen: SeenCell[];
  readonly events: EventCell[];
  readonly inspections: InspectionCell[];
}

/** Of an object that nobody has looked at. */
export function noEvidence(): Gathered {
  return {
    readings: [],
    absences: [],
    work: [],
    withdrawals: [],
    concessions: [],
    lengths: [],
    seen: [],
    events: [],
    inspections: [],
  };
}

/** All evidence about an object, under its name and the names it had before. */
export function evidenceOf(object: string, scope: Scope): Evidence {
  const evidence = noEvidence();
  for (const name of namesHeld(object, scope)) {
    for (const part of scope.evidence(name)) {
      const { content, block } = part;
      if ('rows' in content) {
        gatherRows(object, part, content, scope, evidence);
        continue;
      }
      const lines = content.entries.map((entry) => ({ block, entry }));
      if (content.kind === W.work) evidence.work.push(...workOf(object, lines, content.place));
      if (content.kind === W.withdraw) {
        evidence.withdrawals.push(...withdrawalOf(object, lines, content.place));
      }
      if (content.kind === W.concession) {
        evidence.concessions.push(...concessionOf(object, lines, content.place));
      }
    }
  }
  return evidence;
}

function gatherRows(
  object: string,
  part: EvidencePart,
  content: RowsPart,
  scope: Scope,
  into: Gathered,
): void {
  const rows = rowsBlock(object, part, content, scope);
  if (content.kind === W.readings) gatherReadings(rows, scope, into);
  if (content.kind === W.events) gatherEvents(rows, scope, into);
  if (content.kind === W.inspection) gatherInspections(rows, scope, into.inspections);
}

/** Its name, and those it had before that nothing else has now. */
function namesHeld(object: string, scope: Scope): readonly string[] {
  const declaration = scope.find('object', object);
  if (!declaration) return [object];
  const former = declaration.was.filter((name) => !isTakenNow(name, declaration, scope));
  return [object, ...former];
}

function isTakenNow(name: string, declaration: Declaration, scope: Scope): boolean {
  const now = scope.find('object', name);
  // Of two that had the name before, the first keeps the evidence.
  return name === declaration.name || (now !== undefined && now !== declaration);
}

type Lines = readonly PlacedEntry[];

const line = (lines: Lines, word: string): PlacedEntry | undefined =>
  lines.find(({ entry }) => entry.word === word);

// ---- what was done and decided

function workOf(object: string, lines: Lines, place: WorkEvent['place']): WorkEvent[] {
  const onLine = line(lines, W.on);
  const on = onLine && whenOf(onLine, onLine.entry.slots.date);
  const done = nameOf(line(lines, W.done)?.entry.slots.what);
  if (!on || done === undefined) return [];
  return [
    {
      object,
      done,
      on,
      fibres: wholesOf(line(lines, W.fibres)?.entry.slots.fibres),
      at: locationOf(line(lines, W.at)?.entry.slots.place),
      by: nameOf(line(lines, W.by)?.entry.slots.person),
      place,
    },
  ];
}

function narrowingOf(object: string, lines: Lines): Narrowing {
  const tested = line(lines, W.tested);
  return {
    object,
    fibres: wholesOf(line(lines, W.fibres)?.entry.slots.fibres),
    wavelength: wavelengthOf(line(lines, W.wavelength)?.entry.slots.wavelength),
    direction: directionOf(line(lines, W.direction)?.entry.slots.direction),
    tested: tested && whenOf(tested, tested.entry.slots.date),
  };
}

/** Without a reason or a name nothing is withdrawn: binding has asked for them. */
function withdrawalOf(object: string, lines: Lines, place: Withdrawal['place']): Withdrawal[] {
  const because = nameOf(line(lines, W.because)?.entry.slots.text);
  const byLine = line(lines, W.by);
  const by = nameOf(byLine?.entry.slots.person);
  if (because === undefined || !byLine || by === undefined) return [];
  const on = whenOf(byLine, byLine.entry.slots[K.on]);
  return [{ ...narrowingOf(object, lines), because, by, on, place }];
}

function concessionOf(object: string, lines: Lines, place: Concession['place']): Concession[] {
  const accepted = lossOf(line(lines, W.accepted)?.entry.slots.loss);
  const because = nameOf(line(lines, W.because)?.entry.slots.text);
  const byLine = line(lines, W.by);
  const by = nameOf(byLine?.entry.slots.person);
  if (accepted === undefined || because === undefined || !byLine || by === undefined) return [];
  const until = line(lines, W.until);
  return [
    {
      ...narrowingOf(object, lines),
      accepted,
      because,
      by,
      on: whenOf(byLine, byLine.entry.slots[K.on]),
      until: until && whenOf(until, until.entry.slots.date),
      place,
    },
  ];
}
