/** A judged plan as tables of a fleet take it. */
import type { LinkResult } from '../../server/src/evaluate/result.ts';
import type { Plan } from '../../server/src/project/index.ts';
import { csvOf } from '../../server/src/report/fleet/csv.ts';
import { type FleetPlan, fleetTable } from '../../server/src/report/fleet/index.ts';

export function fleetOf(plan: Plan, name = 'plan.lwl'): FleetPlan {
  return {
    plan,
    links: plan.result.order.flatMap((each) => plan.result.link(each) ?? []),
    pathOf: () => name,
    fingerprint: name,
    tool: 'linkwright test',
  };
}

/** Readings of some links as CSV, by the names of its columns. */
export function readingsCsv(plan: Plan, links?: readonly LinkResult[]) {
  const fleet = fleetOf(plan);
  const table = fleetTable('readings', [links ? { ...fleet, links } : fleet]);
  return { text: csvOf(table), columns: table.columns.map(({ name }) => name) };
}
