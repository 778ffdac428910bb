/** What two spans of a ring have in common, and so lose together: common practice, no source. */
import { expect, it } from 'vitest';
import { sharedGround } from '../../server/src/evaluate/ground.ts';
import { planOf } from '../model/plan.ts';

const plan = (second: string, third: string) => `plan "Ground" {
  measure     1550 nm
}

cable C-1 {
  fibre       G.652.D
  count       12
  length      900 m
  route       "tunnel east"
}

cable C-2 {
  like        C-1
}

cable C-3 {
  fibre       G.652.D
  count       12
  length      900 m
  route       "pier west"
}

${[
  ['R-1', 'C-1 fibres 1..4', 'pit 1'],
  ['R-2', second, 'pit 2'],
  ['R-3', third, 'pit 3'],
]
  .map(
    ([name, segment, pit]) => `link ${name} {
  fibres      1..4
  connector   SC-APC
  segment     ${segment}
  splice      fusion at "${pit}"
  segment     20 m G.652.D
  connector   SC-APC
}
`,
  )
  .join('\n')}
ring RING {
  node        "One" through 3 m G.652.D
  link        R-1 fibres 1..2
  node        "Two" through 3 m G.652.D
  link        R-2 fibres 1..2
  node        "Three" through 3 m G.652.D
  link        R-3 fibres 1..2
}
`;

const shared = (second: string, third: string, change = (text: string) => text) => {
  const { ways } = planOf(change(plan(second, third))).link('RING');
  return sharedGround(ways).map((one) => [one.first.name, one.second.name, ...one.shared]);
};

it('is a cable, a route, a closure; two cables of one route share the route alone', () => {
  expect(shared('C-3 fibres 1..4', '900 m G.652.D')).toEqual([]);
  expect(shared('C-2 fibres 1..4', 'C-3 fibres 1..4')).toEqual([
    ['One to Two', 'Two to Three', '“tunnel east”'],
  ]);
  expect(shared('C-3 fibres 1..4', 'C-1 fibres 5..8')).toEqual([
    ['One to Two', 'Three to One', 'the cable C-1', '“tunnel east”'],
  ]);
  expect(
    shared('C-3 fibres 1..4', '900 m G.652.D', (text) => text.replace('"pit 3"', '"pit 2"')),
  ).toEqual([['Two to Three', 'Three to One', 'the closure “pit 2”']]);
});
