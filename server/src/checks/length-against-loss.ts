import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';
import { spokenLength } from './spoken-length.ts';

const plan = (...rows: readonly string[]) =>
  example(
    multimodePlan,
    multimodeLink.replace('1..2', '1..4'),
    multimodeSetup,
    multimodeReadings(...rows),
  );

/** What moves one wavelength, or tells of the length itself; a batch that is low or high says this of it. */
const explained: ReadonlySet<string> = new Set([
  'batch-too-low',
  'batch-too-high',
  'level-changes',
  'drift-while-testing',
  'length-differs',
]);

function* find(context: LinkContext): Iterable<Found> {
  const { link, result } = context;
  const spoken = spokenLength(context);
  if (!spoken || result.doubts.some(({ name }) => explained.has(name))) return;
  const { estimate, declared, sentence } = spoken;
  yield {
    place: link.namePlace,
    message: `${sentence} Look at the length and its unit, at the fibre, and whether both columns are of this link.`,
    details: { link: link.name, estimate, declared },
  };
}

export const lengthAgainstLoss: Check = {
  name: 'length-against-loss',
  kind: 'note',
  severity: 'note',
  title: 'The losses at two wavelengths speak of another length',
  explanation:
    'Connectors and splices lose nearly the same at 850 and 1300 nm, so the difference between the two readings is the fibre’s, and a length follows from it: (loss at 850 − loss at 1300) / (rate at 850 − rate at 1300). It is no measurement of length. But where the median of a batch speaks of far more or far less fibre than is declared, a length was mistyped, a unit exchanged, or another cable measured. A batch that is low or high as a whole says it of itself, since a reference that moved at one wavelength looks the same.',
  source:
    'Attenuation of multimode categories (ISO/IEC 11801-1, IEC 60793-2-10); the bounds of 30 % and 100 m are common practice, no source.',
  bad: plan('1  1.57  0.84', '2  1.55  0.80', '3  1.56  0.83', '4  1.58  0.85'),
  good: plan('1  1.12  0.84', '2  1.08  0.80', '3  1.10  0.82', '4  1.13  0.85'),
  link: find,
};
