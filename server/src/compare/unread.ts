/**
 * Lines that cannot be read say nothing that could be told, and yet results
 * follow from what is missing by them. Where no edit reaches an object that
 * moved, blocks of it that hold such lines are told instead; where nothing else
 * is told at all, any block of it that is another text now.
 */
import { unlikeBlocks } from './edits/blocks.ts';
import { allBlocks, type HeldBlock, placeIn } from './edits/side.ts';
import type { ObjectPair } from './objects.ts';
import type { Edit, PlanState } from './types.ts';

export function editsOfUnread(
  moved: readonly ObjectPair[],
  edits: readonly Edit[],
  before: PlanState,
  after: PlanState,
): readonly Edit[] {
  const told = edits.filter(({ kind }) => kind !== 'text' && kind !== 'words');
  const reached = new Set(told.flatMap(({ reach }) => reach));
  const untold = new Set(
    moved.flatMap(({ name, formerly }) =>
      reached.has(name) || (formerly !== undefined && reached.has(formerly))
        ? []
        : [name, ...(formerly === undefined ? [] : [formerly])],
    ),
  );
  if (untold.size === 0) return [];
  const unlike = unlikeBlocks(allBlocks(before), allBlocks(after));
  const old = blocksOf(unlike.before, before, untold, told.length > 0);
  const now = blocksOf(unlike.after, after, untold, told.length > 0);
  return [...new Set([...old.keys(), ...now.keys()])].map((head) =>
    editOf(head, old.get(head), now.get(head), before, after),
  );
}

interface Reaching {
  readonly block: HeldBlock;
  readonly reach: readonly string[];
}

/** By their first line. */
function blocksOf(
  blocks: readonly HeldBlock[],
  state: PlanState,
  untold: ReadonlySet<string>,
  unreadOnly: boolean,
): ReadonlyMap<string, Reaching> {
  const found = new Map<string, Reaching>();
  for (const block of blocks) {
    if (unreadOnly && !holdsUnread(block)) continue;
    const reach = state.reach(block.view.id).filter((name) => untold.has(name));
    const head = headOf(block);
    if (reach.length > 0 && !found.has(head)) found.set(head, { block, reach });
  }
  return found;
}

function holdsUnread({ view }: HeldBlock): boolean {
  return view.bound().findings.some(({ severity }) => severity === 'error');
}

/** Its first line that is no comment, without the brace. */
function headOf({ view }: HeldBlock): string {
  const lines = view.text.split(/\r\n|\r|\n/u).map((line) => line.trim());
  const head = lines.find((line) => line !== '' && !line.startsWith('#')) ?? '';
  return head.replace(/\s*\{.*$/u, '');
}

function editOf(
  head: string,
  old: Reaching | undefined,
  now: Reaching | undefined,
  before: PlanState,
  after: PlanState,
): Edit {
  const span = { start: 0, end: 0 };
  const placeBefore = old && placeIn(before, { block: old.block, span });
  const placeAfter = now && placeIn(after, { block: now.block, span });
  return {
    kind: 'connection',
    form: old && now ? 'changed' : now ? 'new' : 'gone',
    subject: `lines of ${head}`,
    note: 'Not all of them can be read as they stand: look at the lines themselves.',
    ...(placeBefore && { before: placeBefore }),
    ...(placeAfter && { after: placeAfter }),
    blocks: {
      ...(old && { before: old.block.view.id }),
      ...(now && { after: now.block.view.id }),
    },
    reach: [...new Set([...(now?.reach ?? []), ...(old?.reach ?? [])])],
    count: 1,
  };
}
