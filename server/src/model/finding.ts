/** What the model says about names and structure: data with its sentence, of the same form as the findings of checks. */
import type { Severity } from '../../../grammar/src/tree.ts';
import type { Place } from './types.ts';

export interface ModelFinding {
  readonly name: string;
  readonly kind: 'contradiction' | 'doubt' | 'note' | 'notation';
  readonly severity: Severity;
  readonly place: Place;
  readonly message: string;
  readonly related: readonly { readonly place: Place; readonly message: string }[];
  readonly details: Readonly<Record<string, string | number>>;
  readonly fix?: {
    readonly title: string;
    readonly edits: readonly { readonly place: Place; readonly text: string }[];
  };
  /** Name of the declaration it concerns. */
  readonly about?: string;
}

/** A model and what was found while it was built. Unchanged inputs give the same object. */
export interface Built<Model> {
  readonly model: Model;
  readonly findings: readonly ModelFinding[];
}
