import { longCord, longMultimode } from '../evaluate/thresholds.ts';
import type { PathElement } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, multimodeLink, multimodePlan } from './examples.ts';
import { inMetres } from './figures.ts';

/** Stretches longer than their like ever is; of a pattern or a cable that many take, each says it of itself. */
function* find({ link }: LinkContext): Iterable<Found> {
  const told = new Set<string>();
  for (const element of [...link.path, ...link.ways.flatMap(({ path }) => path)]) {
    const found = suspect(element);
    const key = `${element.place.block}:${element.place.span.start}`;
    if (!found || told.has(key)) continue;
    told.add(key);
    yield found;
  }
}

function suspect(element: PathElement): Found | undefined {
  if (element.kind === 'segment') {
    const { length, fibre, fibreName, cable, place } = element;
    // A cable of reels says each of their lengths, and the marks beside them.
    if (length === undefined || length <= longMultimode || fibre?.mode !== 'multimode') return;
    if ((cable?.reels.length ?? 0) > 0) return;
    return {
      place,
      message: `${inMetres(length)} of ${fibreName} in one piece is longer than multimode fibre is laid (${inMetres(longMultimode)}). Look at the unit: feet written as metres, or metres as kilometres?`,
      details: { length, most: longMultimode },
    };
  }
  if (element.kind !== 'cord' || element.length === undefined || element.length <= longCord) return;
  return {
    place: element.place,
    message: `A cord of ${inMetres(element.length)} is longer than a cord is (${inMetres(longCord)}). Look at the unit; if it is a cable, write it as a link.`,
    details: { length: element.length, most: longCord },
  };
}

export const lengthSuspect: Check = {
  name: 'length-suspect',
  kind: 'doubt',
  severity: 'warning',
  title: 'A length that its like never has',
  explanation:
    'Multimode fibre ends within two kilometres and a cord within a room or two. A longer one is nearly always a unit gone wrong, and every limit built on it is too generous: the fibre is granted loss it does not have.',
  source: 'Common practice, no source; both lengths are ours.',
  bad: example(multimodePlan, multimodeLink.replace('180 m', '18 km')),
  good: example(multimodePlan, multimodeLink),
  link: find,
};
