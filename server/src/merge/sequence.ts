/**
 * Three lists of lines to one. What one side changed, added or took out is
 * taken; what both added stands twice where that can be; where both say
 * something else of one line, that line alone is a conflict.
 */
import { align, type Pair } from './align.ts';
import { underOneHeading } from './columns.ts';
import { type Block, keyOf, type Leaf, type Node, orderedIn, orderedWords } from './nodes.ts';
import { mergeDeclaredRow, mergeEvidenceRow } from './rows.ts';
import { either } from './text.ts';

/** Two sides of which a person has to choose. */
export interface Conflict {
  readonly kind: 'conflict';
  readonly gap: number;
  readonly ours: readonly Node[];
  readonly theirs: readonly Node[];
}

export interface MergedBlock extends Omit<Block, 'body' | 'kind'> {
  readonly kind: 'merged';
  readonly body: readonly Merged[];
}

export type Merged = Node | MergedBlock | Conflict;

/** Where lines are merged: in what block, and where rows go that need a table of their own. */
export interface Where {
  /** Word of the block; empty for the text itself. */
  readonly within: string;
  /** Set in tables of evidence. */
  readonly beside?: Leaf[];
}

export function mergeLists(
  base: readonly Node[],
  ours: readonly Node[],
  theirs: readonly Node[],
  where: Where,
): Merged[] {
  const our = new Sides(align(base, ours), base.length, ours);
  const their = new Sides(align(base, theirs), base.length, theirs);
  const merged: Merged[] = [];
  for (let at = 0; at <= base.length; at++) {
    merged.push(...added(our.before(at), their.before(at), where));
    const node = base[at];
    if (node) merged.push(...mergeNode(node, our.of(at), their.of(at), where));
  }
  return merged;
}

/** One side, by places of the base. */
class Sides {
  readonly #mates = new Map<number, number>();
  readonly #nodes: readonly Node[];
  readonly #size: number;

  constructor(pairs: readonly Pair[], size: number, nodes: readonly Node[]) {
    for (const [at, mate] of pairs) this.#mates.set(at, mate);
    this.#nodes = nodes;
    this.#size = size;
  }

  of(at: number): Node | undefined {
    const mate = this.#mates.get(at);
    return mate === undefined ? undefined : this.#nodes[mate];
  }

  /** What this side added behind the last line of the base above `at`, if that is still there. */
  before(at: number): readonly Node[] {
    const end = at === this.#size ? this.#nodes.length : this.#mates.get(at);
    if (end === undefined) return [];
    let start = 0;
    for (let above = at - 1; above >= 0; above--) {
      const mate = this.#mates.get(above);
      if (mate === undefined) continue;
      start = mate + 1;
      break;
    }
    return this.#nodes.slice(start, end);
  }
}

/** What both added at one place. */
function added(ours: readonly Node[], theirs: readonly Node[], where: Where): Merged[] {
  if (theirs.length === 0) return [...ours];
  if (ours.length === 0) return [...theirs];
  const pairs = align(ours, theirs);
  const inPath = (node: Node) => orderedIn.has(where.within) && orderedWords.has(node.word);
  const merged: Merged[] = [];
  let [from, other] = [0, 0];
  for (const [at, mate] of [...pairs, [ours.length, theirs.length] as Pair]) {
    const own = ours.slice(from, at);
    const their = theirs.slice(other, mate);
    // Which of two new pieces of a path comes first, nobody has said.
    if (own.some(inPath) && their.some(inPath)) {
      merged.push({ kind: 'conflict', gap: own[0]!.gap, ours: own, theirs: their });
    } else merged.push(...own, ...their);
    const [node, twin] = [ours[at], theirs[mate]];
    if (node && twin) merged.push(...mergeAdded(node, twin, where));
    [from, other] = [at + 1, mate + 1];
  }
  return merged;
}

/** Two new lines that are of one thing. */
function mergeAdded(ours: Node, theirs: Node, where: Where): Merged[] {
  if (ours.content === theirs.content) return [ours];
  if (where.beside && isRow(ours)) return [ours, theirs];
  if (isComment(ours)) return [ours, theirs];
  if (keyOf(ours) === undefined && !orderedIn.has(where.within)) return [ours, theirs];
  if (
    ours.kind === 'block' &&
    theirs.kind === 'block' &&
    ours.head.content === theirs.head.content
  ) {
    const nothing: Block = { ...ours, body: [], content: '' };
    return mergeBlocks(nothing, ours, theirs, where);
  }
  return [{ kind: 'conflict', gap: ours.gap, ours: [ours], theirs: [theirs] }];
}

export function mergeNode(
  base: Node,
  ours: Node | undefined,
  theirs: Node | undefined,
  where: Where,
): Merged[] {
  if (!ours && !theirs) return [];
  if (!ours || !theirs) {
    const left = (ours ?? theirs)!;
    if (left.content === base.content) return [];
    const [mine, others] = ours ? [[ours], []] : [[], [left]];
    return [{ kind: 'conflict', gap: left.gap, ours: mine, theirs: others }];
  }
  const gap = either(base.gap, ours.gap, theirs.gap);
  if (theirs.content === base.content && textOf(theirs) === textOf(base)) return [{ ...ours, gap }];
  if (ours.content === base.content && textOf(ours) === textOf(base)) return [{ ...theirs, gap }];
  if (ours.kind === 'block' && theirs.kind === 'block' && base.kind === 'block') {
    return mergeBlocks(base, ours, theirs, where);
  }
  // Layout alone gives way to what is said.
  if (theirs.content === base.content || theirs.content === ours.content) return [{ ...ours, gap }];
  if (ours.content === base.content) return [{ ...theirs, gap }];
  if (isRow(base) && isRow(ours) && isRow(theirs)) {
    const row = mergeRows(base, ours, theirs, where);
    if (row) return [{ ...row, gap }];
  }
  return [{ kind: 'conflict', gap, ours: [ours], theirs: [theirs] }];
}

function mergeRows(base: Leaf, ours: Leaf, theirs: Leaf, where: Where): Leaf | undefined {
  const alike = [ours, theirs].every(
    ({ headings }) => headings.join('\t') === base.headings.join('\t'),
  );
  if (!alike) return undefined;
  if (!where.beside) return mergeDeclaredRow(base, ours, theirs);
  const { row, beside } = mergeEvidenceRow(base, ours, theirs);
  if (beside) where.beside.push(beside);
  return row;
}

function mergeBlocks(old: Block, mine: Block, others: Block, where: Where): Merged[] {
  const [base, ours, theirs] = underOneHeading(old, mine, others);
  const gap = either(base.gap, ours.gap, theirs.gap);
  const [head, ...more] = mergeNode(base.head, ours.head, theirs.head, where);
  if (head?.kind !== 'leaf' || more.length > 0) {
    return [{ kind: 'conflict', gap, ours: [ours], theirs: [theirs] }];
  }
  const body = mergeLists(base.body, ours.body, theirs.body, {
    ...where,
    within: base.word || ours.word,
  });
  const foot = either(base.foot.join('\n'), ours.foot.join('\n'), theirs.foot.join('\n'));
  return [
    {
      ...ours,
      kind: 'merged',
      gap,
      head,
      body,
      foot: foot === '' ? [] : foot.split('\n'),
      footGap: either(base.footGap, ours.footGap, theirs.footGap),
    },
  ];
}

const isRow = (node: Node): node is Leaf => node.kind === 'leaf' && node.role === 'row';
const isComment = (node: Node): boolean => node.kind === 'leaf' && node.role === 'comment';

function textOf(node: Node): string {
  if (node.kind === 'leaf') return node.lines.join('\n');
  return [textOf(node.head), ...node.body.map(textOf), ...node.foot].join('\n');
}
