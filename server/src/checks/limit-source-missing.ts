import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { Check, DeclaredContext, Found } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

const plan = (source: string) =>
  example(
    multimodePlan.replace('TIA-568.3-E', 'TIA-568.3-E, KQ-OWNER'),
    `limits KQ-OWNER {
  like        TIA-568.3-E
${source}  splice      any 0.2 dB
}
`,
    multimodeLink,
  );

const figures: ReadonlySet<string> = new Set([
  W.fibre,
  W.connector,
  W.splice,
  W.part,
  W.coreStep,
  W.reject,
  W.returnLoss,
]);

/** Figures of its own, and nothing of its own that says where they stand. */
function* find({ declaration }: DeclaredContext): Iterable<Found> {
  const { kind, name, namePlace, entries } = declaration;
  if (kind !== W.limits) return;
  const own = entries.filter(({ word }) => figures.has(word));
  if (own.length === 0) return;
  if (entries.some(({ word }) => word === W.basis || word === W.edition)) return;
  yield {
    place: namePlace,
    message: `${name} states ${own.length === 1 ? 'a figure' : `${own.length} figures`} and not where ${own.length === 1 ? 'it stands' : 'they stand'}, so whoever reads a verdict cannot look it up. Write edition or basis: the document and the clause.`,
    details: { limits: name, figures: own.length },
  };
}

export const limitSourceMissing: Check = {
  name: 'limit-source-missing',
  kind: 'note',
  severity: 'note',
  title: 'Limits without a source',
  explanation:
    'A limit is only as good as the document it stands in. When a verdict is disputed, the first question is which edition or which clause the figure comes from; a number that nobody can trace is not defended. An edition or a basis of the block’s own says it; that of a block it is like does not, since its own figures stand somewhere else.',
  source:
    'Public contracts want the standard and edition, or the clause, beside each limit (read in secondary texts).',
  bad: plan(''),
  good: plan('  edition     "contract, clause 7.4, 2026" contract\n'),
  declared: find,
};
