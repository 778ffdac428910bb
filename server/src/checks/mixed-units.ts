import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import { printMicro } from '../../../grammar/src/quantity/index.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { Check, DeclaredContext, Found } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

type Quantity = Extract<Value, { kind: 'quantity' }>;

const path = (second: string) =>
  example(
    multimodePlan,
    multimodeLink.replace(
      '  segment     180 m OM4',
      `  segment     90 m OM4\n  connector   LC\n  segment     ${second} OM4`,
    ),
  );

/** Of feet and thousands of feet all begin or end so; nothing metric does. */
const inFeet = ({ unit }: Quantity) => unit.name.endsWith('ft');
const written = ({ digits, unit }: Quantity) => `${digits} ${unit.name}`;

/** Lengths of one declaration that are written in two systems: once, at the first of the fewer. */
function* find({ declaration }: DeclaredContext): Iterable<Found> {
  const { table, first, entries, name, block } = declaration;
  const lengths = [...lengthsIn([...((first && table?.entries) || []), ...entries])];
  const feet = lengths.filter(inFeet);
  const metric = lengths.filter((length) => !inFeet(length));
  const [odd, usual] = feet.length <= metric.length ? [feet, metric] : [metric, feet];
  const [stranger, like] = [odd[0], usual[0]];
  if (!stranger || !like) return;
  const place = { block, span: stranger.span };
  const metres = `${Number(printMicro(stranger.base))} m`;
  yield {
    place,
    related: [{ place: { block, span: like.span }, message: `${written(like)} is said here.` }],
    message: `${written(stranger)} stands beside lengths in ${like.unit.name} in ${name}. Look whether the unit is meant, and write all lengths of ${name} in one.`,
    details: { name, length: written(stranger), other: written(like) },
    // Feet are whole micrometres, so that metres say the same; not every metre is a number of feet.
    ...(inFeet(stranger) && {
      fix: { title: `Write ${metres}`, edits: [{ place, text: metres }] },
    }),
  };
}

function* lengthsIn(entries: readonly BoundEntry[]): Iterable<Quantity> {
  for (const { word, slots, body } of entries) {
    // A reel is written as its maker marked it, and the marks are held against it.
    if (word === W.reel) continue;
    for (const value of Object.values(slots).flat()) {
      if (value.kind === 'quantity' && value.dimension === 'length') yield value;
    }
    if (body) yield* lengthsIn(body.entries);
  }
}

export const mixedUnits: Check = {
  name: 'mixed-units',
  kind: 'note',
  severity: 'warning',
  title: 'Feet and metres in one declaration',
  explanation:
    'Every length here has its unit and is converted exactly, so that nothing is wrong by itself. But where one path is written in metres and one of its lengths in feet, the odd one is often a figure from another drawing whose unit was taken over or mistyped. A declaration is easier to check when all of its lengths are in one unit. Reels are left out: each is written as its maker marked it.',
  source: 'Common practice, no source: contracts ask for one system of units.',
  bad: path('300 ft'),
  good: path('91 m'),
  declared: find,
};
