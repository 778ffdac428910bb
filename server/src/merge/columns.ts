/** A table that one side gave other columns: the rows of the others are set under them, so that like is merged with like. */
import type { Block, Leaf, Node } from './nodes.ts';
import { recast } from './rows.ts';

type Three = readonly [base: Block, ours: Block, theirs: Block];

/** The three blocks under one heading where one side alone changed it; else as they are. */
export function underOneHeading(base: Block, ours: Block, theirs: Block): Three {
  const [old, own, other] = [columnsOf(base), columnsOf(ours), columnsOf(theirs)];
  if (!old || !own || !other || own.content === other.content) return [base, ours, theirs];
  if (other.content === old.content) {
    const [from, to] = [under(base, own), under(theirs, own)];
    return from && to ? [from, ours, to] : [base, ours, theirs];
  }
  if (own.content !== old.content) return [base, ours, theirs];
  const [from, to] = [under(base, other), under(ours, other)];
  return from && to ? [from, to, theirs] : [base, ours, theirs];
}

const columnsOf = ({ body }: Block): Leaf | undefined =>
  body.find((node): node is Leaf => node.kind === 'leaf' && node.role === 'columns');

/** Undefined where a row tells something that has no column any more. */
function under(block: Block, columns: Leaf): Block | undefined {
  const body: Node[] = [];
  for (const node of block.body) {
    if (node.kind === 'leaf' && node.role === 'row') {
      const row = recast(node, columns.headings);
      if (!row) return undefined;
      body.push(row);
    } else body.push(node === columnsOf(block) ? columns : node);
  }
  return { ...block, body, content: [block.head, ...body].map((each) => each.content).join('\n') };
}
