/** What changed between two states of a plan, in the terms of the trade. */
export { compare, compareOneSided } from './compare.ts';
export { stateOf } from './state.ts';
export { type ComparedPlan, compareTexts, type Texts, type TextsToCompare } from './texts.ts';
export type * from './types.ts';
