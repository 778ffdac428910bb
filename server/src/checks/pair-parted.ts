import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const path = (map: string) => `component FAN-OUT {
  joins       MPO-12 to LC
  map         straight
  loss        max 0.75 dB
}

component FAN-OUT-6 {
  joins       MPO-12 to LC
  map         ${map}
  loss        max 0.75 dB
}

link TRUNK-7 {
  fibres      1..12
  component   FAN-OUT
  segment     60 m OM4
  component   FAN-OUT-6
  carries     10GBASE-SR
}
`;

export const pairParted: Check = {
  name: 'pair-parted',
  kind: 'contradiction',
  severity: 'error',
  title: 'The two fibres of a pair come out at two ports',
  explanation:
    'A duplex cord takes both fibres of a port. Where the maps of a link lead them to two different ports, no cord at its far end can put the pair together again, whatever it crosses. ' +
    'Modules of two schemes in one link do this.',
  source: 'The product of the maps along the link: arithmetic.',
  bad: example(multimodePlan, path('1, 3, 5, 7, 9, 11, 2, 4, 6, 8, 10, 12')),
  good: example(multimodePlan, path('pairs-swapped')),
  link: noticed('pair-parted', (details) => {
    const more = details.number('pairs') - 1;
    const others =
      more > 0 ? `, and ${more === 1 ? 'one more pair' : `${more} more pairs`} alike` : '';
    return (
      `Fibres ${details.text('first')} and ${details.text('second')} of ${details.text('link')} are one pair of ${details.text('application')} and come out at places ${details.text('firstPlace')} and ${details.text('secondPlace')}, which are of two ports${others}. ` +
      'Compare the maps of its parts.'
    );
  }),
};
