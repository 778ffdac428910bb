import type { LinkModel } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodePlan } from './examples.ts';

/** Cords of a duplex channel by what they do with the pair. */
export function cordsOf(channel: LinkModel) {
  return channel.path.filter((element) => element.kind === 'cord');
}

export function isDuplexChannel(link: LinkModel): boolean {
  return (
    link.kind === 'channel' &&
    link.fibres.length === 2 &&
    link.path.some((element) => element.kind === 'link')
  );
}

function* find({ link }: LinkContext): Iterable<Found> {
  if (!isDuplexChannel(link)) return;
  const cords = cordsOf(link);
  if (cords.length === 0 || cords.some((cord) => cord.map !== 'straight' && cord.map !== 'crossed'))
    return;
  const crossed = cords.filter((cord) => cord.map === 'crossed');
  if (crossed.length % 2 === 1) return;
  yield {
    place: link.namePlace,
    message:
      `${link.name} crosses its pair ${crossed.length === 0 ? 'nowhere' : `${crossed.length} times`}, so the transmitter of one end meets the transmitter of the other. ` +
      `An odd number of crossings is needed: change one cord.`,
    related: cords.map((cord) => ({ place: cord.place, message: `${cord.map}` })),
    details: { channel: link.name, crossings: crossed.length },
  };
}

const path = (first: string) => `link KQ-1 {
  fibres      1..2
  connector   LC
  segment     60 m OM4
  connector   LC
}

channel SCAN-1 {
  cord        3 m OM4 ${first}
  link        KQ-1 fibres 1..2
  cord        2 m OM4 straight
  carries     10GBASE-SR
}
`;

export const pairOrderBroken: Check = {
  name: 'pair-order-broken',
  kind: 'doubt',
  severity: 'error',
  title: 'The pair is crossed an even number of times',
  explanation:
    'In a duplex channel what one end sends must arrive where the other end receives, so the pair is crossed an odd number of times end to end. ' +
    'An odd number is necessary, not enough: the light must also arrive at the right pair. A passed loss test proves neither.',
  source:
    'Duplex polarity of TIA-568 and ISO/IEC 11801 families (cords that cross); common practice for the count.',
  bad: example(multimodePlan, path('straight')),
  good: example(multimodePlan, path('crossed')),
  link: find,
};
