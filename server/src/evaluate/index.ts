export type { EvaluationInput, Suspicion } from './context.ts';
export { evaluateLink } from './evaluate.ts';
export * from './result.ts';
export { suspicionsIn } from './settle.ts';
export { addTotals, emptyTotals, readTotals, removeTotals, type Totals } from './totals.ts';
