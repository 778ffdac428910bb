import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const path = (pinned: string) => `link TRUNK-1 {
  fibres      1..12
  connector   MPO-12 pins B
  segment     60 m OM4
  connector   MPO-12 pins A
}

link FAN-1 {
  fibres      1..12
  plug        MPO-12${pinned}
  segment     3 m OM4
  plug        LC
}

channel ROW-C {
  link        TRUNK-1
  link        FAN-1
}
`;

export const pinsDoNotMate: Check = {
  name: 'pins-do-not-mate',
  kind: 'contradiction',
  severity: 'error',
  title: 'Two pinned arrays meet, or none has pins',
  explanation:
    'One of two array plugs has guide pins and the other the holes for them. Two with pins cannot be pushed together, and are damaged by trying; two without are not aligned, and lose light at each fibre. ' +
    'A pair says which side has them, a plug that it is pinned.',
  source: 'Guide pins of array connectors (IEC 61754-7 family), from memory.',
  bad: example(multimodePlan, path(' pinned')),
  good: example(multimodePlan, path('')),
  link: noticed('pins-do-not-mate', (details) =>
    details.number('both') === 1
      ? `Both sides of this ${details.text('connector')} have pins, so they do not go together. One of the two is without: correct what is written, or change its pins.`
      : `Neither side of this ${details.text('connector')} has pins, so nothing aligns them. One of the two is pinned: correct what is written, or change its pins.`,
  ),
};
