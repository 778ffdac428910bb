/** What an object has become since the revision that the text is looked at beside, in one line. */
import type { ExactDb } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult } from '../evaluate/result.ts';
import type { Plan } from '../project/types.ts';
import { marginsApart } from '../report/changes/moves.ts';
import type { Session } from './feature.ts';
import { limitsInWords, ownMethod, verdictInWords } from './wording.ts';

export interface Since {
  /** `margin +0.63 was +0.70`; of what is new `new`. */
  readonly words: string;
  /** `was fail`, where the verdict is another. */
  readonly verdict?: string;
  readonly revision: string;
}

interface Kept {
  readonly before: LinkResult | null;
  readonly precision: number;
  readonly revision: string;
  readonly since: Since | undefined;
}

const kept = new WeakMap<LinkResult, Kept>();

/** Undefined: it is as it was, or nobody knows yet. The same object as long as neither side is another. */
export function sinceThen(session: Session, plan: Plan, result: LinkResult): Since | undefined {
  const revision = session.earlier?.beside(plan);
  if (revision === undefined) return undefined;
  const before = session.earlier?.known(plan, result);
  if (before === undefined) return undefined;
  const { precision } = session.settings;
  const there = kept.get(result);
  if (there?.before === before && there.precision === precision && there.revision === revision)
    return there.since;
  const since = sinceOf(before, result, precision, revision);
  kept.set(result, { before, precision, revision, since });
  return since;
}

function sinceOf(
  before: LinkResult | null,
  now: LinkResult,
  precision: number,
  revision: string,
): Since | undefined {
  if (before === null) return { words: 'new', revision };
  const parts: string[] = [];
  const moved = before.verdict !== now.verdict;
  if (moved) parts.push(`${verdictInWords(now.verdict)} was ${verdictInWords(before.verdict)}`);
  const [was, is] = [marginOf(before), marginOf(now)];
  if (was.margin !== is.margin || was.what !== is.what) {
    const [wasText, isText] = marginsApart(was.margin, is.margin, precision);
    const other = was.what === is.what || was.margin === undefined ? '' : ` ${was.what}`;
    parts.push(`${is.what} ${isText} was${other} ${wasText}`);
  }
  if (before.present !== now.present || before.expected !== now.expected) {
    parts.push(
      `${now.present} of ${now.expected} readings was ${before.present} of ${before.expected}`,
    );
  }
  if (parts.length === 0) {
    const [limitsWere, limits] = [limitsInWords(before, precision), limitsInWords(now, precision)];
    if (limitsWere !== limits) {
      parts.push(`${limits ?? 'no limit'} was ${limitsWere?.replace(/^limit /u, '') ?? 'none'}`);
    }
  }
  if (parts.length === 0) return undefined;
  return {
    words: parts.join(', '),
    ...(moved ? { verdict: `was ${verdictInWords(before.verdict)}` } : {}),
    revision,
  };
}

/** The worst margin that is measured, else what the design leaves. */
function marginOf(result: LinkResult): { readonly what: string; readonly margin?: ExactDb } {
  if (result.worstMargin) return { what: 'margin', margin: result.worstMargin.margin };
  const least = ownMethod(result)
    .flatMap((at) => at.designMargin ?? [])
    .reduce<ExactDb | undefined>((a, b) => (a === undefined || b < a ? b : a), undefined);
  return least === undefined ? { what: 'margin' } : { what: 'design margin', margin: least };
}
