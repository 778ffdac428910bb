/** Judges one link or channel: pure, from its model, its evidence and an explicit instant. */
import type { Picometres } from '../../../grammar/src/quantity/index.ts';
import type { Evidence, LinkModel, PlanSettings, Setup, When, WorkEvent } from '../model/types.ts';
import { expectedKeys } from './expected.ts';
import type { LinkResult, ReadingResult } from './result.ts';
import { emptyCounts } from './totals.ts';

/** A reading elsewhere in the plan that cannot be: it holds what was taken with the same set-up until a check passes. */
export interface Suspicion {
  readonly wavelength: Picometres;
  readonly at: When;
}

export interface EvaluationInput {
  readonly link: LinkModel;
  readonly evidence: Evidence;
  setup(name: string): Setup | undefined;
  readonly settings: PlanSettings;
  /** The instant of judgement in minutes of the site's clock; evaluation never asks a clock. */
  readonly asOf: number;
  /** Most entries of `readings` to hand back; all are judged and counted whatever it is. */
  readonly readingLimit?: number;
  /** For a link: channels that cross it, which say what lies outside it. */
  readonly channels?: readonly LinkModel[];
  /** For a channel: result and work of the links it crosses, from which it is predicted and by whose work it ages. */
  crossed?(
    link: string,
  ): { readonly result: LinkResult; readonly work: readonly WorkEvent[] } | undefined;
  /** Impossible readings of a set-up in other objects, from {@link suspicions}. */
  suspected?(setup: string): readonly Suspicion[];
}

export function evaluateLink(input: EvaluationInput): LinkResult {
  const { link } = input;
  const readings = expectedKeys(link).map(
    (key): ReadingResult => ({
      ...key,
      attempt: null,
      uncertainty: 0 as ReadingResult['uncertainty'],
      verdict: 'untested',
      current: true,
      because: '',
      expectedSet: true,
    }),
  );
  return {
    link,
    wavelengths: [],
    applications: [],
    fibres: link.fibres.map((fibre, index) => ({
      fibre,
      fromPort: link.from[index],
      toPort: link.to[index],
      verdict: 'untested',
      current: readings.filter((reading) => reading.fibre === fibre),
    })),
    readings,
    verdict: 'untested',
    counts: { ...emptyCounts(), untested: readings.length },
    expected: readings.length,
    present: 0,
    accepted: false,
    doubts: [],
  };
}
