import type { FibreType, LinkModel, PathElement, Place } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodePlan } from './examples.ts';
import { inMicrons } from './figures.ts';

interface Neighbours {
  readonly before: FibreType;
  readonly beforePlace: Place;
  readonly after: FibreType;
  readonly place: Place;
}

/** Neighbouring stretches of fibre along each way of light, with what lies between them left out; each pair once. */
export function* neighbours(link: LinkModel): Iterable<Neighbours> {
  const told = new Set<PathElement>();
  const paths = link.ways.length > 0 ? link.ways.map(({ path }) => path) : [link.path];
  for (const path of paths) yield* neighboursAlong(path, told);
}

function* neighboursAlong(
  path: readonly PathElement[],
  told: Set<PathElement>,
): Iterable<Neighbours> {
  let last: { fibre: FibreType; place: Place } | undefined;
  for (const element of path) {
    const fibre = element.kind === 'segment' || element.kind === 'cord' ? element.fibre : undefined;
    if (element.kind === 'link') last = undefined;
    if (!fibre) continue;
    // By name: what one name means is declared once in a plan, and may be built more than once.
    if (last && last.fibre.name !== fibre.name && !told.has(element)) {
      yield { before: last.fibre, beforePlace: last.place, after: fibre, place: element.place };
    }
    told.add(element);
    last = { fibre, place: element.place };
  }
}

/** Whether limits in force say what light may lose from the wide core into the narrow one: then the step is meant. */
function allowed(link: LinkModel, wide: FibreType, narrow: FibreType): boolean {
  const is = (type: FibreType, name: string) => type.name === name || type.meets.includes(name);
  return link.terms.limits.some(({ coreStep }) =>
    coreStep.some(({ from, to }) => is(wide, from) && is(narrow, to)),
  );
}

function* find({ link }: LinkContext): Iterable<Found> {
  for (const { before, beforePlace, after, place } of neighbours(link)) {
    if (before.mode !== after.mode || !before.core || !after.core || before.core === after.core)
      continue;
    const [wide, narrow] =
      before.core > after.core ? (['A>B', 'B>A'] as const) : (['B>A', 'A>B'] as const);
    if (wide === 'A>B' ? allowed(link, before, after) : allowed(link, after, before)) continue;
    yield {
      place,
      message:
        `${after.name} has a core of ${inMicrons(after.core)}, ${before.name} before it ${inMicrons(before.core)}. ` +
        `Light going ${wide} loses extra at the step, ${narrow} hardly any. ` +
        `If the step is meant, write what it may lose as core-step in a limits block, or silence this with a reason.`,
      related: [{ place: beforePlace, message: `${before.name}, ${inMicrons(before.core)}` }],
      details: { before: before.name, after: after.name },
    };
  }
}

export const coreSizeMismatch: Check = {
  name: 'core-size-mismatch',
  kind: 'doubt',
  severity: 'warning',
  title: 'Two core sizes meet in one path',
  explanation:
    'Where a wide core meets a narrow one, light that fills the wide core does not fit into the narrow one. ' +
    'The loss is in one direction only, is not in any cabling standard’s allowance, and shows as a large, systematic difference between the two directions. ' +
    'Check that the drawing and the cable agree. If the two sizes are really joined, say so with a reason, or let the contract grant a directed allowance: a core-step in limits says that the step is meant.',
  source:
    'Coupling loss of 0.9 to 1.6 dB with LED light from a 62.5 µm into a 50 µm core is published in trade tables (read in secondary texts); geometric limit 20·log(62.5/50) + 20·log(0.275/0.200) dB.',
  bad: example(
    multimodePlan,
    `link KQ-1 {
  fibres      1..2
  connector   SC
  segment     220 m OM1
  connector   SC
  segment     40 m OM3
  connector   SC
}
`,
  ),
  good: example(
    multimodePlan,
    `link KQ-1 {
  fibres      1..2
  connector   SC
  segment     220 m OM3
  connector   SC
  segment     40 m OM3
  connector   SC
}
`,
  ),
  link: find,
};
