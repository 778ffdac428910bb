/** A link of 5 km between two pairs that asks for no reading, so that only other evidence of it is told. */
import type {
  Evidence,
  LinkModel,
  PathElement,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import { betweenPairs, evaluate, evidence, link, oneWay, settings } from '../support/build.ts';

const quiet = { measure: [], ...oneWay };

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
