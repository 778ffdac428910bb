/**
 * Doubts of evaluation that keep an object from being accepted until someone
 * answers them in words. Contradictions of readings need no place here: they
 * make their readings invalid.
 */
import type { LinkModel, PlanSettings } from '../model/types.ts';
import type { Doubt } from './result.ts';

export const blockingDoubts: ReadonlySet<string> = new Set([
  'batch-over-limit',
  'bend-on-trace',
  'bend-or-swap-mm',
  'bend-signature-sm',
  'calibration-expired',
  'direction-asymmetry',
  'direction-fake',
  'end-face-fails',
  'event-unexplained',
  'inspection-missing',
  'joint-over-limit',
  'length-differs',
  'length-unmeasured',
  'loss-too-good',
  'measured-twice',
  'not-repeatable',
  'port-unseen',
  'return-loss-low',
  'splice-over-objective',
  'trace-missing',
]);

/** Contradictions of the design: no reading is void by them, and no words answer them. */
const brokenDesign: ReadonlySet<string> = new Set([
  'arrives-at-wrong-pair',
  'comes-out-elsewhere',
  'connectors-do-not-fit',
  'lanes-out-of-order',
  'pair-order-broken',
  'pins-do-not-mate',
  'wavelength-shared',
]);

export function blocks(doubt: Doubt, link: LinkModel, settings: PlanSettings): boolean {
  if (brokenDesign.has(doubt.name)) return true;
  if (!blockingDoubts.has(doubt.name)) return false;
  return ![...link.silence, ...settings.silence].some((one) => one.finding === doubt.name);
}
