/** What the study measured of one mistake. */
import type { Mistake } from './mistakes.ts';

export interface Measured {
  readonly mistake: Mistake;
  /** Told of so many plans, size by size. */
  readonly curve: readonly { readonly size: number; readonly told: number; readonly of: number }[];
  /** The same at the size from which it can be told. */
  readonly told: number;
  readonly of: number;
  /** Clean plans in which one of its findings was raised. */
  readonly wrongly: number;
}
