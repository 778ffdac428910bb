/**
 * What the text of two states of a plan says otherwise, in the terms of the
 * trade. Only blocks whose text differs are read: the cost follows the change.
 */
import type { NameKind } from '../../../../grammar/src/bound.ts';
import type { Edit, EditedPlace, PlanState } from '../types.ts';
import { unlikeBlocks } from './blocks.ts';
import type { Draft } from './draft.ts';
import { evidenceEdits } from './evidence.ts';
import { fileEdits } from './files.ts';
import { folded } from './fold.ts';
import { guardOf, textOf, type Watch } from './guard.ts';
import { blockOf, identify, pairTables, type Stands, speltNow } from './renames.ts';
import { allBlocks, BlocksById, type HeldBlock, placeIn, type Sides } from './side.ts';
import { statementEdits } from './statements.ts';
import { textEdit } from './text.ts';
import { thingEdits } from './things.ts';
import { unitsOf } from './units.ts';

/** In no order of importance; the one of kind `text`, if there is one, stands last. */
export function editsOf(before: PlanState, after: PlanState): readonly Edit[] {
  const unlike = unlikeBlocks(allBlocks(before), allBlocks(after));
  const old = unitsOf(unlike.before);
  const now = unitsOf(unlike.after);
  const identities = identify(old, now, inState(before), inState(after));
  const sides: Sides = {
    before,
    after,
    blocksBefore: new BlocksById(before),
    blocksAfter: new BlocksById(after),
    naming: identities.naming,
  };
  const tables = pairTables(old.tables, now.tables, identities.pairs);
  const drafts = folded([
    ...thingEdits(old, now, identities, tables, sides),
    ...evidenceEdits(old, now, sides),
    ...statementEdits(old, now, sides),
    ...fileEdits(old.includes, now.includes, unlike),
  ]);
  const told = toldBlocks(drafts, [
    ...identities.pairs.map((pair) => [blockOf(pair.before), blockOf(pair.after)]),
    ...tables.map((pair) => [pair.before, pair.after].flatMap((table) => table?.block ?? [])),
  ]);
  const text = textEdit(unlike, told, sides, speltNow(identities.renamed));
  const reached = drafts.map((draft) => reachOf(draft, sides));
  const watch = watchOver(drafts, reached, sides);
  const edits = drafts.map((draft, index) => finished(draft, reached[index]!, watch));
  return text ? [...edits, text] : edits;
}

const inState =
  (state: PlanState): Stands =>
  (kind, name) =>
    state.find(kind as NameKind, name)?.name === name;

/** Blocks of which something is told, with those that are the same thing in the other state. */
function toldBlocks(
  drafts: readonly Draft[],
  mates: readonly (readonly HeldBlock[])[],
): ReadonlySet<HeldBlock> {
  const told = new Set<HeldBlock>();
  const all = drafts.flatMap((draft) => [draft, ...(draft.elsewhere ?? [])]);
  for (const { before, after, beside = [], over } of all) {
    if (before) told.add(before.block);
    if (after) told.add(after.block);
    for (const block of [...beside, ...(over?.before ?? []), ...(over?.after ?? [])]) {
      told.add(block);
    }
  }
  for (const blocks of mates) {
    if (blocks.some((block) => told.has(block))) for (const block of blocks) told.add(block);
  }
  return told;
}

function watchOver(
  drafts: readonly Draft[],
  reached: readonly (readonly string[])[],
  sides: Sides,
): Watch {
  const worked = new Set<string>();
  const remeasured = new Set<string>();
  for (const [index, { work, form, kind, objects, readings }] of drafts.entries()) {
    if (work) for (const name of [...(objects ?? []), ...reached[index]!]) worked.add(name);
    if (kind === 'readings' && form === 'new') {
      for (const key of readings ?? []) remeasured.add(textOf(key));
    }
  }
  return { sides, worked, remeasured };
}

/** Places and reach of an edit looked up. */
function finished(draft: Draft, reach: readonly string[], watch: Watch): Edit {
  const { sides } = watch;
  const { kind, form, subject, was, now, note, elsewhere, readings } = draft;
  const guard = guardOf(draft, reach, watch);
  return {
    kind,
    form,
    subject,
    ...(was !== undefined && { was }),
    ...(now !== undefined && { now }),
    ...(note !== undefined && { note }),
    ...placed(draft, sides),
    ...(elsewhere && { elsewhere: elsewhere.map((each) => placed(each, sides)) }),
    reach,
    ...(readings && readings.length > 0 && { readings }),
    count: draft.count ?? 1,
    ...(guard && { guard }),
  };
}

function placed({ before, after }: Draft, sides: Sides): EditedPlace {
  const placeBefore = before && placeIn(sides.before, before);
  const placeAfter = after && placeIn(sides.after, after);
  return {
    ...(placeBefore && { before: placeBefore }),
    ...(placeAfter && { after: placeAfter }),
    blocks: {
      ...(before && { before: before.block.view.id }),
      ...(after && { after: after.block.view.id }),
    },
  };
}

function reachOf(
  { before, after, over, objects, elsewhere = [] }: Draft,
  sides: Sides,
): readonly string[] {
  const reached = new Set(elsewhere.flatMap((each) => reachOf(each, sides)));
  for (const [state, blocks] of [
    [sides.before, over?.before ?? (before ? [before.block] : [])],
    [sides.after, over?.after ?? (after ? [after.block] : [])],
  ] as const) {
    for (const block of blocks) {
      // By one name, or by any of the block.
      for (const only of objects ?? [undefined]) {
        for (const name of state.reach(block.view.id, only)) reached.add(name);
      }
    }
  }
  return [...reached];
}
