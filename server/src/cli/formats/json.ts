/** Findings and results in the JSON form that the schema names; one object a plan, an array where there are several. */

import type { LinkResult } from '../../evaluate/index.ts';
import type { LiveProject } from '../../project/index.ts';
import type { Plan } from '../../project/types.ts';
import { fingerprintOf, toJson } from '../../report/json.ts';
import { filesOf } from '../../report/record/recorded.ts';
import type { FindingJson, ResultJson } from '../../report/schema.ts';
import type { PlacedFinding } from '../check.ts';
import { toPath } from '../open.ts';
import { toolName } from '../version.ts';

export interface JsonPlan {
  readonly plan: Plan;
  readonly links: readonly LinkResult[];
}

export function json(
  project: LiveProject,
  plans: readonly JsonPlan[],
  findings: readonly PlacedFinding[],
): string {
  const forms = plans.map(({ plan, links }): ResultJson => {
    const files = filesOf(plan, (uri) => project.document(uri)?.text());
    const own = new Set(plan.files);
    const names = new Set(links.map(({ link }) => link.name));
    const { result } = plan;
    return toJson({
      tool: toolName,
      result: {
        title: result.title,
        totals: result.totals,
        order: result.order.filter((name) => names.has(name)),
        link: (name) => result.link(name),
      },
      files: files.map(({ uri, text }) => ({ path: toPath(uri), text })),
      fingerprint: fingerprintOf(files),
      findings: findings.filter(({ uri }) => own.has(uri)).map(findingJson),
    });
  });
  return `${JSON.stringify(forms.length === 1 ? forms[0] : forms, null, 2)}\n`;
}

function findingJson({ finding, path, range }: PlacedFinding): FindingJson {
  return {
    name: finding.name,
    severity: finding.severity,
    file: path,
    range,
    message: finding.message,
    page: `server/findings.md#${finding.name}`,
  };
}
