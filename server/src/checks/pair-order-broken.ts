import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

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
  kind: 'contradiction',
  severity: 'error',
  title: 'Transmitter meets transmitter',
  explanation:
    'Place 1 of a duplex port sends and place 2 receives, so what one end sends must arrive where the other end receives. ' +
    'All maps along the channel are put one after another: cords, parts, stretches of cable and links. A passed loss test proves nothing of it.',
  source:
    'Duplex polarity of the TIA-568 and ISO/IEC 11801 families: transmitter to receiver, so an odd number of crossings (two cabling makers’ guides that print it).',
  bad: example(multimodePlan, path('straight')),
  good: example(multimodePlan, path('crossed')),
  link: noticed(
    'pair-order-broken',
    (details) =>
      `What ${details.text('channel')} sends at place ${details.text('left')} arrives at place ${details.text('arrives')}, where the other end sends too; it must arrive at ${details.text('wanted')}. ` +
      'Cross the pair once more or once less: change one cord.',
  ),
};
