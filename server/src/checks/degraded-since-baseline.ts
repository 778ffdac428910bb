import { microDb } from '../../../grammar/src/quantity/index.ts';
import { degraded } from '../evaluate/thresholds.ts';
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

function* find(context: LinkContext): Iterable<Found> {
  for (const { current, earlier } of retestedIn(context)) {
    const [first] = earlier;
    const last = earlier.at(-1);
    if (first?.loss === undefined || last?.loss === undefined || current.loss === undefined)
      continue;
    const more = microDb(current.loss - first.loss);
    if (more <= degraded || !current.reading || !first.reading) continue;
    // A step from one reading to the next is said as such, and work explains a difference.
    const step = microDb(Math.abs(current.loss - last.loss));
    if (current.uncertainty > 0 && exceedsRootTwo(step, current.uncertainty)) continue;
    if (workBetween(context, first, current).length > 0) continue;
    yield {
      place: current.reading.place,
      related: [{ place: first.reading.place, message: 'the first good reading' }],
      message:
        `Fibre ${current.fibre} at ${inNm(current.wavelength)} ${current.direction} loses ${microInDb(current.loss)}, ${microInDb(more)} more than the ${microInDb(first.loss)} it was first read at, with no work said between. ` +
        'It gets worse by small steps. Look for dirt, a bend or water on its way, or write the work that was done.',
      details: { fibre: current.fibre, first: first.loss, now: current.loss, more },
    };
  }
}

const plan = (third: string) =>
  example(
    multimodePlan.replace('0.15 dB', '0.20 dB'),
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
    multimodeReadings('1  1.28  0.86').replace('09:05 to 09:40', '15:10'),
    multimodeReadings(`1  ${third}`).replace('09:05 to 09:40', '20:50'),
  );

export const degradedSinceBaseline: Check = {
  name: 'degraded-since-baseline',
  kind: 'doubt',
  severity: 'warning',
  title: 'A fibre has got worse by small steps',
  explanation:
    'Each reading lies near the one before, and all together have moved away from the first: dirt gathers, water gets into a closure, a bend tightens. No single step stands out, so the last good reading is compared with the first.',
  source: 'Common practice, no source: 0.3 dB over the first good reading.',
  bad: plan('1.46  0.88'),
  good: plan('1.20  0.88'),
  link: find,
};
