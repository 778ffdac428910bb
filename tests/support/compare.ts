/** Two states of a plan as text, compared by the real comparison. */
import {
  type Change,
  type ComparedPlan,
  type Comparison,
  compareTexts,
} from '../../server/src/compare/index.ts';
import { parseInstant } from '../../server/src/project/instant.ts';

export type FileTexts = string | Readonly<Record<string, string>>;

/** All plans of two sets of texts; a text alone is `plan.lwl`. */
export function comparePlans(
  before: FileTexts,
  after: FileTexts,
  asOf = '2026-06-01 12:00',
): readonly ComparedPlan[] {
  const instant = parseInstant(asOf);
  if (instant === undefined) throw new Error(`not an instant: ${asOf}`);
  const [old, now] = [before, after].map((texts) =>
    Object.entries(typeof texts === 'string' ? { 'plan.lwl': texts } : texts).map(
      ([path, text]) => ({ path, text }),
    ),
  );
  return compareTexts({
    before: { label: 'before', files: old! },
    after: { label: 'after', files: now! },
    asOf: instant,
  });
}

/** The one plan of both. */
export function compareTwo(before: FileTexts, after: FileTexts, asOf?: string): Comparison {
  const [one, ...others] = comparePlans(before, after, asOf);
  if (!one || others.length > 0)
    throw new Error(`not one plan but ${others.length + (one ? 1 : 0)}`);
  return one.comparison;
}

/** `basis changed: fibre allowance …, 3.5 dB/km now 3.0 dB/km`. */
export function changeInWords({ kind, form, subject, was, now }: Change): string {
  const said = [was, now].filter((each) => each !== undefined).join(' now ');
  return `${kind} ${form}: ${subject}${said === '' ? '' : `, ${said}`}`;
}
