/** Which files a plan takes in, and what stands in another of them now. */
import type { Unlike } from './blocks.ts';
import type { Draft } from './draft.ts';
import type { HeldBlock } from './side.ts';
import { printEntry } from './values.ts';

interface Include {
  readonly block: HeldBlock;
  readonly entry: ReturnType<HeldBlock['view']['bound']>['entries'][number];
}

/** A file that has another name is one edit: the line that takes it in leads to both. */
export function fileEdits(
  before: readonly Include[],
  after: readonly Include[],
  unlike: Unlike,
): readonly Draft[] {
  const [old, now] = [before.map(fileOf), after.map(fileOf)];
  const gone = before.filter((one) => !now.includes(fileOf(one)));
  const fresh = after.filter((one) => !old.includes(fileOf(one)));
  const moves = movesIn(unlike);
  const edits: Draft[] = [];
  for (const one of gone) {
    const move = moves.find(({ from }) => from === pathOf(one));
    const other = move && fresh.find((each) => pathOf(each) === move.to);
    if (move && other) {
      fresh.splice(fresh.indexOf(other), 1);
      moves.splice(moves.indexOf(move), 1);
    }
    edits.push({
      kind: 'identity',
      form: other ? 'changed' : 'gone',
      subject: 'file taken in',
      was: fileOf(one),
      before: spotOf(one),
      ...(other && { now: fileOf(other), after: spotOf(other), beside: move?.blocks ?? [] }),
    });
  }
  for (const one of fresh) {
    edits.push({
      kind: 'identity',
      form: 'new',
      subject: 'file taken in',
      now: fileOf(one),
      after: spotOf(one),
    });
  }
  return [...edits, ...moves.map(movedEdit)];
}

/** Blocks that stand in another file, once for each two files. */
interface Move {
  readonly from: string;
  readonly to: string;
  readonly blocks: readonly HeldBlock[];
  readonly first: Unlike['moved'][number];
  readonly count: number;
}

function movesIn({ moved }: Unlike): Move[] {
  const between = new Map<string, Unlike['moved'][number][]>();
  for (const pair of moved) {
    const key = `${pair.before.path}\n${pair.after.path}`;
    const same = between.get(key);
    if (same) same.push(pair);
    else between.set(key, [pair]);
  }
  return [...between.values()].map((pairs) => ({
    from: pairs[0]!.before.path,
    to: pairs[0]!.after.path,
    blocks: pairs.flatMap(({ before, after }) => [before, after]),
    first: pairs[0]!,
    count: pairs.length,
  }));
}

function movedEdit({ from, to, first, count }: Move): Draft {
  const span = { start: 0, end: 0 };
  return {
    kind: 'identity',
    form: 'moved',
    subject: `file of ${count} declaration${count === 1 ? '' : 's'}`,
    was: from,
    now: to,
    before: { block: first.before, span },
    after: { block: first.after, span },
    count,
  };
}

function fileOf({ block, entry }: Include): string {
  return printEntry(entry, 'file', block.view.text);
}

/** Beside the file that takes it in. */
function pathOf(one: Include): string {
  const folder = one.block.path.replace(/[^/]*$/u, '');
  return `${folder}${fileOf(one).replace(/^"(.*)"$/u, '$1')}`;
}

function spotOf({ block, entry }: Include): Draft['before'] {
  return { block, span: entry.span };
}
