import { compare, compareOneSided, stateOf } from '../compare/index.ts';
import { changesOf } from '../report/changes/index.ts';
import type { ChangesView } from '../report/changes/view.ts';
import { feature } from './feature.ts';

export interface ComparisonParams {
  readonly uri: string;
  /** One that was taken in before, by `linkwright/takeRevision`. */
  readonly revision: string;
}

/** The plan of a document as it was at a revision, against how it stands in the editor now. */
export const comparison = feature<ComparisonParams, ChangesView | null>({
  method: 'linkwright/compare',
  capabilities: {},
  answer({ project, settings, earlier }, { uri, revision }) {
    const plan = project.planOf(uri);
    const before = plan && earlier?.of(plan, revision);
    if (!plan || !before) return null;
    const now = stateOf(plan, project, 'the text as it is open');
    const was = before.plan && stateOf(before.plan, before.project, revision);
    return changesOf({
      comparison: was ? compare(was, now) : compareOneSided(undefined, now),
      display: settings,
      now,
      root: plan.root,
    });
  },
});

/** A file as it was, for a diff editor beside it; empty where it was not there. */
export const earlierText = feature<ComparisonParams, { readonly text: string } | null>({
  method: 'linkwright/earlierText',
  capabilities: {},
  answer({ earlier }, { uri, revision }) {
    const text = earlier?.text(uri, revision);
    return text === undefined ? null : { text };
  },
});
