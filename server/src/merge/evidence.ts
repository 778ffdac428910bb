/**
 * Two testers in one table. Where only cells and rows differ, they stand
 * together; where who, when or with what was said otherwise too, or where both
 * measured one key, what they changed stands in a block of its own behind ours.
 */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { align } from './align.ts';
import { underOneHeading } from './columns.ts';
import type { Block, Leaf, Node } from './nodes.ts';
import { ownOfRow, toldIn } from './rows.ts';
import { type Merged, mergeNode } from './sequence.ts';

const isRow = (node: Node): node is Leaf => node.kind === 'leaf' && node.role === 'row';
const isComment = (node: Node): boolean => node.kind === 'leaf' && node.role === 'comment';

/** One block of ours, and what of theirs has to stand beside it. */
export function mergeEvidence(old: Block, mine: Block, others: Block): Merged[] {
  const [base, ours, theirs] = underOneHeading(old, mine, others);
  if (standApart(base, ours, theirs))
    return [withoutTheirGone(base, ours, theirs), own(base, theirs)];
  const rows: Leaf[] = [];
  const merged = mergeNode(base, ours, theirs, { within: '', beside: rows });
  return rows.length === 0 ? merged : [...merged, withRows(theirs, rows)];
}

/** Both measured, and the head of one or both says something else: readings would change hands. */
function standApart(base: Block, ours: Block, theirs: Block): boolean {
  const heads = [base, ours, theirs].map(headOf);
  if (heads[1] === heads[2] || (heads[0] === heads[1] && heads[0] === heads[2])) return false;
  return measures(base, ours) && measures(base, theirs);
}

/** Said to people, or in answer to a doubt: of nobody's readings alone. */
const beside: ReadonlySet<string> = new Set([W.note, W.silence]);

/** All above the rows that says with what, when and by whom. */
function headOf({ head, body }: Block): string {
  return [
    head,
    ...body.filter((node) => !isRow(node) && !isComment(node) && !beside.has(node.word)),
  ]
    .map(({ content }) => content)
    .join('\n');
}

function measures(base: Block, side: Block): boolean {
  const old = new Set(base.body.filter(isRow).map(toldIn));
  return side.body.some((node) => isRow(node) && !old.has(toldIn(node)));
}

/** Rows that they took out and we left as they were are gone. */
function withoutTheirGone(base: Block, ours: Block, theirs: Block): Block {
  const old = base.body.filter(isRow);
  const kept = new Set(align(old, theirs.body.filter(isRow)).map(([at]) => old[at]!.content));
  const gone = new Set(old.map(({ content }) => content).filter((content) => !kept.has(content)));
  return { ...ours, body: ours.body.filter((node) => !isRow(node) || !gone.has(node.content)) };
}

/** Their block with what they changed of its rows, and nothing that stood there before. */
function own(base: Block, theirs: Block): Block {
  const [old, rows] = [base.body.filter(isRow), theirs.body.filter(isRow)];
  const mates = new Map(align(old, rows).map(([at, mate]) => [rows[mate]!, old[at]!]));
  const comments = new Set(base.body.filter(isComment).map(({ content }) => content));
  return {
    ...theirs,
    gap: 1,
    body: theirs.body.flatMap((node): Node[] => {
      if (isComment(node)) return comments.has(node.content) ? [] : [node];
      if (!isRow(node)) return [node];
      const row = ownOfRow(mates.get(node), node);
      return row ? [row] : [];
    }),
  };
}

function withRows(block: Block, rows: readonly Leaf[]): Block {
  const head = block.body.filter((node) => !isRow(node) && !isComment(node));
  return { ...block, gap: 1, body: [...head, ...rows.map((row) => ({ ...row, gap: 0 }))] };
}
