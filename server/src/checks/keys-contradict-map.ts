import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const trunk = (first: string, second: string, map: string) => `link TRUNK-1 {
  fibres      1..12
  connector   MPO-12 key ${first}
  segment     60 m OM4 map ${map}
  connector   MPO-12 key ${second}
}
`;

export const keysContradictMap: Check = {
  name: 'keys-contradict-map',
  kind: 'doubt',
  severity: 'warning',
  title: 'Keys of array pairs do not go with the map between them',
  explanation:
    'A trunk whose places run straight, or with its pairs swapped, has its keys opposed: up at one end and down at the other. A reversed one has them the same, and stands in adapters with keys up to keys up. ' +
    'The two differ by one turned housing: where the keys of the two pairs of a stretch lie differently, its places come out turned round once more than its map says. ' +
    'Only two pairs with a stretch between them are judged. What a single key does to the places is not decided, since the plan does not say which way round each plug is made.',
  source:
    'Types A, B and C of TIA-568, on a component supplier’s and a cable supplier’s page; that adapters of straight trunks have their keys opposed is from memory.',
  bad: example(multimodePlan, trunk('same', 'opposed', 'reversed')),
  good: example(multimodePlan, trunk('same', 'same', 'reversed')),
  link: noticed('keys-contradict-map', (d) =>
    d.number('turned') === 1
      ? `The keys of ${d.text('connector')} lie ${d.text('first')} at one end of this stretch of ${d.text('link')} and ${d.text('second')} at the other: one turned housing, by which place 1 of ${d.number('places')} comes out where place ${d.number('places')} should. Look at the adapters and make both alike, or write the map as the light comes out.`
      : `A stretch that is ${d.text('map')} has keys ${d.text('fits')}, and both pairs of ${d.text('connector')} in ${d.text('link')} say ${d.text('first')}. Look at the adapters and at the marking of the trunk, and correct the map or the keys.`,
  ),
};
