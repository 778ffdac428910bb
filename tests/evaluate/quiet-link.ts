/** A link of 5 km between two pairs that asks for no reading, so that only other evidence of it is told. */
import type {
  Evidence,
  LinkModel,
  PathElement,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import { betweenPairs, evaluate, evidence, link, place, settings, when } from '../support/build.ts';

const quiet = { measure: [], directions: { wanted: ['A>B' as const], average: false } };

/** The link with this evidence, judged. */
export function judged(
  more: Partial<Evidence>,
  {
    terms,
    model,
    using,
    elements = betweenPairs(5000),
    fibres = 2,
  }: {
    terms?: Partial<Terms>;
    model?: Partial<LinkModel>;
    using?: Setup;
    elements?: readonly PathElement[];
    fibres?: number;
  } = {},
) {
  const whole = { ...link(elements, { ...quiet, ...terms }, fibres), ...model };
  return evaluate(whole, evidence(more), using, settings());
}

/** Work on the link after all that was read of it. */
export const cleaned = (fibres?: readonly number[]) => [
  {
    object: 'KQ-1',
    done: 'cleaned',
    on: { ...when(600), text: 'ten' },
    ...(fibres && { fibres }),
    place: place(),
  },
];
