/**
 * What evidence says otherwise: values typed, values that are others now at the
 * same key, time and set-up, and values that are gone. A later attempt is a new
 * reading; an altered one is told before anything else.
 */
import { toNanometres } from '../../../../grammar/src/quantity/index.ts';
import { W } from '../../../../grammar/src/vocabulary/index.ts';
import type { PlanState, ReadingKey } from '../types.ts';
import { absent, calledOf, cellsOf, type EvidenceCell, keyOf, readingKeyOf } from './cells.ts';
import type { Draft } from './draft.ts';
import { entryEdits } from './entries.ts';
import {
  type Altered,
  type Attribute,
  grouped,
  listed,
  type Matched,
  match,
  type Partners,
  turned,
} from './matching.ts';
import { linesOf, type SaidEntry, type Sides } from './side.ts';
import type { Units } from './units.ts';
import { printValue } from './values.ts';

export function evidenceEdits(before: Units, after: Units, sides: Sides): readonly Draft[] {
  const old = cellsOf(before.evidence, sides.naming);
  const now = cellsOf(after.evidence, sides.naming);
  const matched = match(old, now);
  return [
    ...alteredEdits(matched.altered, sides),
    ...asideEdits(matched.aside, sides),
    ...wholeEdits(matched.gone, 'gone', matched.partners, sides),
    ...wholeEdits(matched.fresh, 'new', turned(matched.partners), sides),
    ...headEdits(before.evidence, after.evidence, matched, sides),
  ];
}

// ---- told

/** So many altered readings of one block are told one by one; more as one. */
const apart = 6;

function* alteredEdits(
  altered: readonly (Altered & { readonly by: Attribute })[],
  sides: Sides,
): Iterable<Draft> {
  for (const group of grouped(altered, ({ before, after, by }) =>
    [
      before.block.order,
      after.block.order,
      by,
      by === 'value' ? '' : differing(before, after, by),
    ].join(),
  )) {
    const { by } = group[0]!;
    const absence = group.every(({ before }) => before.what === absent);
    if (by === 'value' && group.length <= apart) {
      for (const pair of group) yield alteredEdit([pair], by, absence, sides);
    } else yield alteredEdit(group, by, absence, sides);
  }
}

function differing(before: EvidenceCell, after: EvidenceCell, by: Attribute): string {
  const apart = isApart(before, after, by);
  return [by, ...[before, after].map((cell) => said(cell, by, apart))].join('>');
}

/** An event that lies elsewhere, and what was measured at the same time of another day. */
function isApart(before: EvidenceCell, after: EvidenceCell, by: Attribute): boolean {
  if (by !== 'time') return before.where !== after.where;
  const clockOf = ({ time, until }: EvidenceCell) => `${time.slice(day)} ${until}`;
  return dayOf(before) !== dayOf(after) && clockOf(before) === clockOf(after);
}

/** Length of a date without its time. */
const day = '2026-01-01'.length;
const dayOf = ({ time }: EvidenceCell): string => time.slice(0, day).trim();

/** What a cell says of one of its attributes; an event that lies elsewhere, with where; of another day, the day. */
function said(cell: EvidenceCell, by: Attribute, elsewhere = false): string {
  if (by === 'value') return elsewhere ? `${cell.event} ${cell.printed}` : cell.printed;
  if (by === 'event') return cell.event;
  if (by === 'time')
    return elsewhere ? dayOf(cell) : cell.until ? `${cell.time} to ${cell.until}` : cell.time;
  if (by === 'set-up') return cell.setup;
  if (by === 'object') return cell.object;
  return [cell.what, cell.wavelength && `${toNanometres(cell.wavelength)} nm`, cell.direction]
    .filter(Boolean)
    .join(' ');
}

function alteredEdit(
  group: readonly Altered[],
  by: Attribute,
  absence: boolean,
  sides: Sides,
): Draft {
  const { before, after } = group[0]!;
  const cells = group.map((pair) => pair.after);
  const one = group.length === 1;
  const elsewhere = isApart(before, after, by);
  const call = one ? calledOf(elsewhere ? { ...after, event: '' } : after) : countedOf(cells);
  const several = by === 'value' && !one;
  return {
    kind: absence ? 'coverage' : 'evidence',
    form: 'changed',
    subject:
      by === 'value' || by === 'event'
        ? call
        : `${by === 'heading' ? 'column' : by} of ${one ? '' : 'readings of '}${call}`,
    was: several ? spanOf(group.map((pair) => pair.before)) : said(before, by, elsewhere),
    now: several ? spanOf(cells) : said(after, by, elsewhere),
    before: { block: before.block, span: before.span },
    after: { block: after.block, span: after.span },
    readings: keysOf([...group.map((pair) => pair.before), ...cells], sides),
    count: group.length,
    times: timesOf(group.map((pair) => pair.before)),
    noun: noun(cells),
    ...touched(cells),
    ...(!absence && { guarded: 'reading-altered' as const }),
  };
}

/** Smallest and largest of several values, in their order of size; the first and the last where they have none. */
function spanOf(cells: readonly EvidenceCell[]): string {
  // No light at all is a loss beyond any.
  const size = ({ printed }: EvidenceCell) => {
    const number = Number.parseFloat(printed);
    return Number.isNaN(number) ? Number.MAX_VALUE : number;
  };
  const sorted = [...cells].sort((a, b) => size(a) - size(b));
  const [first, last] = [sorted[0]!.printed, sorted.at(-1)!.printed];
  return first === last ? first : `${first} to ${last}`;
}

function* wholeEdits(
  cells: readonly EvidenceCell[],
  form: 'new' | 'gone',
  partners: Partners,
  sides: Sides,
): Iterable<Draft> {
  for (const group of grouped(cells, (cell) => `${cell.block.order} ${cell.what === absent}`)) {
    const first = group[0]!;
    const spot = { block: first.block, span: first.span };
    const absence = first.what === absent;
    const text = group.length === 1 ? first.printed : counted(group.length, noun(group));
    yield {
      kind: absence ? 'coverage' : form === 'new' ? 'readings' : 'evidence',
      form,
      subject: group.length === 1 ? calledOf(first) : countedOf(group),
      ...(form === 'new' ? { now: text, after: spot } : { was: text, before: spot }),
      note: noteOf(group),
      readings: keysOf(group, sides),
      count: group.length,
      times: timesOf(group),
      noun: noun(group),
      ...(partners.has(first.block) && { beside: [partners.get(first.block)!] }),
      ...touched(group),
      ...(!absence && form === 'gone' && { guarded: 'reading-removed' as const }),
    };
  }
}

function noteOf(cells: readonly EvidenceCell[]): string | undefined {
  const { time, by } = cells[0]!;
  const when = time && `tested ${time}`;
  const who = by && cells.every((cell) => cell.by === by) ? `by ${by}` : '';
  return [when, who].filter(Boolean).join(' ') || undefined;
}

/** `KQ-OPS-B3, 12 fibres at 850 nm and 1300 nm`. */
function countedOf(cells: readonly EvidenceCell[]): string {
  const objects = [...new Set(cells.map(({ object }) => object))];
  const what = [...new Set(cells.map((cell) => cell.what))];
  const fibres = new Set(cells.map(({ object, fibre, end }) => `${object} ${fibre ?? end}`));
  const waves = [...new Set(cells.flatMap(({ wavelength }) => wavelength ?? []))].sort(
    (a, b) => a - b,
  );
  const who =
    objects.length === 1
      ? objects[0]!
      : objects.length === 2
        ? objects.join(' and ')
        : `${objects.length} objects, ${objects[0]} to ${objects.at(-1)}`;
  const first = cells[0]!;
  const which =
    fibres.size > 1
      ? `, ${fibres.size} ${cells.some(({ end }) => end !== undefined) ? 'ends' : 'fibres'}`
      : first.end !== undefined
        ? ` end ${first.end}`
        : first.fibre === undefined
          ? ''
          : ` fibre ${first.fibre}`;
  const at =
    waves.length === 0 ? '' : ` at ${waves.map((w) => `${toNanometres(w)} nm`).join(', ')}`;
  const named = what.length === 1 && what[0] !== 'loss' ? `, ${what[0]}` : '';
  return `${who}${which}${named}${at}`;
}

/** What they are called, where all are alike. */
function noun(cells: readonly EvidenceCell[]): string {
  const { table, what } = cells[0]!;
  if (table === W.events) return 'event';
  if (table === W.inspection) return 'end face';
  return cells.every((cell) => cell.what === W.length) ? `measured ${what}` : 'reading';
}
const counted = (count: number, what: string): string =>
  `${count} ${what}${count === 1 ? '' : 's'}`;

const timesOf = (cells: readonly EvidenceCell[]): string[] => [
  ...new Set(cells.map(({ time }) => time)),
];

/** Only these objects of those that the blocks speak of. */
function touched(cells: readonly EvidenceCell[]): Pick<Draft, 'objects'> {
  return { objects: [...new Set(cells.flatMap(({ object, written }) => [object, written]))] };
}

function keysOf(cells: readonly EvidenceCell[], sides: Sides): readonly ReadingKey[] {
  const found = new Map<string, ReadingKey>();
  for (const cell of cells) {
    const key = readingKeyOf(cell, (each) => endNumber(each, sides));
    if (key) found.set(keyOf(cell), key);
  }
  return [...found.values()];
}

/** The number of an end of a tree, of which the text says its port. */
function endNumber({ object, written, end }: EvidenceCell, sides: Sides): number | undefined {
  const states: readonly [PlanState, string][] = [
    [sides.after, object],
    [sides.before, written],
  ];
  for (const [state, name] of states) {
    const cell = state.evidence(name).readings.find((each) => each.end === end);
    if (cell) return cell.fibre;
  }
  return undefined;
}

// ---- who measured, what is remarked, and what stands above the rows

function* asideEdits(aside: readonly Altered[], sides: Sides): Iterable<Draft> {
  for (const group of grouped(
    aside.filter(({ before, after }) => before.by !== after.by),
    ({ before, after }) => [before.block.order, after.block.order, before.by, after.by].join(),
  )) {
    const { before, after } = group[0]!;
    yield {
      kind: 'instrument',
      form: !before.by ? 'new' : !after.by ? 'gone' : 'changed',
      subject: `who tested ${countedOf(group.map((pair) => pair.after))}`,
      was: before.by || undefined,
      now: after.by || undefined,
      before: { block: before.block, span: before.span },
      after: { block: after.block, span: after.span },
      count: group.length,
      readings: keysOf(
        group.map((pair) => pair.after),
        sides,
      ),
      ...touched(group.map((pair) => pair.after)),
    };
  }
  // A remark stands once in a row, whatever the row says.
  for (const group of grouped(
    aside.filter(({ before, after }) => before.remark !== after.remark),
    ({ before, after }) =>
      [before.block.order, after.object, after.fibre, after.end, after.time, after.remark].join(),
  )) {
    const { before, after } = group[0]!;
    yield {
      kind: 'words',
      form: !before.remark ? 'new' : !after.remark ? 'gone' : 'changed',
      subject: `remark on ${countedOf(group.map((pair) => pair.after))}`,
      was: before.remark ? `"${before.remark}"` : undefined,
      now: after.remark ? `"${after.remark}"` : undefined,
      before: { block: before.block, span: before.span },
      after: { block: after.block, span: after.span },
      ...touched(group.map((pair) => pair.after)),
    };
  }
}

/** Lines above the rows that no cell holds: notes, answers, criteria, traces. */
function* headEdits(
  before: readonly SaidEntry[],
  after: readonly SaidEntry[],
  { partners, altered, aside }: Matched,
  sides: Sides,
): Iterable<Draft> {
  const left = new Set(after);
  const byBlock = listed(after, ({ block, entry }) => `${block.order} ${entry.word}`);
  const byHead = listed(after, (said) => printedHead(said, sides));
  const partnerOf = (old: SaidEntry): SaidEntry | undefined => {
    const block = partners.get(old.block);
    const found =
      (block && byBlock.get(`${block.order} ${old.entry.word}`)?.find((each) => left.has(each))) ??
      byHead.get(printedHead(old, sides))?.find((each) => left.has(each));
    if (found) left.delete(found);
    return found;
  };
  const ofCells = new Set([...altered, ...aside].map((pair) => pair.before.block));
  for (const old of before) {
    const now = partnerOf(old);
    if (!now) continue;
    // What cells say of it is told of them; where each row has a time of its own, none does.
    const untold = new Set<string>([W.setup]);
    if (ofCells.has(old.block)) untold.add(W.tested);
    if (says(old, W.values) && says(now, W.values)) untold.add(W.values);
    yield* entryEdits(
      linesOf(old, sides),
      linesOf(now, sides),
      now.entry.word as typeof W.readings,
      { label: headLabel(now), untold },
    );
  }
}

const says = ({ entry }: SaidEntry, word: string): boolean =>
  entry.body?.entries.some((each) => each.word === word) ?? false;

/** Kind of evidence, object and day. */
function printedHead({ entry }: SaidEntry, { naming }: Sides): string {
  const tested = entry.body?.entries.find(({ word }) => word === W.tested);
  const [date] = tested?.slots.date ?? [];
  return `${entry.word} ${naming(objectOf(entry), ['object'])} ${date ? printValue(date, '') : ''}`;
}

function objectOf(entry: SaidEntry['entry']): string {
  const [value] = entry.slots.object ?? [];
  return value && 'text' in value ? value.text : '';
}

function headLabel({ entry }: SaidEntry): string {
  const object = objectOf(entry);
  return object ? `${entry.word} of ${object}` : entry.word;
}
