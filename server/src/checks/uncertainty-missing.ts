import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

function* find({ link, evidence, settings, result }: LinkContext): Iterable<Found> {
  if (settings.decision.rule === 'simple' || evidence.readings.length === 0) return;
  const without = result.readings.find(
    (reading) => reading.attempt !== null && reading.uncertainty === 0,
  );
  if (!without?.reading) return;
  yield {
    place: without.reading.place,
    message:
      `No uncertainty is stated for this reading, so it is judged as if it were exact, and nothing can be marginal. ` +
      `Write uncertainty in the plan, for instance uncertainty 0.15 dB, or decision simple if the contract says so.`,
    related: settings.place ? [{ place: settings.place, message: 'the plan' }] : [],
    details: { link: link.name },
  };
}

export const uncertaintyMissing: Check = {
  name: 'uncertainty-missing',
  kind: 'doubt',
  severity: 'warning',
  title: 'Readings are judged without an uncertainty',
  explanation:
    'A reading close to its limit may lie on either side of it. Which side counts depends on the expanded uncertainty (k = 2) of the method and on the decision rule. ' +
    'A contract that compares plainly says so with decision simple.',
  source: 'ILAC-G8:09/2019 and JCGM 106:2012 (decision rules), read in secondary texts.',
  bad: example(
    multimodePlan.replace(/ {2}uncertainty .*\n/u, ''),
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  good: example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
  ),
  link: find,
};
