/** Readings to make again: keys that were good and stand for nothing now. */
import type { Movement } from './movements.ts';
import type { Edit, Retest } from './types.ts';

const good: ReadonlySet<string> = new Set(['pass', 'marginal-pass', 'conceded']);
const lost: ReadonlySet<string> = new Set(['stale', 'invalid', 'untested', 'not-judged']);

/** In order of the movements; why is what judging says, else the change that did it. */
export function retestsOf(
  movements: readonly { readonly movement: Movement; readonly causes: readonly number[] }[],
  edits: readonly Edit[],
): readonly Retest[] {
  return movements.flatMap(({ movement, causes }) => {
    if (movement.kind !== 'reading') return [];
    const { before, after, key } = movement;
    if (!before || !after) return [];
    if (!good.has(before.result.verdict) || !lost.has(after.result.verdict)) return [];
    const cause = edits[causes[0] ?? -1];
    const because =
      after.result.because || (cause && whatChanged(cause)) || 'it is not there any more';
    return [{ key, because }];
  });
}

function whatChanged({ subject, was, now, form }: Edit): string {
  const said = [subject, ...(was ? [`was ${was}`] : []), ...(now ? [`now ${now}`] : [])];
  return said.length > 1 ? said.join(', ') : `${subject} (${form})`;
}
