/** A plan as text, judged by the real project: the door by which tests of findings and verdicts go in. */

import type { Finding } from '../../server/src/checks/finding.ts';
import { decodeFile, LiveProject, type Plan } from '../../server/src/project/index.ts';
import { parseInstant } from '../../server/src/project/instant.ts';

export const planUri = 'file:///site/plan.lwl';

/** Judged as of an instant on the site's clock; the texts are files of one folder, `plan.lwl` the first. */
export function judge(texts: string | Readonly<Record<string, string>>, asOf = '2026-06-01 12:00') {
  const instant = parseInstant(asOf);
  if (instant === undefined) throw new Error(`not an instant: ${asOf}`);
  const project = new LiveProject({ asOf: instant });
  project.folders = ['file:///site'];
  const files = typeof texts === 'string' ? { 'plan.lwl': texts } : texts;
  project.putAll(
    Object.entries(files).map(
      ([name, text]) =>
        [`file:///site/${name}`, decodeFile(new TextEncoder().encode(text))] as const,
    ),
  );
  const plan = project.planOf(planUri);
  if (!plan) throw new Error('the plan was not read');
  const findings = findingsOf(plan);
  // What fell over has no doubts, and a test that wants none would take it for good.
  const fault = findings.find(({ name }) => name === 'not-worked-out');
  if (fault) throw new Error(fault.message);
  return { project, plan, findings };
}

export function findingsOf(plan: Plan): readonly Finding[] {
  return [...plan.allFindings().values()].flat();
}

/** `name: message`, for messages of failing tests. */
export function told(findings: readonly Finding[]): string[] {
  return findings.map(({ name, message }) => `${name}: ${message}`);
}
