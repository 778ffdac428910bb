/** What is told of the text as a whole: that only its layout is another, or that one side has no plan. */
import { emptyCounts } from '../evaluate/totals.ts';
import { noEvidence } from '../model/api.ts';
import type { Edit, PlanState } from './types.ts';

/** Edits with at most one of layout, the last; it is made up where the text is another and nothing else is said. */
export function withOneText(
  edits: readonly Edit[],
  before: PlanState,
  after: PlanState,
): readonly Edit[] {
  const others = edits.filter(({ kind }) => kind !== 'text');
  const texts = edits.filter(({ kind }) => kind === 'text');
  const [first] = texts;
  if (first) {
    const reach = [...new Set(texts.flatMap((edit) => edit.reach))];
    const count = texts.reduce((sum, edit) => sum + edit.count, 0);
    return [...others, { ...first, reach, count }];
  }
  if (others.length > 0 || sameTexts(before, after)) return others;
  return [{ ...onlyLayout, count: 1 }];
}

const onlyLayout = {
  kind: 'text',
  form: 'changed',
  subject: 'order, comments and layout',
  blocks: {},
  reach: [],
} as const;

function sameTexts({ files: before }: PlanState, { files: after }: PlanState): boolean {
  return (
    before.length === after.length &&
    before.every(({ path, text }, index) => {
      const other = after[index]!;
      return path === other.path && text === other.text;
    })
  );
}

/** A plan that is on one side only, as one change that reaches all of it. */
export function onlyEdit(before: PlanState | undefined, after: PlanState | undefined): Edit {
  const there = (after ?? before)!;
  const { title, order } = there.result;
  const [file] = there.files;
  const [block] = file?.blocks ?? [];
  const place = block && there.locate({ block: block.id, span: { start: 0, end: 0 } });
  const side = after ? 'after' : 'before';
  return {
    kind: 'connection',
    form: after ? 'new' : 'gone',
    subject: title === undefined ? `plan ${file?.path ?? ''}` : `plan ${title}`,
    ...(place && { [side]: place }),
    blocks: block ? { [side]: block.id } : {},
    reach: order,
    count: 1,
  };
}

/** The side on which a plan is not: judged by the same instant, and nothing in it. */
export function emptyState({ label, settings, minute }: PlanState): PlanState {
  return {
    label,
    files: [],
    settings,
    minute,
    result: { totals: nothing, order: [], link: () => undefined },
    findings: [],
    evidence: noEvidence,
    setup: () => undefined,
    find: () => undefined,
    reach: () => [],
    locate: () => undefined,
  };
}

const nothing = {
  links: 0,
  fibres: 0,
  expected: 0,
  present: 0,
  counts: emptyCounts(),
  accepted: false,
};
