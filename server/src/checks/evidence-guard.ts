/**
 * What breaks the rule that evidence is never edited: readings, references and
 * paths that another state of the plan says otherwise. No single text shows it,
 * so a comparison of two states says it; it is answered in words as a doubt is.
 */
import type { Severity } from '../../../grammar/src/tree.ts';
import type { FindingKind } from './finding.ts';

export interface EvidenceGuard {
  readonly name: string;
  readonly kind: FindingKind;
  readonly severity: Severity;
  /** What it means and what to do: its page. */
  readonly says: string;
}

/** Common practice, no source: a reading is superseded by another, with a reason, and never rewritten. */
const guards = {
  'reading-altered': guard(
    'A reading, length, event or end face that was recorded says something else now, at the same time. What was measured is evidence: put the old value back, take it out with `withdraw` and a reason, and add what was measured anew. Where it was a slip of typing, answer it in words.',
  ),
  'reading-removed': guard(
    'A reading, length, event or end face that was recorded is gone. What was measured stays as history: put it back, and take it out with `withdraw` and a reason if it is not to count.',
  ),
  'reference-altered': guard(
    'A reference, a drift check or a verified cord says something else now, for the same moment. Every loss that was read by it is another one: put it back, or answer in words why it was written wrongly.',
  ),
  'reference-removed': guard(
    'A reference, a drift check, a verified cord or a disturbance that was recorded is gone, and with it what the readings after it are judged by. Put it back; a reference that is no good is followed by `disturbed` or by a new one.',
  ),
  'work-altered': guard(
    'Work or a repair that was recorded says another day, other fibres or something else that was done. By it readings from before are too old: put it back, and write what was done besides as work of its own; where it was a slip of typing, answer it in words.',
  ),
  'work-removed': guard(
    'Work or a repair that was recorded is gone, and readings that it made old count again as if nobody had touched the fibres. Put it back; where it was never done, answer it in words.',
  ),
  'path-changed-without-work': guard(
    'The path is another one now, and readings from before stand as if they were of it. Record the `work` or the `repair` with its day, so that they age, and measure again; where only the text was wrong and the path is as it was, answer it in words.',
  ),
} satisfies Record<string, Omit<EvidenceGuard, 'name'>>;

export type EvidenceGuardName = keyof typeof guards;

export const evidenceGuards: readonly EvidenceGuard[] = Object.entries(guards).map(
  ([name, page]) => ({ name, ...page }),
);

function guard(says: string): Omit<EvidenceGuard, 'name'> {
  return { kind: 'doubt', severity: 'error', says };
}
