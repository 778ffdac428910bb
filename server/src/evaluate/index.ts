export { type EvaluationInput, evaluateLink } from './evaluate.ts';
export * from './result.ts';
export { addTotals, emptyTotals, readTotals, removeTotals, type Totals } from './totals.ts';
