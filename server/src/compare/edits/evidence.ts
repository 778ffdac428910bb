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
import type { HeldBlock, SaidEntry } from './side.ts';
import { type Sides, voiceAfter, voiceBefore } from './things.ts';
import type { Units } from './units.ts';

interface Altered {
  readonly before: EvidenceCell;
  readonly after: EvidenceCell;
}

export function evidenceEdits(before: Units, after: Units, sides: Sides): readonly Draft[] {
  const old = cellsOf(before.evidence, sides.naming);
  const now = cellsOf(after.evidence, (name) => name);
  const matched = match(old, now);
  return [
    ...alteredEdits(matched.altered, sides),
    ...asideEdits(matched.aside, sides),
    ...wholeEdits(matched.gone, 'gone', matched.partners, sides),
    ...wholeEdits(matched.fresh, 'new', turned(matched.partners), sides),
    ...headEdits(before.evidence, after.evidence, matched.partners, sides),
  ];
}

// ---- which cell is which

interface Matched {
  readonly altered: readonly (Altered & { readonly by: Attribute })[];
  /** Who measured it, or what is remarked, is said otherwise. */
  readonly aside: readonly Altered[];
  readonly gone: readonly EvidenceCell[];
  readonly fresh: readonly EvidenceCell[];
  /** Blocks of the old text with the blocks that most of their cells are in now. */
  readonly partners: Partners;
}

type Partners = ReadonlyMap<HeldBlock, HeldBlock>;

const turned = (partners: Partners): Partners =>
  new Map([...partners].map(([before, after]) => [after, before]));

type Attribute = 'value' | 'time' | 'set-up' | 'heading';

const same = (cell: EvidenceCell): string =>
  [keyOf(cell), cell.time, cell.until, cell.setup, cell.content, cell.by, cell.remark].join('\n');

/** What is held equal while one thing may differ, the likeliest first. */
const rounds: readonly (readonly [Attribute | 'aside', (cell: EvidenceCell) => string])[] = [
  ['aside', (c) => [keyOf(c), c.time, c.until, c.setup, c.content].join('\n')],
  ['value', (c) => [keyOf(c), c.time, c.setup].join('\n')],
  ['time', (c) => [keyOf(c), c.setup, c.content].join('\n')],
  ['set-up', (c) => [keyOf(c), c.time, c.content].join('\n')],
  [
    'heading',
    (c) =>
      [c.object, c.fibre ?? '', c.end ?? '', c.time, c.setup, c.content.split(':').pop()].join(
        '\n',
      ),
  ],
];

function match(old: readonly EvidenceCell[], now: readonly EvidenceCell[]): Matched {
  const counts = new Map<HeldBlock, Map<HeldBlock, number>>();
  const note = ({ before, after }: Altered) => {
    const to = counts.get(before.block) ?? new Map<HeldBlock, number>();
    counts.set(before.block, to.set(after.block, (to.get(after.block) ?? 0) + 1));
  };
  let [gone, fresh] = pairs(old, now, same, note);
  const altered: (Altered & { by: Attribute })[] = [];
  const aside: Altered[] = [];
  const headed = exchangedColumns(gone, fresh);
  for (const pair of headed) {
    note(pair);
    altered.push({ ...pair, by: 'heading' });
  }
  const left = new Set(headed.map(({ before }) => before));
  const right = new Set(headed.map(({ after }) => after));
  gone = gone.filter((cell) => !left.has(cell));
  fresh = fresh.filter((cell) => !right.has(cell));
  for (const [by, key] of rounds) {
    [gone, fresh] = pairs(gone, fresh, key, (pair) => {
      note(pair);
      if (by === 'aside') aside.push(pair);
      else if (by === 'value' && pair.before.content === pair.after.content) {
        altered.push({ ...pair, by: 'time' });
      } else altered.push({ ...pair, by });
    });
  }
  const partners = new Map(
    [...counts].map(([block, to]) => [block, [...to].sort(([, a], [, b]) => b - a)[0]![0]]),
  );
  return { altered, aside, gone, fresh, partners };
}

/**
 * Columns of one block that stand under another heading, value for value: two
 * headings were exchanged, or one was put right.
 */
function exchangedColumns(
  old: readonly EvidenceCell[],
  now: readonly EvidenceCell[],
): readonly Altered[] {
  const column = (cell: EvidenceCell) =>
    [cell.what, cell.wavelength ?? '', cell.direction ?? ''].join(' ');
  const row = (cell: EvidenceCell) =>
    [cell.object, cell.fibre ?? '', cell.end ?? '', cell.time].join(' ');
  const content = (cells: readonly EvidenceCell[]) =>
    cells.map((cell) => `${row(cell)} ${cell.content}`).join('\n');
  const columns = (cells: readonly EvidenceCell[]) =>
    grouped(cells, (cell) => `${cell.block.order} ${column(cell)}`);
  const left = new Map(columns(now).map((cells) => [content(cells), cells]));
  return columns(old).flatMap((cells) => {
    const mates = cells.length > 1 ? left.get(content(cells)) : undefined;
    if (!mates || column(mates[0]!) === column(cells[0]!)) return [];
    left.delete(content(cells));
    return cells.map((before, index) => ({ before, after: mates[index]! }));
  });
}

/** Takes pairs of equal key out of both lists, those of one key in order. */
function pairs(
  old: readonly EvidenceCell[],
  now: readonly EvidenceCell[],
  key: (cell: EvidenceCell) => string,
  found: (pair: Altered) => void,
): [readonly EvidenceCell[], readonly EvidenceCell[]] {
  if (old.length === 0 || now.length === 0) return [old, now];
  const byKey = new Map<string, EvidenceCell[]>();
  for (const cell of now) {
    const each = key(cell);
    const others = byKey.get(each);
    if (others) others.push(cell);
    else byKey.set(each, [cell]);
  }
  const taken = new Set<EvidenceCell>();
  const left = old.filter((cell) => {
    const mate = byKey.get(key(cell))?.shift();
    if (!mate) return true;
    taken.add(mate);
    found({ before: cell, after: mate });
    return false;
  });
  return [left, taken.size === 0 ? now : now.filter((cell) => !taken.has(cell))];
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

function grouped<Item>(items: readonly Item[], key: (item: Item) => string): Item[][] {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const same = groups.get(key(item));
    if (same) same.push(item);
    else groups.set(key(item), [item]);
  }
  return [...groups.values()];
}

function differing(before: EvidenceCell, after: EvidenceCell, by: Attribute): string {
  return [by, ...[before, after].map((cell) => said(cell, by))].join('>');
}

/** What a cell says of one of its attributes. */
function said(cell: EvidenceCell, by: Attribute): string {
  if (by === 'value') return cell.printed;
  if (by === 'time') return cell.until ? `${cell.time} to ${cell.until}` : cell.time;
  if (by === 'set-up') return cell.setup;
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
  const call = one ? calledOf(after) : countedOf(cells);
  const several = by === 'value' && !one;
  return {
    kind: absence ? 'coverage' : 'evidence',
    form: 'changed',
    subject:
      by === 'value'
        ? call
        : `${by === 'heading' ? 'column' : by} of ${one ? '' : 'readings of '}${call}`,
    was: several ? spanOf(group.map((pair) => pair.before)) : said(before, by),
    now: several ? spanOf(cells) : said(after, by),
    before: { block: before.block, span: before.span },
    after: { block: after.block, span: after.span },
    readings: keysOf([...group.map((pair) => pair.before), ...cells], sides),
    count: group.length,
    times: timesOf(group.map((pair) => pair.before)),
    ...touched(cells),
    ...(!absence && { guarded: 'reading-altered' as const }),
  };
}

/** Smallest and largest of several values, in their order of size; the first and the last where they have none. */
function spanOf(cells: readonly EvidenceCell[]): string {
  const sorted = [...cells].sort(
    (a, b) => Number.parseFloat(a.printed) - Number.parseFloat(b.printed),
  );
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

const noun = (cells: readonly EvidenceCell[]): string => {
  const { table } = cells[0]!;
  return table === W.events ? 'event' : table === W.inspection ? 'end face' : 'reading';
};
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
  partners: Matched['partners'],
  sides: Sides,
): Iterable<Draft> {
  const left = new Set(after);
  const told = ({ entry }: SaidEntry) =>
    (entry.body?.entries ?? []).filter(
      ({ word }) => word !== W.setup && word !== W.values && word !== W.tested,
    );
  for (const old of before) {
    const partner =
      [...left].find(
        ({ block, entry }) => block === partners.get(old.block) && entry.word === old.entry.word,
      ) ??
      [...left].find(
        ({ entry }) =>
          entry.word === old.entry.word && printedHead(entry) === printedHead(old.entry),
      );
    if (!partner) continue;
    left.delete(partner);
    yield* entryEdits(
      { block: old.block, entries: told(old), voice: voiceBefore(old.block, sides) },
      { block: partner.block, entries: told(partner), voice: voiceAfter(partner.block) },
      partner.entry.word as typeof W.readings,
      { label: headLabel(partner) },
    );
  }
}

const printedHead = (entry: SaidEntry['entry']): string => {
  const tested = entry.body?.entries.find(({ word }) => word === W.tested);
  return `${objectOf(entry)} ${JSON.stringify(tested?.slots.date?.map((value) => (value.kind === 'date' ? value.value : '')))}`;
};

function objectOf(entry: SaidEntry['entry']): string {
  const [value] = entry.slots.object ?? [];
  return value && 'text' in value ? value.text : '';
}

function headLabel({ entry }: SaidEntry): string {
  const object = objectOf(entry);
  return object ? `${entry.word} of ${object}` : entry.word;
}
