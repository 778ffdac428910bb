/**
 * A block whose every value is impossible as it is headed, and likely under
 * another heading: losses headed as powers, powers as losses, microwatts as
 * dBm, a sign left out. One cause for the whole block; of several readings of
 * it that one is taken which comes nearest to what the parts usually lose.
 */
import { middleOf } from '../optics/index.ts';
import { level, pathOf, usualOf } from './batches.ts';
import type { Context } from './context.ts';
import { exact } from './doubts.ts';
import { voided } from './judge.ts';
import { reason } from './reasons.ts';
import type { Attempt } from './settle.ts';
import { signBatch } from './thresholds.ts';

/** Loss in decibels that a value would mean, by what it may be. */
type Meaning = (value: number, reference: number) => number;

const ofPowers: Readonly<Record<string, Meaning>> = {
  losses: (value) => value,
  microwatts: (value, reference) => reference - 10 * Math.log10(value / 1000),
  'powers with their sign left out': (value, reference) => reference + value,
};

const ofLosses: Readonly<Record<string, Meaning>> = {
  'losses with the other sign': (value) => -value,
  powers: (value, reference) => reference - value,
};

/** Rewrites the reason of every attempt of such a block, in place. */
export function doubtUnits(judged: ReadonlyMap<string, Attempt[]>, context: Context): void {
  const blocks = new Map<string, [Attempt[], number, Attempt][]>();
  for (const list of judged.values()) {
    for (const [index, attempt] of list.entries()) {
      const { cell } = attempt.measurement;
      if (attempt.withdrawn || attempt.result.loss === undefined) continue;
      const key = `${cell.place.block} ${cell.quantity}`;
      const block = blocks.get(key);
      if (block) block.push([list, index, attempt]);
      else blocks.set(key, [[list, index, attempt]]);
    }
  }
  for (const block of blocks.values()) {
    if (block.length < signBatch || !block.every(([, , attempt]) => impossible(attempt))) continue;
    const meant = meaningOf(
      block.map(([, , attempt]) => attempt),
      context,
    );
    if (!meant) continue;
    for (const [list, index, attempt] of block) {
      const because = `every value of this block is impossible as it is headed, and likely as one of ${meant.what}`;
      const why = reason('unit-suspect', because, {
        likely: meant.what,
        typed: attempt.measurement.cell.quantity,
        readings: block.length,
        as: Math.round(meant.loss * 100) / 100,
        usual: Math.round(meant.usual * 100) / 100,
      });
      list[index] = { ...attempt, ...voided(attempt.measurement, attempt.result, why) };
    }
  }
}

const impossibleBy: ReadonlySet<string> = new Set(['loss-negative', 'unit-suspect']);

function impossible({ reason: why }: Attempt): boolean {
  return why !== undefined && impossibleBy.has(why.name);
}

/** Undefined where nothing fits, and of losses where only their sign is doubted, which has its own finding. */
function meaningOf(
  attempts: readonly Attempt[],
  context: Context,
): { readonly what: string; readonly loss: number; readonly usual: number } | undefined {
  const typed = attempts.flatMap((attempt) => {
    const { cell } = attempt.measurement;
    const value = cell.quantity === 'power' ? attempt.result.power : cell.loss;
    const { reference } = attempt.result;
    const usual = usualOf(pathOf(context, attempt), attempt);
    return value === undefined || reference === undefined
      ? []
      : [
          {
            value: value / 1e6,
            reference: reference / 1e6,
            usual: usual && exact(usual.value),
            loss: level(attempt),
          },
        ];
  });
  if (typed.length < attempts.length) return undefined;
  const power = attempts[0]?.measurement.cell.quantity === 'power';
  let best: { what: string; loss: number; usual: number; away: number } | undefined;
  for (const [what, meaning] of Object.entries(power ? ofPowers : ofLosses)) {
    const losses = typed.map(({ value, reference }) => meaning(value, reference));
    if (!losses.every((loss) => loss >= 0)) continue;
    const usual = middleOf(typed.map((one) => one.usual ?? 0));
    const away = middleOf(losses.map((loss, at) => Math.abs(loss - (typed[at]?.usual ?? 0))));
    if (!best || away < best.away) best = { what, loss: middleOf(losses), usual, away };
  }
  return best && best.what !== 'losses with the other sign' ? best : undefined;
}
