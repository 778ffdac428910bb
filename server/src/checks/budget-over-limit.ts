import { compareDb, subtractDb } from '../../../grammar/src/quantity/index.ts';
import { type Check, type Found, type LinkContext } from './check.ts';
import { example, multimodePlan } from './examples.ts';
import { inDb, inNm } from './figures.ts';

function* find({ link, result }: LinkContext): Iterable<Found> {
  for (const at of result.wavelengths) {
    const { governing, worst } = at;
    if (!governing?.value || !worst || compareDb(worst, governing.value) <= 0) continue;
    const direction = at.direction ? ` ${at.direction}` : '';
    yield {
      place: link.namePlace,
      message:
        `With every part at its most allowed loss ${link.name} has ${inDb(worst)} at ${inNm(at.wavelength)}${direction}, ` +
        `${inDb(subtractDb(worst, governing.value))} over its limit of ${inDb(governing.value)} (${governing.kind}, ${governing.name}). ` +
        `Built to the letter it may fail; fewer pairs, better parts or a shorter path would close it.`,
      details: { link: link.name, wavelength: at.wavelength },
    };
    return;
  }
}

export const budgetOverLimit: Check = {
  name: 'budget-over-limit',
  kind: 'doubt',
  severity: 'warning',
  title: 'The sum of most allowed losses is over the limit',
  explanation:
    'The design takes each part at the most it may lose. If that sum is over the governing limit (often an application’s), a link built entirely to specification can still fail. ' +
    'It may pass as measured; that is then true for this mating only.',
  source: 'Loss budget of IEC/TIA practice: attenuation times length plus pairs, splices and parts, compared with the channel loss of the application.',
  bad: example(
    multimodePlan,
    `link KQ-1 {
  connector   LC
  segment     200 m OM4
  connector   LC
  segment     90 m OM4
  connector   LC
  segment     30 m OM4
  connector   LC
  carries     10GBASE-SR
}
`,
  ),
  good: example(
    multimodePlan,
    `link KQ-1 {
  connector   LC
  segment     120 m OM4
  connector   LC
  carries     10GBASE-SR
}
`,
  ),
  link: find,
};
