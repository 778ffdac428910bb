import { groundOf } from '../evaluate/ground.ts';
import type { LinkModel, Place, Way } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, singleModePlan } from './examples.ts';

/** Spans of a ring that one digger would cut together. */
function* find({ link }: LinkContext): Iterable<Found> {
  const spans = link.ways.filter(({ kind }) => kind === 'span');
  if (spans.length < 2) return;
  const first = new Map<string, { readonly way: Way; readonly place: Place }>();
  const told = new Set<string>();
  for (const way of spans) {
    for (const [key, words] of groundOf(way.path)) {
      const before = first.get(key);
      if (!before) {
        first.set(key, { way, place: placeIn(way, link) });
        continue;
      }
      // A cable lies in its own routes: what two spans share is said once.
      const pair = `${before.way.name}|${way.name}`;
      if (told.has(pair)) continue;
      told.add(pair);
      yield {
        place: placeIn(way, link),
        related: [{ place: before.place, message: `${before.way.name} lies in it too.` }],
        message:
          `${before.way.name} and ${way.name} of ${link.name} both lie in ${words}: what cuts one cuts the other, and the ring has no long way then. ` +
          'Take another route for one of them, or say why it may be so.',
        details: { ring: link.name, first: before.way.name, second: way.name, shared: words },
      };
    }
  }
}

/** Where the ring says the span: the link or cord it begins with. */
function placeIn({ path, place }: Way, link: LinkModel): Place {
  const own = path.find((element) => element.place.block === link.place.block);
  return own?.place ?? place;
}

const ring = (second: string) =>
  example(
    singleModePlan.replace(/ {2}measure .*\n/u, ''),
    `cable C-1 {
  fibre       OS2
  count       12
  length      900 m
  route       "quay wall, duct 2"
}

cable C-2 {
  fibre       OS2
  count       12
  length      1100 m
  route       "${second}"
}
`,
    ...[1, 2].map(
      (n) => `link S-${n} {
  fibres      1..2
  connector   LC
  segment     C-${n} fibres 1..2
  connector   LC
}
`,
    ),
    `ring KQ-RING {
  node        "Pump house" through 3 m OS2
  link        S-1
  node        "Lighthouse" through 3 m OS2
  link        S-2
}
`,
  );

export const protectionNotDiverse: Check = {
  name: 'protection-not-diverse',
  kind: 'doubt',
  severity: 'warning',
  title: 'Two spans of a ring lie in one cable or one duct',
  explanation:
    'A ring survives the loss of one span. Two spans in one cable, or on one route, are lost together: by the same digger, anchor or fire. Spans are compared by the cables of their links and by the routes that those cables say, word for word.',
  source: 'Common practice, no source: both ways round a ring keep apart all along.',
  bad: ring('quay wall, duct 2'),
  good: ring('upper road, poles 1 to 24'),
  link: find,
};
