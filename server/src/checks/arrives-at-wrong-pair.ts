import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const path = (far: string) => `component CASSETTE {
  joins       MPO-12 to LC
  map         straight
  loss        max 0.75 dB
}

component CASSETTE-T {
  like        CASSETTE
  map         11, 12, 9, 10, 7, 8, 5, 6, 3, 4, 1, 2
}

link TRUNK-7 {
  fibres      1..12
  component   CASSETTE
  segment     60 m OM4 map reversed
  component   ${far}
}

channel ROW-C {
  cord        2 m OM4 crossed
  link        TRUNK-7
  cord        2 m OM4 crossed
  carries     10GBASE-SR
}
`;

export const arrivesAtWrongPair: Check = {
  name: 'arrives-at-wrong-pair',
  kind: 'contradiction',
  severity: 'error',
  title: 'Light arrives at another pair than it left for',
  explanation:
    'An odd number of crossings brings what is sent to a side that receives; it need not be the receiver of the same pair. ' +
    'A reversed trunk between two equal cassettes is crossed an odd number of times with two crossing cords, and every pair arrives at the port of another one. ' +
    'Look at the map of each part: the schemes of array cabling belong together, trunk, cassettes and cords of one.',
  source:
    'Position maps of array trunks, cassettes and cords of TIA-568 (two component makers’ pages that print them); that the product of all maps decides is arithmetic.',
  bad: example(multimodePlan, path('CASSETTE')),
  good: example(multimodePlan, path('CASSETTE-T')),
  link: noticed('arrives-at-wrong-pair', (details) => {
    const side =
      details.text('sides') === 'right'
        ? 'the side is right and the pair is not'
        : 'neither pair nor side is right';
    return (
      `What ${details.text('channel')} sends at place ${details.text('left')} arrives at ${details.text('arrives')}, and must arrive at ${details.text('wanted')}: ${side}. ` +
      'Compare the maps of trunk, cassettes and cords.'
    );
  }),
};
