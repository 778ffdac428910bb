import type { Check, Found, LinkContext } from './check.ts';
import { neighbours } from './core-size-mismatch.ts';
import { example, multimodePlan } from './examples.ts';

function* find({ link }: LinkContext): Iterable<Found> {
  for (const { before, beforePlace, after, place } of neighbours(link)) {
    if (before.mode !== after.mode || before.core !== after.core) continue;
    if (before.meets.includes(after.name) || after.meets.includes(before.name)) continue;
    yield {
      place,
      message:
        `${after.name} follows ${before.name}, and neither meets the other's category. ` +
        `The link reaches only as far as the poorer of the two.`,
      related: [{ place: beforePlace, message: before.name }],
      details: { before: before.name, after: after.name },
    };
  }
}

export const categoryStep: Check = {
  name: 'category-step',
  kind: 'note',
  severity: 'note',
  title: 'Two fibre categories follow one another and neither meets the other',
  explanation:
    'An application may use a row of its table only where every fibre of the path is of that category or meets it. ' +
    'Two categories of which neither meets the other leave only the rows that both meet, often none. ' +
    'Check the types, or say with meets in the fibre block which category a fibre also fulfils.',
  source:
    'Application tables are stated per fibre category (IEEE 802.3, ISO/IEC 11801-1 annexes); the note is common practice, no source.',
  bad: example(
    multimodePlan,
    `fibre SITE-50 {
  mode        multimode core 50 um
  attenuation 850 nm max 3.0 dB/km
  attenuation 1300 nm max 1.5 dB/km
  basis       "delivery note 17" read
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     60 m SITE-50
  connector   LC
  segment     60 m OM4
  connector   LC
}
`,
  ),
  good: example(
    multimodePlan,
    `fibre SITE-50 {
  meets       OM4
  mode        multimode core 50 um
  attenuation 850 nm max 3.0 dB/km
  attenuation 1300 nm max 1.5 dB/km
  basis       "delivery note 17" read
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     60 m SITE-50
  connector   LC
  segment     60 m OM4
  connector   LC
}
`,
  ),
  link: find,
};
