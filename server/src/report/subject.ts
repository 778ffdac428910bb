/** What a report is made of: a plan as the project offers it, and how its figures are shown. */
import type { Finding } from '../checks/finding.ts';
import type { PlanResult } from '../evaluate/result.ts';
import type { Place, PlanSettings } from '../model/types.ts';
import type { Display } from './figures.ts';
import type { TextPlace } from './view.ts';

export interface ReportedPlan {
  readonly root: string;
  readonly files: readonly string[];
  readonly settings: PlanSettings;
  readonly result: PlanResult;
  allFindings(): ReadonlyMap<string, readonly Finding[]>;
  locate(place: Place): TextPlace | undefined;
}

export interface Subject {
  readonly plan: ReportedPlan;
  readonly display: Display;
}
