import type { Cable, ColoursType } from '../model/types.ts';
import type { CableContext, Check, Found } from './check.ts';
import { example, multimodePlan } from './examples.ts';

function* find({ cable }: CableContext): Iterable<Found> {
  const { jacket, fibre, colours } = cable;
  if (!jacket || !fibre || !colours) return;
  const own = jacketsOf(cable, colours);
  if (own.length === 0 || own.includes(jacket.colour)) return;
  // A colour that stands for no fibre (black outdoors) contradicts none.
  const others = colours.jackets
    .filter((line) => line.colours.includes(jacket.colour))
    .flatMap((line) => line.fibres);
  if (others.length === 0) return;
  yield {
    place: jacket.place,
    message:
      `${cable.name} has a jacket of ${jacket.colour}, which ${colours.name} gives to ${others.join(', ')}, and the fibre inside is ${fibre.name} (${own.join(' or ')}). ` +
      'Read the print on the jacket, and correct the one or the other.',
    details: { cable: cable.name, jacket: jacket.colour, fibre: fibre.name },
  };
}

/** What the order gives to the fibre itself, else to the nearest that it meets. */
function jacketsOf({ fibre }: Cable, { jackets }: ColoursType): readonly string[] {
  for (const name of fibre ? [fibre.name, ...fibre.meets] : []) {
    const lines = jackets.filter(({ fibres }) => fibres.includes(name));
    if (lines.length > 0) return lines.flatMap(({ colours }) => colours);
  }
  return [];
}

const plan = (jacket: string) =>
  example(
    multimodePlan,
    `cable C-101 {
  fibre       OM4
  count       12
  length      180 m
  colours     TIA-598
  jacket      ${jacket}
}
`,
    `link KQ-1 {
  connector   LC
  segment     C-101 fibres 1..12
  connector   LC
}
`,
  );

export const jacketOfOtherFibre: Check = {
  name: 'jacket-of-other-fibre',
  kind: 'doubt',
  severity: 'warning',
  title: 'The jacket of a cable has the colour of another fibre',
  explanation:
    'Indoor cables show by their jacket what fibre lies inside: a plan that says OM4 in orange has either the wrong fibre or the wrong colour, and the wrong fibre costs reach at every speed. It is looked at only where the cable names an order of colours, since no order holds everywhere. Outdoors jackets are mostly black and the print tells the fibre: a colour that stands for no fibre is not doubted.',
  source:
    'TIA-598-C and TIA-598-D, colours of jackets, as a reprint of a trade association’s page and suppliers’ guides print them.',
  bad: plan('orange'),
  good: plan('violet'),
  cable: find,
};
