import type { LinkModel } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodePlan } from './examples.ts';

/** A cord of one fibre has nothing to cross. */
function cordsOf(link: LinkModel) {
  const crosses = link.kind === 'channel' || link.kind === 'ring';
  if (!crosses || link.fibres.length < 2) return [];
  // A cord that lets light by is asked for its crossing by nobody: it is used when a span is lost.
  const through = new Set(link.nodes?.map((node) => node.through));
  return link.path.flatMap((element) =>
    element.kind === 'cord' && !through.has(element) ? [element] : [],
  );
}

function* find({ link }: LinkContext): Iterable<Found> {
  const isPair = link.fibres.length === 2;
  for (const cord of cordsOf(link)) {
    if (cord.map !== undefined) continue;
    yield {
      place: cord.place,
      message: isPair
        ? `This cord of ${link.name} does not say whether it crosses the pair, so nothing is known of its polarity. Write straight or crossed.`
        : `This cord of ${link.name} does not say where its ${link.fibres.length} places come out, so nothing is known of its polarity. Write straight, crossed or its map.`,
      details: { channel: link.name },
    };
  }
}

const path = (first: string) => `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     60 m OM4
  connector   LC
}

channel SCAN-1 {
  cord        3 m OM4${first}
  link        KQ-1 fibres 1..2
  cord        2 m OM4 straight
  carries     10GBASE-SR
}
`;

export const crossingNotSaid: Check = {
  name: 'crossing-not-said',
  kind: 'doubt',
  severity: 'warning',
  title: 'A cord does not say whether it crosses',
  explanation:
    'Segments, splices and mated pairs are straight unless they say otherwise. A cord may be either, so it is never assumed: without a word the polarity of the channel is not known.',
  source:
    'Duplex polarity of TIA-568 and ISO/IEC 11801 families; that nothing is assumed is our own rule.',
  bad: example(multimodePlan, path('')),
  good: example(multimodePlan, path(' crossed')),
  link: find,
};
