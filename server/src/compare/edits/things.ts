/** What the plan and declarations say otherwise, and what is called otherwise now. */
import { type Context, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import type { Draft } from './draft.ts';
import { entryEdits } from './entries.ts';
import { kindOfBlock } from './kinds.ts';
import type { About } from './line.ts';
import {
  blockOf,
  type Identities,
  isRow,
  type Pair,
  type TablePair,
  type Thing,
} from './renames.ts';
import { cellsOf, rowEdits, tableEdits, tableLabel, writtenElsewhere } from './rows.ts';
import { headOf, linesOf, type SaidEntry, type Sides, type Spot } from './side.ts';
import { labelOf, thingOf } from './subjects.ts';
import { titleEdit } from './title.ts';
import type { Units } from './units.ts';

export function* thingEdits(
  before: Units,
  after: Units,
  identities: Identities,
  tables: readonly TablePair[],
  sides: Sides,
): Iterable<Draft> {
  yield* planEdits(before.plans, after.plans, sides);
  const partners = new Map(tables.map(({ before: old, after: now }) => [old, now]));
  const renamed = new Set(identities.renamed);
  const pairEdits = function* (pair: Pair, untold: ReadonlySet<string>): Iterable<Draft> {
    const { before: old, after: now } = pair;
    const about = { ...aboutOf(now, old), untold };
    if (isRow(old) && isRow(now) && partners.get(old.head) === now.head) {
      yield* rowEdits(old, now, about, sides);
    } else if (isRow(old) || isRow(now)) {
      yield* writtenElsewhere(old, now, about, sides);
    } else {
      yield* titleEdit(old, now, old.title, now.title, about);
      yield* entryEdits(linesOf(old, sides), linesOf(now, sides), now.kind as Context, about);
    }
  };

  for (const pair of identities.pairs) {
    const another = renamed.has(pair);
    if (another) yield renameEdit(pair);
    yield* pairEdits(pair, another ? new Set([W.was]) : new Set());
  }
  for (const { before: old, after: now } of identities.parted) {
    yield partedEdit(old, now);
    for (const one of old) {
      for (const other of now) yield* pairEdits({ before: one, after: other }, shared);
    }
  }
  for (const thing of identities.gone) yield wholeEdit(thing, 'gone');
  for (const thing of identities.fresh) yield wholeEdit(thing, 'new');
  for (const { before: old, after: now } of tables) {
    if (old && now) yield* tableEdits(old, now, sides);
  }
}

/** Of one that became several: its name, its ports and its share of fibres are told as that. */
const shared: ReadonlySet<string> = new Set([
  W.was,
  W.from,
  W.to,
  W.fibres,
  W.segment,
  W.spare,
  W.dead,
]);

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
      yield* entryEdits(linesOf(old, sides), linesOf(now, sides), W.plan, about);
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

// ---- declarations and rows

function spotOf(thing: Thing): Spot {
  return isRow(thing) ? { block: thing.head.block, span: thing.row.span } : headOf(thing);
}

function aboutOf(thing: Thing, other: Thing = thing): About {
  const label = labelOf(thing.kind, thing.name);
  if (!isRow(thing) && !isRow(other)) {
    return { label, thing: { kind: thingOf(thing.kind), name: thing.name, label } };
  }
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
    over: { before: before.map(blockOf), after: after.map(blockOf) },
  };
}

const titleOf = (thing: Thing): string | undefined => {
  if (!isRow(thing)) return thing.title;
  const cell = cellsOf(thing.head, thing.row).get(W.title);
  return cell && nameOf([cell]);
};
