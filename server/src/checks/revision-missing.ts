import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { Check, Found, PlanContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

const plan = (lines: string) =>
  example(
    multimodePlan.replace('  zone', `  client      "Harbour Board"\n${lines}  zone`),
    multimodeLink,
  );

/** A plan that somebody is to receive says which of its states it is. */
function* find({ settings, placeOf }: PlanContext): Iterable<Found> {
  const { client, revision } = settings;
  const place = placeOf(revision ? W.revision : W.client);
  if (!place || (revision && revision.on !== undefined)) return;
  if (!revision && client === undefined) return;
  yield {
    place,
    message: revision
      ? `Revision ${revision.text} has no day, so nobody sees which of two copies is the later. Write on and the day behind it.`
      : 'The plan names its client and not its revision, so two copies of it cannot be told apart. Write revision, its name and its day.',
    details: revision ? { revision: revision.text } : {},
  };
}

export const revisionMissing: Check = {
  name: 'revision-missing',
  kind: 'note',
  severity: 'note',
  title: 'A plan for a client without a dated revision',
  explanation:
    'What is handed over is copied, mailed and printed. Without a revision and its day nobody can say which limits and which path a verdict was made with, and a later change looks like a contradiction. The revision stands in the plan block with the day it was issued; it is printed on results and records.',
  source:
    'Acceptance records of public contracts carry plan, revision and date (read in secondary texts).',
  bad: plan(''),
  good: plan('  revision    "C" on 2026-03-01\n'),
  plan: find,
};
