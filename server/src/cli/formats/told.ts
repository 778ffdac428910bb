/** One thing told at one place: a finding, or a change. What code hosts show beside the lines. */
import type { Finding } from '../../checks/finding.ts';
import type { Range } from '../../project/types.ts';

export interface Told {
  readonly finding: Pick<Finding, 'name' | 'severity' | 'message' | 'about'>;
  /** As written from the working folder. */
  readonly path: string;
  readonly range: Range;
}
