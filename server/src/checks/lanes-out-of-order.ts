import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const path = (near: string) => `link TRUNK-8 {
  fibres      1..12
  connector   MPO-12
  segment     60 m OM4 map reversed
  connector   MPO-12
  spare       5..8
}

channel SPINE-1 {
  cord        3 m OM4 map ${near}
  link        TRUNK-8
  cord        3 m OM4 map reversed
  carries     40GBASE-SR4 fibres 1..4, 9..12
}
`;

export const lanesOutOfOrder: Check = {
  name: 'lanes-out-of-order',
  kind: 'contradiction',
  severity: 'error',
  title: 'Lanes arrive at other places of the array than they must',
  explanation:
    'A module that uses several lanes sends on the first places of its array port and receives on the last: a lane that leaves at place p of n must arrive at place n + 1 − p. ' +
    'Each reversed cord or trunk turns the order round, so three of them are right and two are not; swapped pairs put lanes beside the places that are looked at.',
  source:
    'Position maps of array cabling of TIA-568 (two component makers’ pages that print them), lanes of 40GBASE-SR4 from memory; the rest is arithmetic.',
  bad: example(multimodePlan, path('straight')),
  good: example(multimodePlan, path('reversed')),
  link: noticed(
    'lanes-out-of-order',
    (details) =>
      `Lanes of ${details.text('channel')} leave at places ${details.text('left')} and arrive at ${details.text('arrives')}; they must arrive at ${details.text('wanted')}. ` +
      'Change the map of a cord, or take another trunk.',
  ),
};
