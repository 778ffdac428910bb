/** A project as a person sees it: everything it says, with places as they stand in the text. */
import type { LiveProject } from '../../server/src/project/index.ts';

/** Plain data, equal for two projects that say the same, whatever their blocks are numbered. */
export function snapshot(project: LiveProject): unknown {
  const plain = (value: unknown): unknown => {
    if (typeof value === 'bigint') return `${value}n`;
    if (typeof value !== 'object' || value === null) return value;
    if ('block' in value && 'span' in value) {
      const located = project.locate(value as never);
      return located ? `${located.uri} ${JSON.stringify(located.range)}` : 'nowhere';
    }
    if (Array.isArray(value)) return value.map(plain);
    if (value instanceof Map) return plain([...value]);
    return Object.fromEntries(
      Object.entries(value)
        // Spans of bound values are relative to a block, and said by the places around them.
        .filter(([key, each]) => key !== 'span' && each !== undefined)
        .map(([key, each]) => [key, plain(each)]),
    );
  };
  return {
    plans: project.plans.map((plan) => ({
      root: plan.root,
      files: plan.files,
      title: plan.result.title,
      totals: plain(plan.result.totals),
      links: plan.result.order.map((name) => [name, plain(plan.result.link(name))]),
    })),
    findings: [...project.uris].sort().map((uri) => [uri, project.findings(uri).map(plain)]),
  };
}
