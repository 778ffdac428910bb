/**
 * The plan as it was: what features know of the revision that the text is
 * compared with. The session reads and judges it, after everything else.
 */
import type { LinkResult } from '../evaluate/result.ts';
import type { Plan, Project } from '../project/types.ts';

export interface EarlierPlan {
  /** As it was asked for: `HEAD`, `main`. */
  readonly revision: string;
  /** Left out where there was no such plan. */
  readonly plan?: Plan;
  readonly project: Project;
}

export interface Earlier {
  /** Reads all of it, at once. Undefined: nobody has asked for this revision of this plan yet. */
  of(plan: Plan, revision: string): EarlierPlan | undefined;
  /** Text of a file then; undefined where it was not there, or is not known. */
  text(uri: string, revision: string): string | undefined;
  /**
   * The result of an object as it was at the revision that the text is looked at
   * beside. Undefined as long as that is not worked out: nothing is judged for the
   * question. Null: there was no such object.
   */
  known(plan: Plan, result: LinkResult): LinkResult | null | undefined;
  /** What the revision beside the text is called; undefined: there is none. */
  beside(plan: Plan): string | undefined;
}
