import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';

function* find({ link, result, evidence }: LinkContext): Iterable<Found> {
  const waiting = result.wavelengths.some(({ reference }) => reference === undefined);
  if (!waiting || evidence.readings.length > 0 || link.terms.limits.length === 0) return;
  yield {
    place: link.namePlace,
    message:
      `${link.name} shows no limit yet: how many pairs a reading holds follows from the cords in the reference, and nothing says how many. ` +
      `Write reference in the plan, for instance reference one-cord.`,
    details: { link: link.name },
  };
}

export const referenceNotSaid: Check = {
  name: 'reference-not-said',
  kind: 'note',
  severity: 'warning',
  title: 'No limit can be shown before the reference method is said',
  explanation:
    'With one cord in the reference both end pairs are in a reading, with two cords one of them, with three none. So a limit exists for a method and not for a link alone. Once readings are there, each is judged by the method of its set-up.',
  source: 'IEC 61280-4-1 and IEC 61280-4-2 (reference methods), read in secondary texts.',
  bad: example(multimodePlan.replace(/ {2}reference .*\n/u, ''), multimodeLink),
  good: example(multimodePlan, multimodeLink),
  link: find,
};
