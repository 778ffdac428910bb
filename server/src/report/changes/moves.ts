/** What a move of a verdict means to whoever has to act on it. */
import type { ExactDb } from '../../../../grammar/src/quantity/index.ts';
import type { Verdict } from '../../evaluate/result.ts';
import { margin, roundedApart, trueMinus } from '../figures.ts';
import { rankOf } from '../verdicts.ts';

export type Move = 'same' | 'better' | 'worse' | 'again' | 'new' | 'gone';

/** Verdicts that rest on no reading which counts. */
const open: ReadonlySet<Verdict> = new Set(['invalid', 'stale', 'untested', 'not-judged']);
const good: ReadonlySet<Verdict> = new Set(['pass', 'marginal-pass', 'conceded']);

/** Nine verdicts in two states: better and worse among those that rest on a reading, `again` where it counts no more. */
export function moveOf(before: Verdict | 'none', after: Verdict | 'none'): Move {
  if (before === after) return 'same';
  if (before === 'none') return 'new';
  if (after === 'none') return 'gone';
  if (open.has(after)) return 'again';
  if (open.has(before)) return good.has(after) ? 'better' : 'worse';
  return rankOf(after) > rankOf(before) ? 'better' : 'worse';
}

/** Two margins that differ never read alike; each carries its sign. */
export function marginsApart(
  was: ExactDb | undefined,
  now: ExactDb | undefined,
  places: number,
): readonly [string, string] {
  const text = (value: ExactDb | undefined, other: ExactDb | undefined): string => {
    if (value === undefined) return 'none';
    const own = margin(value, places);
    if (other === undefined || other === value || own !== margin(other, places)) return own;
    const apart = trueMinus(roundedApart(value, other, places));
    return value > 0n ? `+${apart}` : apart;
  };
  return [text(was, now), text(now, was)];
}
