/** How often a mistake is told, and how often its findings are raised where nothing is wrong. */
import { judge } from '../support/judge.ts';
import type { Mistake } from './mistakes.ts';
import { studyPlan, textOf } from './plans.ts';

/** Names of the findings of a plan. */
export function namesIn(text: string): ReadonlySet<string> {
  return new Set(judge(text).findings.map(({ name }) => name));
}

/** Seeds from `first` on in which the mistake was told. */
export function toldOf(mistake: Mistake, size: number, first: number, count: number): number {
  let told = 0;
  for (let seed = first; seed < first + count; seed++) {
    const plan = mistake.put(studyPlan(seed, mistake.shape?.(size)), size);
    const names = namesIn(textOf(plan));
    if (mistake.findings.some((name) => names.has(name))) told++;
  }
  return told;
}

/** What clean plans raise: each plan's names, and how many plans raise each. */
export function falseAlarms(first: number, count: number) {
  const byPlan = Array.from({ length: count }, (_, index) =>
    namesIn(textOf(studyPlan(first + index))),
  );
  const raised = new Map<string, number>();
  for (const names of byPlan)
    for (const name of names) raised.set(name, (raised.get(name) ?? 0) + 1);
  return { byPlan, raised };
}
