/** Readings to make again: keys that were good and stand for nothing now. */
import type { Verdict } from '../evaluate/result.ts';
import type { Movement } from './movements.ts';
import type { Edit, Retest } from './types.ts';

const good: ReadonlySet<Verdict> = new Set(['pass', 'marginal-pass', 'conceded']);
const lost: ReadonlySet<Verdict> = new Set(['stale', 'invalid', 'untested', 'not-judged']);

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
    // A limit that is missing is brought by no reading.
    if (after.result.reason === 'no-limit') return [];
    const because = after.result.because || withdrawn(movement) || told(edits[causes[0] ?? -1]);
    return [{ key, because }];
  });
}

/** Why the last attempt of a key does not count, where one is there. */
function withdrawn({ pair, after }: Extract<Movement, { kind: 'reading' }>): string | undefined {
  if (!pair.after || !after) return undefined;
  const { fibre, wavelength, direction } = after.result;
  return pair.after.readings.findLast(
    (one) =>
      one.attempt !== null &&
      one.fibre === fibre &&
      one.wavelength === wavelength &&
      one.direction === direction,
  )?.because;
}

function told(edit: Edit | undefined): string {
  if (!edit) return 'nobody has read it';
  const { kind, form, subject, was, now } = edit;
  if (kind === 'evidence' && form === 'gone') return 'its reading was taken out of the text';
  const said = [subject, ...(was ? [`was ${was}`] : []), ...(now ? [`now ${now}`] : [])];
  return said.length > 1 ? said.join(', ') : `${subject} (${form})`;
}
