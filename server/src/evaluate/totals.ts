/**
 * Folds over all links of a plan, kept by differences: a changed link costs
 * its own two results and a walk up a tree, never a walk over the plan.
 *
 * Counts are added and taken away. The worst margin cannot be taken away, so
 * it stands in a tournament tree: each link holds a leaf, each inner node the
 * worse of its two children, and a change climbs one path.
 */
import { compareDb, type ExactDb } from '../../../grammar/src/quantity/index.ts';
import {
  type LinkResult,
  type PlanTotals,
  type ReadingResult,
  type Verdict,
  verdicts,
} from './result.ts';

export type Counts = Readonly<Record<Verdict, number>>;

interface Worst {
  readonly margin: ExactDb;
  readonly link: string;
  readonly reading: ReadingResult;
}

/** Sums and the tree; treat as a value of {@link addTotals} and {@link removeTotals} alone. */
export interface Totals {
  links: number;
  fibres: number;
  expected: number;
  present: number;
  notAccepted: number;
  readonly counts: Record<Verdict, number>;
  /** Leaf of each link, by name. */
  readonly leaves: Map<string, number>;
  readonly free: number[];
  /** Complete binary tree, root at 1; leaves from `capacity` on. */
  nodes: (Worst | undefined)[];
  capacity: number;
}

export function emptyCounts(): Record<Verdict, number> {
  return Object.fromEntries(verdicts.map((verdict) => [verdict, 0])) as Record<Verdict, number>;
}

export function emptyTotals(): Totals {
  return {
    links: 0,
    fibres: 0,
    expected: 0,
    present: 0,
    notAccepted: 0,
    counts: emptyCounts(),
    leaves: new Map(),
    free: [],
    nodes: [undefined, undefined],
    capacity: 1,
  };
}

/** Takes a link in. Its name must not stand in the totals already. */
export function addTotals(totals: Totals, result: LinkResult): void {
  const name = result.link.name;
  if (totals.leaves.has(name)) throw new RangeError(`${name} is counted already`);
  count(totals, result, 1);
  const leaf = totals.free.pop() ?? totals.leaves.size;
  totals.leaves.set(name, leaf);
  while (leaf >= totals.capacity) grow(totals);
  place(totals, leaf, result.worstMargin && { ...result.worstMargin, link: name });
}

/** Takes a link out again; the result must be the one that was added. */
export function removeTotals(totals: Totals, result: LinkResult): void {
  const name = result.link.name;
  const leaf = totals.leaves.get(name);
  if (leaf === undefined) throw new RangeError(`${name} is not counted`);
  count(totals, result, -1);
  place(totals, leaf, undefined);
  totals.leaves.delete(name);
  totals.free.push(leaf);
}

/** The totals as they are read. An empty plan has nothing accepted. */
export function readTotals(totals: Totals): PlanTotals {
  return {
    links: totals.links,
    fibres: totals.fibres,
    expected: totals.expected,
    present: totals.present,
    counts: { ...totals.counts },
    accepted: totals.links > 0 && totals.notAccepted === 0,
    worst: totals.nodes[1],
  };
}

function count(totals: Totals, result: LinkResult, sign: 1 | -1): void {
  totals.links += sign;
  totals.fibres += sign * result.fibres.length;
  totals.expected += sign * result.expected;
  totals.present += sign * result.present;
  if (!result.accepted) totals.notAccepted += sign;
  for (const verdict of verdicts) totals.counts[verdict] += sign * result.counts[verdict];
}

function place(totals: Totals, leaf: number, worst: Worst | undefined): void {
  let at = totals.capacity + leaf;
  totals.nodes[at] = worst;
  for (at >>= 1; at >= 1; at >>= 1) {
    totals.nodes[at] = worse(totals.nodes[2 * at], totals.nodes[2 * at + 1]);
  }
}

/** Doubles the leaves: the old tree becomes the left half of the new one. */
function grow(totals: Totals): void {
  const old = totals.nodes.slice(totals.capacity, 2 * totals.capacity);
  totals.capacity *= 2;
  totals.nodes = new Array<Worst | undefined>(2 * totals.capacity).fill(undefined);
  for (const [leaf, worst] of old.entries()) totals.nodes[totals.capacity + leaf] = worst;
  for (let at = totals.capacity - 1; at >= 1; at--) {
    totals.nodes[at] = worse(totals.nodes[2 * at], totals.nodes[2 * at + 1]);
  }
}

/** The smaller margin; on a tie the link whose name comes first, so that the order of adding does not show. */
function worse(a: Worst | undefined, b: Worst | undefined): Worst | undefined {
  if (!a) return b;
  if (!b) return a;
  const order = compareDb(a.margin, b.margin);
  return order < 0 || (order === 0 && a.link <= b.link) ? a : b;
}
