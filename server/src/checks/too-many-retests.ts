import { usualAttempts } from '../evaluate/thresholds.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { fibresInWords } from './figures.ts';
import { retestedIn, workBetween } from './retests.ts';

const day = 24 * 60;

/** Read again and again within a day, with nothing done between: once for each object. */
function* find(context: LinkContext): Iterable<Found> {
  const often = retestedIn(context).flatMap(({ current, earlier }) => {
    const to = current.reading?.at.to ?? 0;
    const tries = earlier.filter(
      (attempt) =>
        to - (attempt.reading?.at.from ?? 0) < day &&
        workBetween(context, attempt, current).length === 0,
    );
    return tries.length >= usualAttempts ? [{ current, tries: tries.length + 1 }] : [];
  });
  const [first] = often;
  if (!first?.current.reading) return;
  const most = Math.max(...often.map(({ tries }) => tries));
  const fibres = [...new Set(often.map(({ current }) => current.fibre))];
  yield {
    place: first.current.reading.place,
    message:
      `${fibresInWords(fibres)[0]?.toUpperCase()}${fibresInWords(fibres).slice(1)} ${fibres.length === 1 ? 'was' : 'were'} read up to ${most} times within a day with no work between. ` +
      'The last reading stands, never the best. Write the work that was done, or find out what the readings were to change.',
    details: { fibres: fibres.length, attempts: most },
  };
}

const plan = (...times: readonly string[]) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  1.12  0.84', '2  1.08  0.80'),
    ...times.map((time) => multimodeReadings('1  1.14  0.85').replace('09:05 to 09:40', time)),
  );

export const tooManyRetests: Check = {
  name: 'too-many-retests',
  kind: 'note',
  severity: 'note',
  title: 'A fibre was read many times in a row',
  explanation:
    'Whoever measures until a figure suits has shown nothing. After three tries a fibre wants work rather than another reading, and some contracts allow no more. All attempts stay in the record, and the last good one stands.',
  source:
    'One public contract exhibit allows three attempts before its relaxed figure (read); as a general rule common practice, no source.',
  bad: plan('10:00', '10:05', '10:10'),
  good: plan('10:00'),
  link: find,
};
