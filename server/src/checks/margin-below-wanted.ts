import { compareDb, exactDb, subtractDb, zeroDb } from '../../../grammar/src/quantity/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inDb, inNm, microInDb } from './figures.ts';

function* find({ link, result }: LinkContext): Iterable<Found> {
  const wanted = link.terms.margin;
  if (wanted === undefined) return;
  for (const reading of result.readings) {
    if (!reading.current || !reading.reading || reading.margin === undefined) continue;
    if (reading.verdict !== 'pass' && reading.verdict !== 'marginal-pass') continue;
    if (compareDb(reading.margin, exactDb(wanted)) >= 0) continue;
    const of = `Fibre ${reading.fibre} at ${[inNm(reading.wavelength), reading.direction].filter(Boolean).join(' ')}`;
    const { margin } = reading;
    yield {
      place: reading.reading.place,
      message:
        compareDb(margin, zeroDb) < 0
          ? // Only a decision that forgives the uncertainty lets it pass.
            `${of} is ${inDb(subtractDb(zeroDb, margin), exactDb(wanted))} over its limit and passes by the plan's decision alone; the plan wants a margin of ${microInDb(wanted, margin)}.`
          : `${of} has a margin of ${inDb(margin, exactDb(wanted))}; ` +
            `the plan wants ${microInDb(wanted, margin)}. It passes, and leaves less than was asked for.`,
      details: { link: link.name, fibre: reading.fibre },
    };
  }
}

export const marginBelowWanted: Check = {
  name: 'margin-below-wanted',
  kind: 'note',
  severity: 'warning',
  title: 'A reading passes with less margin than the plan wants',
  explanation:
    'The margin wanted is a wish of the design, for ageing and repair; it is not part of the acceptance limit and never turns a pass into a fail. Readings with less of it are where to look first.',
  source:
    'Common practice, no source: allowances for ageing and repair belong to the power budget, never to an acceptance limit.',
  bad: example(
    multimodePlan.replace('  uncertainty', '  margin      1 dB\n  uncertainty'),
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.32  0.84', '2  1.08  0.60'),
  ),
  good: example(
    multimodePlan.replace('  uncertainty', '  margin      0.2 dB\n  uncertainty'),
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: find,
};
