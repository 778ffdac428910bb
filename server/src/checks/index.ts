import type { LinkModel } from '../model/types.ts';
import { bendOnTrace } from './bend-on-trace.ts';
import { endFaceFails } from './end-face-fails.ts';
import { endFaceNotSeenAgain } from './end-face-not-seen-again.ts';
import { endFacePoor } from './end-face-poor.ts';
import { endPairUnseen } from './end-pair-unseen.ts';
import { eventBeyondRange } from './event-beyond-range.ts';
import { eventImpossible } from './event-impossible.ts';
import { eventUnexplained } from './event-unexplained.ts';
import { evidenceAged } from './evidence-aged.ts';
import { indexConverted } from './index-converted.ts';
import { inspectionMissing } from './inspection-missing.ts';
import { jointOverLimit } from './joint-over-limit.ts';
import { lengthDiffers } from './length-differs.ts';
import { lengthUnmeasured } from './length-unmeasured.ts';
import { measuredTwice } from './measured-twice.ts';
import { portUnseen } from './port-unseen.ts';
import { pulseTooLong } from './pulse-too-long.ts';
import { reflectometerMissing } from './reflectometer-missing.ts';
import { returnLossLow } from './return-loss-low.ts';
import { spliceGain } from './splice-gain.ts';
import { spliceOneWay } from './splice-one-way.ts';
import { spliceOverObjective } from './splice-over-objective.ts';
import { traceMissing } from './trace-missing.ts';
/** All checks, and how they are asked: about one link or channel, and about one set-up. */

import { allFibresDead } from './all-fibres-dead.ts';
import { applicationFibreUnsuited } from './application-fibre-unsuited.ts';
import { applicationFigureMissing } from './application-figure-missing.ts';
import { applicationLossExceeded } from './application-loss-exceeded.ts';
import { applicationLossTooLow } from './application-loss-too-low.ts';
import { arithmeticMismatch } from './arithmetic-mismatch.ts';
import { arrivesAtWrongPair } from './arrives-at-wrong-pair.ts';
import { attenuatorImpossible } from './attenuator-impossible.ts';
import { batchOverLimit } from './batch-over-limit.ts';
import { batchTooHigh } from './batch-too-high.ts';
import { batchTooLow } from './batch-too-low.ts';
import { bendNotExcluded } from './bend-not-excluded.ts';
import { bendOrSwapMm } from './bend-or-swap-mm.ts';
import { bendSignatureSm } from './bend-signature-sm.ts';
import { budgetOverLimit } from './budget-over-limit.ts';
import { budgetThinMargin } from './budget-thin-margin.ts';
import { calibrationExpired } from './calibration-expired.ts';
import { categoryStep } from './category-step.ts';
import {
  type CableContext,
  type Check,
  type DeclaredContext,
  type Found,
  type LinkContext,
  makeFinding,
  type PlanContext,
  type SetupContext,
} from './check.ts';
import { closingCheckMissing } from './closing-check-missing.ts';
import { comesOutElsewhere } from './comes-out-elsewhere.ts';
import { componentFigureMissing } from './component-figure-missing.ts';
import { concessionSpent } from './concession-spent.ts';
import { connectorsDoNotFit } from './connectors-do-not-fit.ts';
import { cordConnectorMismatch } from './cord-connector-mismatch.ts';
import { cordFibreMismatch } from './cord-fibre-mismatch.ts';
import { cordGradeMissing } from './cord-grade-missing.ts';
import { cordNotVerified } from './cord-not-verified.ts';
import { cordOutOfSpec } from './cord-out-of-spec.ts';
import { cordPolishMismatch } from './cord-polish-mismatch.ts';
import { cordWears } from './cord-wears.ts';
import { coreSizeMismatch } from './core-size-mismatch.ts';
import { criterionOfOtherFace } from './criterion-of-other-face.ts';
import { crossingNotSaid } from './crossing-not-said.ts';
import { datedInFuture } from './dated-in-future.ts';
import { degradedSinceBaseline } from './degraded-since-baseline.ts';
import { differentialExceeded } from './differential-exceeded.ts';
import { directionAsymmetry } from './direction-asymmetry.ts';
import { directionFake } from './direction-fake.ts';
import { directionsExchanged } from './directions-exchanged.ts';
import { dispersionExceeded } from './dispersion-exceeded.ts';
import { dispersionNotKnown } from './dispersion-not-known.ts';
import { driftWhileTesting } from './drift-while-testing.ts';
import { excessConceded } from './excess-conceded.ts';
import { failureLeftOpen } from './failure-left-open.ts';
import { fibreNotInPlan } from './fibre-not-in-plan.ts';
import type { Finding } from './finding.ts';
import { groupIndexMissing } from './group-index-missing.ts';
import { jacketOfOtherFibre } from './jacket-of-other-fibre.ts';
import { jointSignature } from './joint-signature.ts';
import { keysContradictMap } from './keys-contradict-map.ts';
import { lanesOutOfOrder } from './lanes-out-of-order.ts';
import { launchConditionMissing } from './launch-condition-missing.ts';
import { lengthAgainstLoss } from './length-against-loss.ts';
import { lengthSuspect } from './length-suspect.ts';
import { levelChanges } from './level-changes.ts';
import { limitMissing } from './limit-missing.ts';
import { limitSourceMissing } from './limit-source-missing.ts';
import { limitWeakerThanStandard } from './limit-weaker-than-standard.ts';
import { limitsMissing } from './limits-missing.ts';
import { linkCrossedTwice } from './link-crossed-twice.ts';
import { lossNegative } from './loss-negative.ts';
import { lossSlightlyNegative } from './loss-slightly-negative.ts';
import { lossTooGood } from './loss-too-good.ts';
import { mandrelNotSaid } from './mandrel-not-said.ts';
import { mandrelSizeWrong } from './mandrel-size-wrong.ts';
import { marginBelowWanted } from './margin-below-wanted.ts';
import { marginalFail } from './marginal-fail.ts';
import { marginalPass } from './marginal-pass.ts';
import { methodLimitMismatch } from './method-limit-mismatch.ts';
import { methodUndeclared } from './method-undeclared.ts';
import { methodUnsuitedToEnds } from './method-unsuited-to-ends.ts';
import { mixedUnits } from './mixed-units.ts';
import { modeConditioningNeeded } from './mode-conditioning-needed.ts';
import { notRepeatable } from './not-repeatable.ts';
import { numbersShifted } from './numbers-shifted.ts';
import { operatingWavelengthUntested } from './operating-wavelength-untested.ts';
import { overLimit } from './over-limit.ts';
import { pairOrderBroken } from './pair-order-broken.ts';
import { pairParted } from './pair-parted.ts';
import { passButOutlier } from './pass-but-outlier.ts';
import { pinsDoNotMate } from './pins-do-not-mate.ts';
import { powerBelowFloor } from './power-below-floor.ts';
import { powerBudgetNegative } from './power-budget-negative.ts';
import { powerMarginThin } from './power-margin-thin.ts';
import { protectionNotDiverse } from './protection-not-diverse.ts';
import { reachExceeded } from './reach-exceeded.ts';
import { readingBeforeRepairMissing } from './reading-before-repair-missing.ts';
import { readingInFuture } from './reading-in-future.ts';
import { readingsMissing } from './readings-missing.ts';
import { receiveCordMissing } from './receive-cord-missing.ts';
import { receiverDamage } from './receiver-damage.ts';
import { receiverOverload } from './receiver-overload.ts';
import { referenceDisturbed } from './reference-disturbed.ts';
import { referenceDrift } from './reference-drift.ts';
import { referenceExpired } from './reference-expired.ts';
import { referenceMissing } from './reference-missing.ts';
import { referenceNotSaid } from './reference-not-said.ts';
import { referencePowerImplausible } from './reference-power-implausible.ts';
import { referenceSuspect } from './reference-suspect.ts';
import { referencesAlike } from './references-alike.ts';
import { reflectanceNotJudged } from './reflectance-not-judged.ts';
import { reflectancePositive } from './reflectance-positive.ts';
import { repairReserveUsedUp } from './repair-reserve-used-up.ts';
import { resolutionSuspect } from './resolution-suspect.ts';
import { retestWorse } from './retest-worse.ts';
import { revisionMissing } from './revision-missing.ts';
import { riseAfterRepair } from './rise-after-repair.ts';
import { rowsRepeated } from './rows-repeated.ts';
import { setUpsClaimOneReading } from './set-ups-claim-one-reading.ts';
import { signSuspect } from './sign-suspect.ts';
import { silenceRefused, silenceUnknown, unanswered } from './silence.ts';
import { singleModeMultimodeJoint } from './single-mode-multimode-joint.ts';
import { slackMissing } from './slack-missing.ts';
import { sourceWavelengthDiffers } from './source-wavelength-differs.ts';
import { sparesBelowWanted } from './spares-below-wanted.ts';
import { staleReading } from './stale-reading.ts';
import { strongLight } from './strong-light.ts';
import { testerUnnamed } from './tester-unnamed.ts';
import { tooFewFibres } from './too-few-fibres.ts';
import { tooManyRetests } from './too-many-retests.ts';
import { traceFileMissing } from './trace-file-missing.ts';
import { transceiverMismatch } from './transceiver-mismatch.ts';
import { uncertaintyMissing } from './uncertainty-missing.ts';
import { unitSuspect } from './unit-suspect.ts';
import { unknownLength } from './unknown-length.ts';
import { wavelengthPairWrong } from './wavelength-pair-wrong.ts';
import { wavelengthShared } from './wavelength-shared.ts';
import { wavelengthsExchanged } from './wavelengths-exchanged.ts';
import { wrongPair } from './wrong-pair.ts';

export type {
  CableContext,
  Check,
  DeclaredContext,
  Found,
  LinkContext,
  PlanContext,
  SetupContext,
} from './check.ts';
export {
  blocksAcceptance,
  type Finding,
  type FindingKind,
  type PlacedEdit,
  type PlacedFix,
} from './finding.ts';
export { checkSilence, unanswered, unansweredInPlace } from './silence.ts';

/** In the order in which a page lists them: path, applications, set-up, readings, coverage. */
export const checks: readonly Check[] = [
  coreSizeMismatch,
  singleModeMultimodeJoint,
  categoryStep,
  unknownLength,
  lengthSuspect,
  mixedUnits,
  allFibresDead,
  limitsMissing,
  referenceNotSaid,
  limitMissing,
  limitSourceMissing,
  limitWeakerThanStandard,
  budgetOverLimit,
  budgetThinMargin,
  reachExceeded,
  applicationFibreUnsuited,
  applicationFigureMissing,
  applicationLossExceeded,
  applicationLossTooLow,
  differentialExceeded,
  tooFewFibres,
  modeConditioningNeeded,
  transceiverMismatch,
  powerBudgetNegative,
  powerMarginThin,
  receiverOverload,
  receiverDamage,
  attenuatorImpossible,
  strongLight,
  dispersionExceeded,
  dispersionNotKnown,
  operatingWavelengthUntested,
  sparesBelowWanted,
  slackMissing,
  jacketOfOtherFibre,
  protectionNotDiverse,
  connectorsDoNotFit,
  pinsDoNotMate,
  keysContradictMap,
  pairOrderBroken,
  arrivesAtWrongPair,
  pairParted,
  lanesOutOfOrder,
  comesOutElsewhere,
  crossingNotSaid,
  linkCrossedTwice,
  wavelengthShared,
  componentFigureMissing,
  methodUndeclared,
  methodUnsuitedToEnds,
  receiveCordMissing,
  launchConditionMissing,
  mandrelSizeWrong,
  mandrelNotSaid,
  referencePowerImplausible,
  referencesAlike,
  sourceWavelengthDiffers,
  cordConnectorMismatch,
  cordFibreMismatch,
  cordPolishMismatch,
  cordGradeMissing,
  cordNotVerified,
  cordOutOfSpec,
  cordWears,
  calibrationExpired,
  testerUnnamed,
  readingInFuture,
  datedInFuture,
  setUpsClaimOneReading,
  referenceMissing,
  referenceExpired,
  referenceDrift,
  referenceDisturbed,
  referenceSuspect,
  closingCheckMissing,
  methodLimitMismatch,
  wavelengthPairWrong,
  uncertaintyMissing,
  revisionMissing,
  unitSuspect,
  signSuspect,
  arithmeticMismatch,
  resolutionSuspect,
  lossNegative,
  lossSlightlyNegative,
  lossTooGood,
  powerBelowFloor,
  overLimit,
  marginalFail,
  marginalPass,
  marginBelowWanted,
  passButOutlier,
  notRepeatable,
  retestWorse,
  degradedSinceBaseline,
  tooManyRetests,
  failureLeftOpen,
  directionAsymmetry,
  directionFake,
  wavelengthsExchanged,
  directionsExchanged,
  batchTooLow,
  batchTooHigh,
  levelChanges,
  driftWhileTesting,
  rowsRepeated,
  numbersShifted,
  bendSignatureSm,
  bendNotExcluded,
  bendOrSwapMm,
  lengthAgainstLoss,
  jointSignature,
  batchOverLimit,
  riseAfterRepair,
  readingBeforeRepairMissing,
  repairReserveUsedUp,
  staleReading,
  excessConceded,
  concessionSpent,
  jointOverLimit,
  spliceOverObjective,
  spliceGain,
  spliceOneWay,
  eventImpossible,
  eventUnexplained,
  bendOnTrace,
  returnLossLow,
  reflectancePositive,
  reflectanceNotJudged,
  lengthDiffers,
  indexConverted,
  groupIndexMissing,
  reflectometerMissing,
  measuredTwice,
  evidenceAged,
  endFaceFails,
  endFacePoor,
  criterionOfOtherFace,
  endFaceNotSeenAgain,
  inspectionMissing,
  traceMissing,
  traceFileMissing,
  lengthUnmeasured,
  portUnseen,
  wrongPair,
  endPairUnseen,
  eventBeyondRange,
  pulseTooLong,
  fibreNotInPlan,
  readingsMissing,
  silenceRefused,
  silenceUnknown,
];

/** Those that ask something of each link, and of each declaration: a large plan asks them thousands of times. */
const ofLinks = checks.flatMap(({ link, ...check }) => (link ? [{ ...check, link }] : []));
const ofDeclarations = checks.filter(({ declared }) => declared);

const byName = new Map(checks.map((check) => [check.name, check]));

export function findCheck(name: string): Check | undefined {
  return byName.get(name);
}

/**
 * What all checks say of one link or channel; answered doubts are left out. While a line
 * of it is not read, that is the one mistake: doubts wait until the whole path is known.
 */
export function checkLink(context: LinkContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const check of ofLinks) {
    if (context.link.unread && needsWholePath(check)) continue;
    for (const found of check.link(context))
      if (!concernsUnread(found, context))
        findings.push(makeFinding(check, withCopied(found, context.link), context.link.name));
  }
  return unanswered(findings, [...context.link.silence, ...context.settings.silence]);
}

/** Doubts, and what is said of the way that light takes; what stands in evidence is said all the same. */
function needsWholePath({ kind, name }: Check): boolean {
  return kind !== 'contradiction' || ofTheWay.has(name);
}

const ofTheWay: ReadonlySet<string> = new Set(
  [
    arrivesAtWrongPair,
    comesOutElsewhere,
    connectorsDoNotFit,
    cordFibreMismatch,
    cordPolishMismatch,
    lanesOutOfOrder,
    pairOrderBroken,
    pairParted,
    pinsDoNotMate,
    wrongPair,
  ].map(({ name }) => name),
);

/** What a set-up lacks may stand in the line that could not be read. */
function concernsUnread({ details }: Found, context: LinkContext): boolean {
  return typeof details?.setup === 'string' && context.setup(details.setup)?.unread === true;
}

/** What is found of something carried by likeness lies at the line that says so: the line it copies stands beside it. */
function withCopied(found: Found, { terms }: LinkModel): Found {
  const copied = terms.carries.filter(
    ({ name, place, copied }) =>
      copied !== undefined &&
      place.block === found.place.block &&
      place.span.start === found.place.span.start &&
      (found.details?.application ?? name) === name,
  );
  if (copied.length === 0) return found;
  const related = copied.map((one) => ({
    place: one.copied!,
    message: `${one.name} is copied from here.`,
  }));
  return { ...found, related: [...(found.related ?? []), ...related] };
}

/** What all checks say of one cable. */
export function checkCable(context: CableContext): readonly Finding[] {
  return checks.flatMap((check) =>
    [...(check.cable?.(context) ?? [])].map((found) =>
      makeFinding(check, found, context.cable.name),
    ),
  );
}

/** What all checks say of the lines of one declaration. */
export function checkDeclared(context: DeclaredContext): readonly Finding[] {
  return ofDeclarations.flatMap((check) =>
    [...(check.declared?.(context) ?? [])].map((found) =>
      makeFinding(check, found, context.declaration.name),
    ),
  );
}

/** What all checks say of the plan itself. */
export function checkPlanSettings(context: PlanContext): readonly Finding[] {
  return checks.flatMap((check) =>
    [...(check.plan?.(context) ?? [])].map((found) => makeFinding(check, found, 'plan')),
  );
}

/** What all checks say of one set-up; nothing while a line of it is not read. */
export function checkSetup(context: SetupContext): readonly Finding[] {
  const findings: Finding[] = [];
  if (context.setup.unread) return findings;
  for (const check of checks) {
    if (!check.setup) continue;
    for (const found of check.setup(context))
      findings.push(makeFinding(check, found, context.setup.name));
  }
  return findings;
}
