import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  const { limits, require, carries } = link.terms;
  if (limits.length > 0 || require.length > 0 || carries.some((carried) => !carried.beside)) return;
  yield {
    place: link.namePlace,
    message:
      `${link.name} has nothing to be judged by: no limits, no application, no requirement. ` +
      `Write limits in the plan, for instance limits TIA-568.3-E, or what the link carries.`,
    details: { link: link.name },
  };
}

export const limitsMissing: Check = {
  name: 'limits-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'A link has nothing to be judged by',
  explanation:
    'Without limits, an application or a requirement every reading is “not judged”. There is no silent default: two editions that differ are two names, and the plan must choose.',
  source: 'Our own rule: a verdict without a named basis is worth nothing in a dispute.',
  bad: example(multimodePlan.replace(/ {2}limits .*\n/u, ''), multimodeLink),
  good: example(multimodePlan, multimodeLink),
  link: find,
};
