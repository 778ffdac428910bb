/**
 * A loss read off a trace, from one end of the object to the other. There is no
 * reference: the trace holds the pair at the launch cord, and the far one where
 * a tail or receive cord lets it be seen. The cords' own fibre lies outside the
 * markers (two-point loss of a backscatter measurement, IEC 61280-4-2 from
 * memory).
 */
import type { Setup, TestCord } from '../model/types.ts';
import { type Arrangement, arrangementOf } from './arrangement.ts';
import type { Context } from './context.ts';
import type { Cords } from './cords.ts';
import { aged, byLimits, type Draft, type Judged, voided } from './judge.ts';
import { governing } from './limits.ts';
import type { Measurement } from './measurement.ts';
import { inDb, reason } from './reasons.ts';

export function judgeTraced(
  measurement: Measurement,
  draft: Draft,
  setup: Setup,
  context: Context,
): Judged {
  const { cell } = measurement;
  const base = { measurement, valid: true };
  if (cell.typed === 'dark' || draft.loss === undefined) {
    const because = 'a trace that shows no light says nothing of a loss';
    const result: Draft = { ...draft, verdict: 'not-judged', because, reason: 'dark' };
    return aged({ ...base, result }, context);
  }
  if (draft.loss < 0) {
    const because = `${inDb(draft.loss)}: no path gains light`;
    return voided(measurement, draft, reason('loss-negative', because, { trace: 1 }));
  }
  const arrangement = arrangementOnTrace(setup, context.cords(setup, cell.at.from), cell.direction);
  const limits = context.limits(arrangement, cell.wavelength, cell.direction ?? 'A>B');
  const limit = governing(limits, cell.fibre);
  draft.limit = limit;
  return aged(
    { ...base, ...byLimits(draft, draft.loss, limits, limit, context), arrangement },
    context,
  );
}

/** As with one cord in a reference, whose fibre neither adds nor takes away. */
function arrangementOnTrace(
  setup: Setup,
  cords: Cords,
  direction: Parameters<typeof arrangementOf>[3],
): Arrangement {
  const far = cords.get('tail') ?? cords.get('receive');
  const seen = new Map<TestCord['role'], TestCord>(cords);
  if (far) seen.set('receive', far);
  const direct = far === undefined;
  const arrangement = arrangementOf({ ...setup, direct }, 'one-cord', seen, direction);
  return { ...arrangement, added: [], away: [], key: `${arrangement.key}|trace` };
}
