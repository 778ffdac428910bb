import { type Check, noticed } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

const plan = (year: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup
      .replaceAll('taken       2026', `taken       ${year}`)
      .replaceAll('due 2027', 'due 2030'),
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80').replace('2026-03', `${year}-03`),
  );

export const readingInFuture: Check = {
  name: 'reading-in-future',
  kind: 'contradiction',
  severity: 'error',
  title: 'A reading is dated later than now',
  explanation:
    'Nothing was measured tomorrow. Either the date is mistyped, or the clock of the instrument or of this computer is wrong, and then the order of references, readings and work may be wrong as well: such a reading is invalid and supersedes none. Where a plan is judged as of an earlier day on purpose, this says what was not there yet.',
  source: 'Our own rule: a date after the instant of judgement is an impossible value.',
  bad: plan('2029'),
  good: plan('2026'),
  link: noticed(
    'reading-in-future',
    (d) =>
      `${d.beginReadings('is', 'are')} dated later than the time of judgement, the first ${d.text('tested')}. ` +
      'Look at the year and the day, at the clock of the instrument, and at the zone of the plan.',
  ),
};
