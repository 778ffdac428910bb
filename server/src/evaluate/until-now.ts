/**
 * What is dated later than the instant of judgement. A decision, a trace, a
 * length or an end face of then does not count yet. A reading stays, and judging
 * makes it void, so that it is seen. Work stays and ages what came before it:
 * a mistyped year must never make old readings count for more.
 */
import type { Evidence, When } from '../model/types.ts';
import type { EvaluationInput } from './context.ts';

export function untilNow(input: EvaluationInput): EvaluationInput {
  const { evidence, asOf } = input;
  const decided = ({ on }: { readonly on?: When }) => on === undefined || !isLater(on, asOf);
  const seen = ({ at }: { readonly at: When }) => !isLater(at, asOf);
  const now: Evidence = {
    ...evidence,
    withdrawals: evidence.withdrawals.filter(decided),
    concessions: evidence.concessions.filter(decided),
    lengths: evidence.lengths.filter(seen),
    seen: evidence.seen.filter(seen),
    events: evidence.events.filter(seen),
    inspections: evidence.inspections.filter(seen),
  };
  const kept = Object.keys(now) as readonly (keyof Evidence)[];
  const same = kept.every((kind) => now[kind].length === evidence[kind].length);
  return same ? input : { ...input, evidence: now };
}

/** Whether all of it lies after the instant. */
export function isLater(when: When, asOf: number): boolean {
  return when.from > asOf;
}
