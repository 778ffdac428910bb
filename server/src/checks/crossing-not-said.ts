import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodePlan } from './examples.ts';
import { cordsOf, isDuplexChannel } from './pair-order-broken.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  if (!isDuplexChannel(link)) return;
  for (const cord of cordsOf(link)) {
    if (cord.map !== undefined) continue;
    yield {
      place: cord.place,
      message:
        `This cord of ${link.name} does not say whether it crosses the pair, so nothing is known of its polarity. ` +
        `Write straight or crossed.`,
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
  title: 'A cord does not say whether it crosses the pair',
  explanation:
    'Segments, splices and mated pairs are straight unless they say otherwise. A cord may be either, so it is never assumed: without a word the polarity of the channel is not known.',
  source:
    'Duplex polarity of TIA-568 and ISO/IEC 11801 families; that nothing is assumed is our own rule.',
  bad: example(multimodePlan, path('')),
  good: example(multimodePlan, path(' crossed')),
  link: find,
};
