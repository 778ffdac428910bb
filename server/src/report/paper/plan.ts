/** What a document for paper asks of a plan: its results, and the set-ups and evidence behind them. */
import type { Evidence, Setup } from '../../model/types.ts';
import type { Display } from '../figures.ts';
import type { ReportedPlan } from '../subject.ts';

export interface DocumentedPlan extends ReportedPlan {
  setup(name: string): Setup | undefined;
  evidence(object: string): Evidence;
  /** Everything of a kind that a name may mean, the plan's first. */
  named(kind: 'setup'): readonly { readonly name: string }[];
}

export interface Documented {
  readonly plan: DocumentedPlan;
  readonly display: Display;
  /** Day and time by which the plan is judged, as a person writes it. */
  readonly asOf: string;
  /** Name and version of this tool. */
  readonly tool: string;
}
