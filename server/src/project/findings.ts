/**
 * Findings of a plan, kept by who made them and found by the block they stand
 * in: one changed judgement takes its old findings out and puts its new ones
 * in, and nothing walks over the others.
 */
import { blocksAcceptance, type Finding } from '../checks/finding.ts';
import type { BlockId } from '../model/types.ts';

const none: readonly Finding[] = [];
const noneIn: ReadonlySet<Finding> = new Set();

export class FindingStore {
  readonly #byOwner = new Map<unknown, readonly Finding[]>();
  readonly #byBlock = new Map<BlockId, Set<Finding>>();
  readonly #changed: (block: BlockId) => void;
  readonly #misspelt = new Misspelt();
  #blocking = 0;
  #filesMissing = false;

  /** `changed` hears of every block whose findings are others now. */
  constructor(changed: (block: BlockId) => void) {
    this.#changed = changed;
  }

  /** Replaces what an owner found. */
  set(owner: unknown, findings: readonly Finding[]): void {
    const before = this.#byOwner.get(owner) ?? none;
    if (before.length === 0 && findings.length === 0) return;
    for (const finding of before) {
      const { block } = finding.place;
      const there = this.#byBlock.get(block);
      there?.delete(finding);
      if (there?.size === 0) this.#byBlock.delete(block);
      this.#changed(block);
      if (blocksAcceptance(finding)) this.#blocking -= 1;
      this.#misspelt.count(finding, -1).forEach(this.#changed);
    }
    for (const finding of findings) {
      if (blocksAcceptance(finding)) this.#blocking += 1;
      const { block } = finding.place;
      const there = this.#byBlock.get(block);
      if (there) there.add(finding);
      else this.#byBlock.set(block, new Set([finding]));
      this.#changed(block);
      this.#misspelt.count(finding, 1).forEach(this.#changed);
    }
    if (findings.length > 0) this.#byOwner.set(owner, findings);
    else this.#byOwner.delete(owner);
  }

  /** How many there are that keep the plan from being accepted. */
  get blocking(): number {
    return this.#blocking;
  }

  /** A file that the plan includes cannot be read: the names that it may declare are not told as unknown. */
  set filesMissing(missing: boolean) {
    if (missing === this.#filesMissing) return;
    this.#filesMissing = missing;
    for (const [block, there] of this.#byBlock) {
      if ([...there].some(mayBeElsewhere)) this.#changed(block);
    }
  }

  /**
   * In no order. What several links find alike in a pattern that they use is told
   * once; so is a name that is misspelt where it is used, and not as unused as well.
   */
  in(block: BlockId): ReadonlySet<Finding> {
    const all = this.#byBlock.get(block) ?? noneIn;
    const there = [...all].filter(
      (finding) =>
        !(this.#filesMissing && mayBeElsewhere(finding)) && !this.#misspelt.explains(finding),
    );
    return withoutTwins(there.length === all.size ? all : new Set(there));
  }
}

/** Names that are close to one which means nothing: it is that one's letters that are wrong, and the name is used. */
class Misspelt {
  readonly #meant = new Map<string, number>();
  readonly #unused = new Map<string, Set<BlockId>>();

  /** Takes a finding in or out; returns the blocks in which others are told now, or no longer. */
  count({ name, details, place }: Finding, by: 1 | -1): readonly BlockId[] {
    if (name === 'unused-definition') {
      const blocks = this.#unused.get(`${details.name}`) ?? new Set();
      if (by === 1) blocks.add(place.block);
      else blocks.delete(place.block);
      if (blocks.size > 0) this.#unused.set(`${details.name}`, blocks);
      else this.#unused.delete(`${details.name}`);
    }
    if (name !== 'unknown-reference' || details.nearest === undefined) return [];
    const meant = `${details.nearest}`;
    const held = this.#meant.get(meant) ?? 0;
    if (held + by > 0) this.#meant.set(meant, held + by);
    else this.#meant.delete(meant);
    return held > 0 === held + by > 0 ? [] : [...(this.#unused.get(meant) ?? [])];
  }

  explains({ name, details }: Finding): boolean {
    return name === 'unused-definition' && this.#meant.has(`${details.name}`);
  }
}

function mayBeElsewhere({ name }: Finding): boolean {
  return name === 'unknown-reference';
}

/** Of those that say the same at one place, that of the first name: whoever was judged first. */
function withoutTwins(findings: ReadonlySet<Finding>): ReadonlySet<Finding> {
  if (findings.size < 2) return findings;
  const single = new Map<string, Finding>();
  for (const finding of findings) {
    const { start, end } = finding.place.span;
    const key = `${start} ${end} ${finding.name} ${finding.silenced ?? ''} ${finding.message}`;
    const twin = single.get(key);
    if (!twin || compare(finding.about ?? '', twin.about ?? '') < 0) single.set(key, finding);
  }
  return single.size === findings.size ? findings : new Set(single.values());
}

/** By place in the block, then by name and message: the same whoever was judged first. */
export function byPlace(a: Finding, b: Finding): number {
  return (
    a.place.span.start - b.place.span.start ||
    a.place.span.end - b.place.span.end ||
    compare(a.name, b.name) ||
    compare(a.message, b.message)
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
