import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const path = (to: string) => `link TRUNK-1 {
  fibres      1..12
  connector   MPO-12
  segment     60 m OM4 map reversed
  connector   MPO-12
}

channel ROW-C {
  cord        2 m OM4 straight
  link        TRUNK-1 fibres 1..2${to}
  cord        2 m OM4 straight
  carries     10GBASE-SR
}
`;

export const comesOutElsewhere: Check = {
  name: 'comes-out-elsewhere',
  kind: 'contradiction',
  severity: 'error',
  title: 'A channel goes on from places where its light does not come out',
  explanation:
    'A channel goes on at the far end of a link from the places it took at the near end, or from those written after to. ' +
    'Where the link turns its places round, the light comes out elsewhere, and the next cord is plugged where there is none of it. ' +
    'Write to and the places of the far end, in the order in which the cord takes them.',
  source: 'The product of the maps along the link: arithmetic.',
  bad: example(multimodePlan, path('')),
  good: example(multimodePlan, path(' to 11..12')),
  link: noticed('comes-out-elsewhere', (details) => {
    const noun = details.number('lights') === 1 ? 'fibre' : 'fibres';
    return (
      `${details.text('channel')} enters ${details.text('link')} at ${noun} ${details.text('entered')}, whose light comes out at ${details.text('out')}, and goes on from ${details.text('taken')}: that is the wrong pair. ` +
      'Write to and the places where it comes out, or correct the map of the link.'
    );
  }),
};
