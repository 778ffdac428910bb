/** What declarations, tables and their rows say otherwise. */
import type { BoundEntry, Value } from '../../../../grammar/src/bound.ts';
import { type Context, findWord, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import type { PlanState } from '../types.ts';
import type { Draft } from './draft.ts';
import { type About, entryEdits, type Lines } from './entries.ts';
import { kindOf, kindOfBlock } from './kinds.ts';
import { blockOf, type Identities, isRow, type Pair, pairTables, type Thing } from './renames.ts';
import type { BlocksById, HeldBlock, SaidEntry, Spot, Voice } from './side.ts';
import { labelOf, thingOf } from './subjects.ts';
import type { RowUnit, TableUnit, Units } from './units.ts';
import { contents, holeOf, type Naming, printValues } from './values.ts';

/** Both sides with what is needed to read them. */
export interface Sides {
  readonly before: PlanState;
  readonly after: PlanState;
  readonly blocksAfter: BlocksById;
  readonly blocksBefore: BlocksById;
  /** A name of the old state as it is called now. */
  readonly naming: Naming;
}

const plain: Naming = (name) => name;

export const voiceBefore = (block: HeldBlock, { naming }: Pick<Sides, 'naming'>): Voice => ({
  text: block.view.text,
  naming,
});
export const voiceAfter = (block: HeldBlock): Voice => ({ text: block.view.text, naming: plain });

export function* thingEdits(
  before: Units,
  after: Units,
  identities: Identities,
  sides: Sides,
): Iterable<Draft> {
  yield* planEdits(before.plans, after.plans, sides);
  const renamed = new Set(identities.renamed);
  for (const pair of identities.pairs) {
    const another = renamed.has(pair);
    if (another) yield renameEdit(pair);
    yield* pairEdits(pair, another, sides);
  }
  for (const { before: old, after: now } of identities.parted) {
    yield partedEdit(old, now);
    if (old.length === 1) {
      for (const each of now) yield* pieceEdits({ before: old[0]!, after: each }, sides);
    } else {
      for (const each of old) yield* pieceEdits({ before: each, after: now[0]! }, sides);
    }
  }
  for (const thing of identities.gone) yield wholeEdit(thing, 'gone');
  for (const thing of identities.fresh) yield wholeEdit(thing, 'new');
  for (const { before: old, after: now } of pairTables(
    before.tables,
    after.tables,
    identities.pairs,
  )) {
    if (old && now) yield* tableEdits(old, now, sides);
  }
}

// ---- the plan

function* planEdits(
  before: readonly SaidEntry[],
  after: readonly SaidEntry[],
  sides: Sides,
): Iterable<Draft> {
  for (let index = 0; index < Math.max(before.length, after.length); index++) {
    const old = before[index];
    const now = after[index];
    const about: About = { label: 'the plan', fields: true };
    if (old && now) {
      yield* titleEdit(
        old,
        now,
        nameOf(old.entry.slots.title),
        nameOf(now.entry.slots.title),
        about,
      );
      yield* entryEdits(linesBefore(old, sides), linesAfter(now), W.plan, about);
    } else {
      const one = (now ?? old)!;
      const title = nameOf(one.entry.slots.title);
      yield {
        kind: kindOfBlock(W.plan),
        form: now ? 'new' : 'gone',
        subject: 'the plan',
        ...(now ? { now: title } : { was: title }),
        before: old && headOf(old),
        after: now && headOf(now),
      };
    }
  }
}

const linesBefore = ({ block, entry }: SaidEntry, sides: Sides): Lines => ({
  block,
  entries: entry.body?.entries ?? [],
  voice: voiceBefore(block, sides),
});
const linesAfter = ({ block, entry }: SaidEntry): Lines => ({
  block,
  entries: entry.body?.entries ?? [],
  voice: voiceAfter(block),
});

/** The line with which a block begins. */
export function headOf({ block, entry }: SaidEntry): Spot {
  const end = entry.body ? entry.body.span.start : entry.span.end;
  return { block, span: { start: entry.span.start, end: Math.max(entry.wordSpan.end, end) } };
}

function* titleEdit(
  old: SaidEntry,
  now: SaidEntry,
  was: string | undefined,
  is: string | undefined,
  about: About,
): Iterable<Draft> {
  if (was === is) return;
  yield {
    kind: 'words',
    form: was === undefined ? 'new' : is === undefined ? 'gone' : 'changed',
    subject: `title of ${about.label}`,
    was: was && `"${was}"`,
    now: is && `"${is}"`,
    before: headOf(old),
    after: headOf(now),
  };
}

// ---- declarations and rows

function spotOf(thing: Thing): Spot {
  return isRow(thing) ? { block: thing.head.block, span: thing.row.span } : headOf(thing);
}

function aboutOf(thing: Thing, other: Thing = thing): About {
  const label = labelOf(thing.kind, thing.name);
  if (!isRow(thing) && !isRow(other)) return { label };
  return { label, objects: [...new Set([thing.name, other.name])] };
}

function wholeEdit(thing: Thing, form: 'new' | 'gone'): Draft {
  const title = titleOf(thing);
  const text = title && `"${title}"`;
  const thingKind = thingOf(thing.kind);
  return {
    kind: kindOfBlock(thing.kind as Context),
    form,
    subject: `${thingKind} ${thing.name}`,
    ...(form === 'new'
      ? { now: text, after: spotOf(thing) }
      : { was: text, before: spotOf(thing) }),
    ...(isRow(thing) && {
      objects: [thing.name],
      group: {
        key: `${form} row`,
        of: tableLabel(thing.head),
        many: `${thingKind}s`,
        whole: true as const,
      },
    }),
  };
}

function renameEdit({ before, after }: Pair): Draft {
  return {
    kind: 'identity',
    form: 'changed',
    subject: `name of ${thingOf(after.kind)} ${after.name}`,
    was: before.name,
    now: after.name,
    before: spotOf(before),
    after: spotOf(after),
    ...(isRow(after) && { objects: [after.name, before.name] }),
  };
}

function partedEdit(before: readonly Thing[], after: readonly Thing[]): Draft {
  const names = (things: readonly Thing[]) => things.map(({ name }) => name).join(', ');
  return {
    kind: 'identity',
    form: 'changed',
    subject:
      before.length === 1
        ? `${before[0]!.name} in ${after.length} parts`
        : `${before.length} in one, ${after[0]!.name}`,
    was: names(before),
    now: names(after),
    before: spotOf(before[0]!),
    after: spotOf(after[0]!),
    objects: [...before, ...after].map(({ name }) => name),
  };
}

function* pairEdits(pair: Pair, renamed: boolean, sides: Sides): Iterable<Draft> {
  const { before, after } = pair;
  const about = { ...aboutOf(after, before), ...(renamed && { untold: new Set([W.was]) }) };
  if (isRow(before) || isRow(after)) {
    yield* rowEdits(before, after, about, sides);
    return;
  }
  yield* titleEdit(before, after, before.title, after.title, about);
  yield* entryEdits(linesBefore(before, sides), linesAfter(after), after.kind as Context, about);
}

/** Of one that became several: what is neither its name, its ports nor its share of fibres. */
function* pieceEdits({ before, after }: Pair, sides: Sides): Iterable<Draft> {
  const untold = new Set<string>([W.was, W.from, W.to, W.fibres, W.segment, W.spare, W.dead]);
  const about = { ...aboutOf(after, before), untold };
  if (isRow(before) || isRow(after)) yield* rowEdits(before, after, about, sides);
  else
    yield* entryEdits(linesBefore(before, sides), linesAfter(after), after.kind as Context, about);
}

const titleOf = (thing: Thing): string | undefined =>
  isRow(thing) ? rowText(thing, W.title) : thing.title;

function rowText({ head, row }: RowUnit, word: string): string | undefined {
  const cell = cellsOf(head, row).get(word);
  return cell && nameOf([cell]);
}

/** Cells that say something, by the word or hole of their heading. */
function cellsOf(head: TableUnit, row: RowUnit['row']): ReadonlyMap<string, Value> {
  const cells = new Map<string, Value>();
  for (const [index, heading] of head.headings.entries()) {
    const cell = row.cells[index];
    if (
      !cell ||
      cell.kind === 'absent' ||
      (cell.kind === 'spoilt' && cell.span.start === cell.span.end)
    ) {
      continue;
    }
    if (heading.kind === 'hole') cells.set(`<${heading.name}>`, cell);
    if (heading.kind === 'word') cells.set(heading.word, cell);
  }
  return cells;
}

/** Two rows, or a row that was written out or the other way round. */
function* rowEdits(before: Thing, after: Thing, about: About, sides: Sides): Iterable<Draft> {
  const context = after.kind as Context;
  const inTable = isRow(before) && isRow(after);
  if (!inTable) {
    yield {
      kind: 'identity',
      form: 'changed',
      subject: `where ${after.name} is written`,
      was: isRow(before) ? `row of ${tableLabel(before.head)}` : 'a block of its own',
      now: isRow(after) ? `row of ${tableLabel(after.head)}` : 'a block of its own',
      before: spotOf(before),
      after: spotOf(after),
      ...(about.objects && { objects: about.objects }),
    };
  }
  const old = rowLines(before, sides, true);
  const now = rowLines(after, sides, false);
  const drafts = entryEdits(old, now, context, about);
  for (const draft of drafts) yield inTable ? asRow(draft, after) : draft;
  if (!inTable) return;
  for (const word of [W.title, W.remark]) {
    yield* cellEdit(
      before,
      after,
      word,
      word === W.title ? 'title' : 'remark',
      'words',
      about,
      sides,
    );
  }
  const holes = new Set(
    [before, after].flatMap(({ head, row }) => [...cellsOf(head, row).keys()].filter(holeOf)),
  );
  for (const hole of holes) {
    const kind = holeKind(after.head.pattern, holeOf(hole)!, sides);
    yield* cellEdit(before, after, hole, holeOf(hole)!, kind, about, sides);
  }
}

const asRow = (draft: Draft, row: RowUnit): Draft => ({
  ...draft,
  ...(draft.group && { group: { ...draft.group, of: tableLabel(row.head) } }),
});

function* cellEdit(
  before: RowUnit,
  after: RowUnit,
  heading: string,
  called: string,
  kind: Draft['kind'],
  about: About,
  sides: Sides,
): Iterable<Draft> {
  const was = cellsOf(before.head, before.row).get(heading);
  const is = cellsOf(after.head, after.row).get(heading);
  const old = was && contents([was], undefined, voiceBefore(before.head.block, sides)).join();
  const now = is && contents([is], undefined, voiceAfter(after.head.block)).join();
  if (old === now) return;
  yield {
    kind,
    form: !was ? 'new' : !is ? 'gone' : 'changed',
    subject: `${called} of ${about.label}`,
    was: was && printValues([was], before.head.block.view.text),
    now: is && printValues([is], after.head.block.view.text),
    before: { block: before.head.block, span: (was ?? before.row).span },
    after: { block: after.head.block, span: (is ?? after.row).span },
    ...(about.objects && { objects: about.objects }),
    group: { key: `cell ${heading}`, of: tableLabel(after.head), many: called },
    ...(kind !== 'words' && { guarded: 'path-changed-without-work' as const }),
  };
}

/** Lines that a row amounts to, or those of a block. */
function rowLines(thing: Thing, sides: Sides, old: boolean): Lines {
  const block = blockOf(thing);
  const voice = old ? voiceBefore(block, sides) : voiceAfter(block);
  if (!isRow(thing)) return { block, entries: thing.entry.body?.entries ?? [], voice };
  const entries: BoundEntry[] = [];
  for (const [word, cell] of cellsOf(thing.head, thing.row)) {
    if (word === thing.kind || word === W.title || word === W.remark || holeOf(word)) continue;
    const slot = findWord(word, thing.kind)?.forms[0].slots.find(({ keyword }) => !keyword);
    if (!slot) continue;
    entries.push({ word, span: cell.span, wordSpan: cell.span, slots: { [slot.name]: [cell] } });
  }
  return { block, entries, voice };
}

/** What a hole fills, by the line of the pattern in which it stands. */
function holeKind(pattern: string | undefined, hole: string, sides: Sides): Draft['kind'] {
  const thing = pattern === undefined ? undefined : sides.after.find('pattern', pattern);
  const block = thing && sides.blocksAfter.get(thing.place.block);
  for (const entry of block?.view.bound().entries ?? []) {
    if (entry.word !== W.pattern || nameOf(entry.slots.name) !== pattern) continue;
    const found = whereFilled(entry.body?.entries ?? [], hole);
    if (found) return kindOf(W.link, found.word, found.slot) ?? 'medium';
  }
  return 'medium';
}

function whereFilled(
  entries: readonly BoundEntry[],
  hole: string,
): { readonly word: string; readonly slot: string } | undefined {
  for (const { word, slots, body } of entries) {
    for (const [slot, values] of Object.entries(slots)) {
      if (values.some((value) => value.kind === 'hole' && value.name === hole)) {
        return { word, slot };
      }
    }
    const inside = body && whereFilled(body.entries, hole);
    if (inside) return inside;
  }
  return undefined;
}

// ---- what rows of a table have in common

function tableLabel({ title, pattern, kind }: TableUnit): string {
  if (title !== undefined) return `${kind} "${title}"`;
  return pattern === undefined ? `the ${kind}` : `${kind} as ${pattern}`;
}

function* tableEdits(before: TableUnit, after: TableUnit, sides: Sides): Iterable<Draft> {
  const about: About = { label: tableLabel(after) };
  yield* titleEdit(before, after, before.title, after.title, about);
  const heads = { before: headOf(before), after: headOf(after) };
  const asWas = before.pattern && sides.naming(before.pattern, ['pattern']);
  if (asWas !== after.pattern) {
    yield {
      kind: 'joints',
      form: 'changed',
      subject: `pattern of ${about.label}`,
      was: before.pattern,
      now: after.pattern,
      ...heads,
      guarded: 'path-changed-without-work',
    };
  }
  const holes = new Set(
    [before, after].flatMap(({ entry }) => Object.keys(entry.slots).filter(holeOf)),
  );
  for (const slot of holes) {
    const was = before.entry.slots[slot];
    const is = after.entry.slots[slot];
    const old = was && contents(was, undefined, voiceBefore(before.block, sides)).join();
    const now = is && contents(is, undefined, voiceAfter(after.block)).join();
    if (old === now) continue;
    yield {
      kind: holeKind(after.pattern, holeOf(slot)!, sides),
      form: !was ? 'new' : !is ? 'gone' : 'changed',
      subject: `${holeOf(slot)} of ${about.label}`,
      was: was && printValues(was, before.block.view.text),
      now: is && printValues(is, after.block.view.text),
      ...heads,
      guarded: 'path-changed-without-work',
    };
  }
  yield* entryEdits(linesBefore(before, sides), linesAfter(after), after.kind, about);
}
