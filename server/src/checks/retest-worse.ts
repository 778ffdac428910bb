import { microDb } from '../../../grammar/src/quantity/index.ts';
import { C } from '../../../grammar/src/vocabulary/index.ts';
import { exceedsRootTwo } from '../optics/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { inNm, microInDb } from './figures.ts';
import { retestedIn, workBetween } from './retests.ts';

/** Work that leaves the make-up of a path as it was: nothing of it may add loss. */
const remedies: ReadonlySet<string> = new Set([C.cleaned, C.reTerminated, C.reSpliced]);

function* find(context: LinkContext): Iterable<Found> {
  for (const { current, earlier } of retestedIn(context)) {
    const before = earlier.at(-1);
    if (before?.loss === undefined || current.loss === undefined || !current.reading) continue;
    const more = microDb(current.loss - before.loss);
    if (more <= 0 || !exceedsRootTwo(more, current.uncertainty)) continue;
    const work = workBetween(context, before, current);
    if (work.length === 0 || !work.every((done) => remedies.has(done))) continue;
    yield {
      place: current.reading.place,
      related: before.reading
        ? [{ place: before.reading.place, message: 'the reading before the work' }]
        : [],
      message:
        `Fibre ${current.fibre} at ${inNm(current.wavelength)} ${current.direction} lost ${microInDb(before.loss)}, was ${[...new Set(work)].join(', ')}, and loses ${microInDb(current.loss)} since: ${microInDb(more)} more. ` +
        'The work made it worse. Look at the end faces and joints that were touched.',
      details: { fibre: current.fibre, before: before.loss, after: current.loss, more },
    };
  }
}

const plan = (after: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
    `work KQ-1 {
  done        cleaned
  on          2026-03-14 10:00
  fibres      1
}
`,
    multimodeReadings(`1  ${after}`).replace('09:05 to 09:40', '10:30'),
  );

export const retestWorse: Check = {
  name: 'retest-worse',
  kind: 'doubt',
  severity: 'warning',
  title: 'After cleaning or mending a fibre loses more than before',
  explanation:
    'A plug is cleaned, a joint is made anew, so that less is lost. Where more is lost, by more than two readings may differ, the remedy did harm: dirt was spread, a plug does not sit, a splice is worse than the old one. The later reading stands, and what was done wants a second look.',
  source:
    'Difference of two results with equal expanded uncertainty, U·√2 (JCGM 100:2008); that it is named is common practice, no source.',
  bad: plan('1.52  0.90'),
  good: plan('1.02  0.80'),
  link: find,
};
