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
    }
    for (const finding of findings) {
      if (blocksAcceptance(finding)) this.#blocking += 1;
      const { block } = finding.place;
      const there = this.#byBlock.get(block);
      if (there) there.add(finding);
      else this.#byBlock.set(block, new Set([finding]));
      this.#changed(block);
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

  /** In no order. What several links find alike in a pattern that they use is told once. */
  in(block: BlockId): ReadonlySet<Finding> {
    const all = this.#byBlock.get(block) ?? noneIn;
    const there =
      this.#filesMissing && all.size > 0
        ? new Set([...all].filter((finding) => !mayBeElsewhere(finding)))
        : all;
    return there.size < 2 ? there : withoutTwins(there);
  }
}

function mayBeElsewhere({ name }: Finding): boolean {
  return name === 'unknown-reference';
}

/** Of those that say the same at one place, that of the first name: whoever was judged first. */
function withoutTwins(findings: ReadonlySet<Finding>): ReadonlySet<Finding> {
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
