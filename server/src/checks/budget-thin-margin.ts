import {
  compareDb,
  exactDb,
  subtractDb,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';
import { marginWanted } from '../evaluate/room.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import { inDb, inNm } from './figures.ts';

/** Applications that the design carries with little to spare, each with the light that has least. */
function* find({ link, result }: LinkContext): Iterable<Found> {
  for (const { name, support, lossLimit, light, way, channel, place } of result.applications) {
    // The channel says so of itself, with the same parts.
    if (channel !== undefined) continue;
    if (support === 'not supported' || lossLimit === undefined) continue;
    const [worst] = light
      .filter(({ greatest }) => greatest !== undefined)
      .sort((a, b) => compareDb(b.greatest!, a.greatest!));
    if (worst?.greatest === undefined) continue;
    const allowed = exactDb(lossLimit);
    const wanted = marginWanted(lossLimit, link.terms.margin);
    const left = subtractDb(allowed, worst.greatest);
    if (left < 0n || left >= wanted) continue;
    yield {
      place,
      message:
        `At ${inNm(worst.wavelength)} the parts may lose ${inDb(worst.greatest, allowed)} by design${way ? ` (${way})` : ''}, and ${name} allows ${inDb(allowed, worst.greatest)}: ${left === 0n ? 'nothing' : inDb(left)} is left, less than ${inDb(wanted)}. ` +
        'A repair would use it up. Look for fewer joints, or parts that lose less.',
      details: {
        application: name,
        wavelength: toNanometres(worst.wavelength),
        margin: Number(left) / 1e15,
      },
    };
  }
}

export const budgetThinMargin: Check = {
  name: 'budget-thin-margin',
  kind: 'note',
  severity: 'note',
  title: 'The design leaves little of what the application allows',
  explanation:
    'All parts at the most they may lose just fit under the channel loss of the application. The first repair, one more connection or a worn plug takes it over. Where the plan wants a margin that counts, else a tenth of what the application allows and at most 0.3 dB, two splices of a repair with something over.',
  source:
    'Common practice, no source: a tenth of the channel loss, at most 0.3 dB, where the plan wants no margin.',
  bad: example(
    multimodePlan,
    multimodeLink.replace('}', '  carries     10GBASE-SR\n}').replace('180 m', '395 m'),
  ),
  good: example(multimodePlan, multimodeLink.replace('}', '  carries     10GBASE-SR\n}')),
  link: find,
};
