export type { EvaluationInput, Suspicion } from './context.ts';
export { evaluateLink } from './evaluate.ts';
export { type FewReadings, highTogether } from './patterns-level.ts';
export * from './result.ts';
export { type Left, type LossRoom, type Room, roomOf } from './room.ts';
export { suspicionsIn } from './settle.ts';
export { addTotals, emptyTotals, readTotals, removeTotals, type Totals } from './totals.ts';
