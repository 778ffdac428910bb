/** A check of what changed since a revision: findings and links that the change concerns, and what it does to evidence. */
import type { Finding } from '../checks/finding.ts';
import type { Instant } from '../project/instant.ts';
import { counted } from '../report/figures.ts';
import type { Checked, PlacedFinding } from './check.ts';
import { comparedSides } from './compare-plans.ts';
import { revisions, type Side } from './compare-sides.ts';
import type { ComparedPlan } from './formats/changes/compared.ts';
import { alteredIn, breachTold } from './formats/changes/told.ts';
import { toAddress } from './open.ts';

/** What is left of a check of the working copy. */
export async function checkedSince(
  checked: Checked,
  revision: string,
  paths: readonly string[],
  asOf: Instant,
): Promise<Checked> {
  const sides = await revisions({ git: [revision], paths }, asOf);
  const { plans: compared } = comparedSides(sides, asOf);
  const touched = new Set(compared.flatMap(touchedBy));
  const concerns = concernsOf(checked, compared, touched, sides.before);
  const plans = checked.plans.map(({ plan, links }) => ({
    plan,
    links: links.filter(({ link }) => touched.has(link.name)),
  }));
  const changes = compared.reduce((sum, { comparison }) => sum + comparison.engineering, 0);
  const all = checked.plans.reduce((sum, { links }) => sum + links.length, 0);
  const left = plans.reduce((sum, { links }) => sum + links.length, 0);
  return {
    ...checked,
    plans,
    findings: [...compared.flatMap(brokenBy), ...checked.findings.filter(concerns)],
    note:
      changes === 0
        ? `Since ${sides.before.label}: no engineering change.`
        : `Since ${sides.before.label}: ${counted(changes, 'engineering change')}, ${left} of ${counted(all, 'link')} touched.`,
  };
}

/** Objects that a change can touch, by the names that they have now. */
function touchedBy({ comparison: { changes, effects } }: ComparedPlan): readonly string[] {
  return [
    ...changes.filter(({ kind }) => kind !== 'text').flatMap(({ reach }) => reach),
    ...effects.map(({ object }) => object),
  ];
}

/** A finding that was not there, one about an object that is touched, or about no object and in text that is not as it was. */
function concernsOf(
  { project, plans }: Checked,
  compared: readonly ComparedPlan[],
  touched: ReadonlySet<string>,
  before: Side,
): (placed: PlacedFinding) => boolean {
  const texts = new Set(
    before.files.flatMap(
      (uri) =>
        before.project
          .document(uri)
          ?.blocks()
          .map(({ text }) => text) ?? [],
    ),
  );
  const objects = new Set(plans.flatMap(({ links }) => links.map(({ link }) => link.name)));
  const known = new Set(
    compared.flatMap(({ before: state }) => state?.findings.map(wordsOf) ?? []),
  );
  return ({ finding, uri, range }) => {
    if (!known.has(wordsOf(finding))) return true;
    const { about } = finding;
    if (about !== undefined && objects.has(about)) return touched.has(about);
    const block = project.document(uri)?.blockAt(range.start);
    return block !== undefined && !texts.has(block.text);
  };
}

function wordsOf({ name, message, about }: Pick<Finding, 'name' | 'message' | 'about'>): string {
  return JSON.stringify([name, message, about]);
}

/** Altered evidence and broken rules, as errors of the plan that they are of. */
function brokenBy(plan: ComparedPlan): readonly PlacedFinding[] {
  const { breaches } = plan.comparison;
  const uri = toAddress(plan.path);
  return [...alteredIn(plan), ...breaches.map((breach) => breachTold(plan, breach))].map(
    (told) => ({
      ...told,
      uri,
    }),
  );
}
