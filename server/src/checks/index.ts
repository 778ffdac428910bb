/** All checks, and how they are asked: about one link or channel, and about one set-up. */
import type { LinkContext, SetupContext } from './check.ts';
import { type Check, makeFinding } from './check.ts';
import { budgetOverLimit } from './budget-over-limit.ts';
import { categoryStep } from './category-step.ts';
import { cordConnectorMismatch } from './cord-connector-mismatch.ts';
import { cordFibreMismatch } from './cord-fibre-mismatch.ts';
import { coreSizeMismatch } from './core-size-mismatch.ts';
import { crossingNotSaid } from './crossing-not-said.ts';
import type { Finding } from './finding.ts';
import { launchConditionMissing } from './launch-condition-missing.ts';
import { limitsMissing } from './limits-missing.ts';
import { marginBelowWanted } from './margin-below-wanted.ts';
import { methodUndeclared } from './method-undeclared.ts';
import { operatingWavelengthUntested } from './operating-wavelength-untested.ts';
import { pairOrderBroken } from './pair-order-broken.ts';
import { polishMismatch } from './polish-mismatch.ts';
import { receiveCordMissing } from './receive-cord-missing.ts';
import { referencePowerImplausible } from './reference-power-implausible.ts';
import { applySilence, silenceRefused } from './silence.ts';
import { singleModeMultimodeJoint } from './single-mode-multimode-joint.ts';
import { tooFewFibres } from './too-few-fibres.ts';
import { uncertaintyMissing } from './uncertainty-missing.ts';
import { wavelengthPairWrong } from './wavelength-pair-wrong.ts';

export type { Check, Found, LinkContext, SetupContext } from './check.ts';
export type { Finding, FindingKind, PlacedEdit, PlacedFix } from './finding.ts';

/** In the order in which a page lists them: path, applications, set-up, readings, coverage. */
export const checks: readonly Check[] = [
  coreSizeMismatch,
  singleModeMultimodeJoint,
  categoryStep,
  limitsMissing,
  budgetOverLimit,
  pairOrderBroken,
  crossingNotSaid,
  tooFewFibres,
  operatingWavelengthUntested,
  methodUndeclared,
  receiveCordMissing,
  launchConditionMissing,
  referencePowerImplausible,
  cordFibreMismatch,
  cordConnectorMismatch,
  polishMismatch,
  wavelengthPairWrong,
  uncertaintyMissing,
  marginBelowWanted,
  silenceRefused,
];

const byName = new Map(checks.map((check) => [check.name, check]));

export function findCheck(name: string): Check | undefined {
  return byName.get(name);
}

/** What all checks say of one link or channel; answered doubts are left out. */
export function checkLink(context: LinkContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const check of checks) {
    if (!check.link) continue;
    for (const found of check.link(context)) findings.push(makeFinding(check, found, context.link.name));
  }
  return findings.length === 0 ? findings : applySilence(findings, context.link, context.settings);
}

/** What all checks say of one set-up. */
export function checkSetup(context: SetupContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const check of checks) {
    if (!check.setup) continue;
    for (const found of check.setup(context)) findings.push(makeFinding(check, found, context.setup.name));
  }
  return findings;
}
