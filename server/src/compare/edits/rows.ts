/** What rows of links and channels say otherwise, and what their tables say for all of them. */
import type { BoundEntry, Value } from '../../../../grammar/src/bound.ts';
import { type Context, findWord, K, W } from '../../../../grammar/src/vocabulary/index.ts';
import type { Draft } from './draft.ts';
import { effective, holesOf, type Library, patternNamed, useOfPattern } from './effective.ts';
import { entryEdits } from './entries.ts';
import { kindOf } from './kinds.ts';
import type { About } from './line.ts';
import { blockOf, isRow, type Thing } from './renames.ts';
import { headOf, type Lines, linesOf, type Sides, voiceOf } from './side.ts';
import { titleEdit } from './title.ts';
import type { RowUnit, TableUnit } from './units.ts';
import { contents, holeOf, printValues } from './values.ts';

export function tableLabel({ title, pattern, kind }: TableUnit): string {
  if (title !== undefined) return `${kind} "${title}"`;
  return pattern === undefined ? `the ${kind}` : `${kind} as ${pattern}`;
}

/** Cells that say something, by the word or hole of their heading. */
export function cellsOf(head: TableUnit, row: RowUnit['row']): ReadonlyMap<string, Value> {
  const cells = new Map<string, Value>();
  for (const [index, heading] of head.headings.entries()) {
    const cell = row.cells[index];
    const left = cell?.kind === 'spoilt' && cell.span.start === cell.span.end;
    if (!cell || cell.kind === 'absent' || left) continue;
    if (heading.kind === 'hole') cells.set(`<${heading.name}>`, cell);
    if (heading.kind === 'word') cells.set(heading.word, cell);
  }
  return cells;
}

/** Two rows of one table. */
export function* rowEdits(
  before: RowUnit,
  after: RowUnit,
  about: About,
  sides: Sides,
): Iterable<Draft> {
  if (columnsOf(before.head) !== columnsOf(after.head)) {
    // A column may say now what the table said for all: only together they can be compared.
    yield* wholeRowEdits(before, after, about, sides);
  } else {
    const drafts = entryEdits(
      {
        block: before.head.block,
        entries: ownLines(before),
        voice: voiceOf(before.head.block, sides),
      },
      {
        block: after.head.block,
        entries: ownLines(after),
        voice: voiceOf(after.head.block, sides),
      },
      after.kind,
      about,
    );
    for (const draft of drafts) yield asRow(draft, after);
    const old = cellsOf(before.head, before.row);
    const now = cellsOf(after.head, after.row);
    for (const hole of new Set([...old.keys(), ...now.keys()])) {
      const name = holeOf(hole);
      if (name === undefined) continue;
      const kind = holeKind(after.head.pattern, name, sides);
      yield* cellEdit(before, after, hole, name, kind, about, sides);
    }
  }
  yield* cellEdit(before, after, W.title, 'title', 'words', about, sides);
  yield* cellEdit(before, after, W.remark, 'remark', 'words', about, sides);
}

/** Words and holes that head the columns of a table, in any order. */
function columnsOf({ headings }: TableUnit): string {
  return headings
    .flatMap((heading) =>
      heading.kind === 'hole' ? `<${heading.name}>` : heading.kind === 'word' ? heading.word : [],
    )
    .filter((heading) => heading !== W.title && heading !== W.remark)
    .sort()
    .join();
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
  const old = was && contents([was], undefined, voiceOf(before.head.block, sides)).join();
  const now = is && contents([is], undefined, voiceOf(after.head.block, sides)).join();
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

/** Lines that the cells of a row amount to. */
function ownLines({ head, row, kind }: RowUnit): readonly BoundEntry[] {
  const entries: BoundEntry[] = [];
  for (const [word, cell] of cellsOf(head, row)) {
    if (word === kind || word === W.title || word === W.remark || holeOf(word)) continue;
    const slot = findWord(word, kind)?.forms[0].slots.find(({ keyword }) => !keyword);
    if (!slot) continue;
    entries.push({ word, span: cell.span, wordSpan: cell.span, slots: { [slot.name]: [cell] } });
  }
  return entries;
}

// ---- all that a row says

/** A row that was written out or the other way round, or that stands in another table. */
export function* writtenElsewhere(
  before: Thing,
  after: Thing,
  about: About,
  sides: Sides,
): Iterable<Draft> {
  const whereOf = (thing: Thing) =>
    isRow(thing) ? `row of ${tableLabel(thing.head)}` : 'a block of its own';
  yield {
    kind: 'identity',
    form: 'changed',
    subject: `where ${after.name} is written`,
    was: whereOf(before),
    now: whereOf(after),
    before: spotOf(before),
    after: spotOf(after),
    ...(about.objects && { objects: about.objects }),
    beside: [blockOf(before), blockOf(after)],
    ...(isRow(after) && {
      group: { key: 'written', of: tableLabel(after.head), many: 'place in the text' },
    }),
  };
  yield* wholeRowEdits(before, after, about, sides);
}

function* wholeRowEdits(before: Thing, after: Thing, about: About, sides: Sides): Iterable<Draft> {
  const patternOf = (thing: Thing) => (isRow(thing) ? thing.head.pattern : undefined);
  const was = patternOf(before);
  // What a pattern says is told of the pattern, where both sides use the same.
  const apart = was === undefined || sides.naming(was, [W.pattern]) !== patternOf(after);
  const old = wholeLines(
    before,
    apart && { state: sides.before, blocks: sides.blocksBefore },
    voiceOf(blockOf(before), sides),
  );
  const now = wholeLines(
    after,
    apart && { state: sides.after, blocks: sides.blocksAfter },
    voiceOf(blockOf(after), sides),
  );
  for (const draft of entryEdits(old, now, after.kind as Context, about)) {
    yield {
      ...(isRow(after) ? asRow(draft, after) : draft),
      ...(draft.before && { before: spotOf(before) }),
      ...(draft.after && { after: spotOf(after) }),
    };
  }
}

const spotOf = (thing: Thing) =>
  isRow(thing) ? { block: thing.head.block, span: thing.row.span } : headOf(thing);

function wholeLines(thing: Thing, library: Library | false, voice: Lines['voice']): Lines {
  const block = blockOf(thing);
  const own = isRow(thing) ? ownLines(thing) : (thing.entry.body?.entries ?? []);
  const entries = isRow(thing) ? [...own, ...ofTable(thing, own)] : own;
  return { block, entries: library ? effective(entries, library) : entries, voice };
}

/** What the table and its pattern say for a row that does not say it itself. */
function ofTable({ head, row }: RowUnit, own: readonly BoundEntry[]): readonly BoundEntry[] {
  const said = new Set(own.map(({ word }) => word));
  const cells = [...cellsOf(head, row)].filter(([heading]) => holeOf(heading) !== undefined);
  return [
    ...(head.entry.body?.entries ?? []).filter(({ word }) => !said.has(word)),
    ...useOfPattern(
      head.entry.slots[K.as]?.[0],
      new Map([...holesOf(head.entry.slots), ...cells]),
      row.span,
    ),
  ];
}

// ---- what rows of a table have in common

export function* tableEdits(before: TableUnit, after: TableUnit, sides: Sides): Iterable<Draft> {
  const about: About = { label: tableLabel(after) };
  yield* titleEdit(before, after, before.title, after.title, about);
  // With other columns, rows are compared with all that the table says for them.
  if (columnsOf(before) !== columnsOf(after)) return;
  const heads = { before: headOf(before), after: headOf(after) };
  const asWas = before.pattern && sides.naming(before.pattern, [W.pattern]);
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
  const old = holesOf(before.entry.slots);
  const now = holesOf(after.entry.slots);
  for (const hole of new Set([...old.keys(), ...now.keys()])) {
    const was = old.get(hole);
    const is = now.get(hole);
    const said = [
      was && contents([was], undefined, voiceOf(before.block, sides)).join(),
      is && contents([is], undefined, voiceOf(after.block, sides)).join(),
    ];
    if (said[0] === said[1]) continue;
    yield {
      kind: holeKind(after.pattern, holeOf(hole)!, sides),
      form: !was ? 'new' : !is ? 'gone' : 'changed',
      subject: `${holeOf(hole)} of ${about.label}`,
      was: was && printValues([was], before.block.view.text),
      now: is && printValues([is], after.block.view.text),
      ...heads,
      guarded: 'path-changed-without-work',
    };
  }
  yield* entryEdits(linesOf(before, sides), linesOf(after, sides), after.kind, about);
}

/** What a hole fills, by the line of the pattern in which it stands. */
function holeKind(pattern: string | undefined, hole: string, sides: Sides): Draft['kind'] {
  const entries = patternNamed(pattern, { state: sides.after, blocks: sides.blocksAfter });
  const found = entries && whereFilled(entries, hole);
  return (found && kindOf(W.link, found.word, found.slot)) ?? 'medium';
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
