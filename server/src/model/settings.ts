/** What the plan says of itself: who, where, how doubtful readings are and how they are decided. */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { microDb } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { PlacedEntry, Scope } from './scope.ts';
import { silencesOf } from './terms.ts';
import type { ChangeRule, DecisionRule, DoubtSettings, PairPolicy, PlanSettings } from './types.ts';
import {
  dayOf,
  has,
  lengthOf,
  lossOf,
  minutesOf,
  nameOf,
  namesOf,
  placeIn,
  placeOf,
  shareOf,
  wavelengthOf,
  wholeOf,
} from './values.ts';

/** A drift check may differ from its reference by this where the plan says nothing: 0.10 dB. */
const DRIFT_IF_NOT_SAID = microDb(100_000);

export function planSettings(scope: Scope): PlanSettings {
  const first = (word: string) => scope.plan(word)[0];
  const head = first(W.plan);
  const revision = first(W.revision)?.entry.slots;
  const revisionText = nameOf(revision?.name);
  const decision = first(W.decision)?.entry.slots;
  const drift = first(W.drift)?.entry;
  return {
    title: nameOf(head?.entry.slots.title),
    client: nameOf(first(W.client)?.entry.slots.name),
    site: nameOf(first(W.site)?.entry.slots.name),
    revision:
      revisionText === undefined ? undefined : { text: revisionText, on: dayOf(revision?.[K.on]) },
    zone: nameOf(first(W.zone)?.entry.slots.zone),
    uncertainty: scope.plan(W.uncertainty).flatMap((line) => {
      const { slots } = line.entry;
      const loss = lossOf(slots.loss);
      if (loss === undefined) return [];
      return [
        {
          loss,
          wavelength: wavelengthOf(slots.wavelength),
          method: nameOf(slots.method),
          repeatable: lossOf(slots[K.repeatable]),
          for: nameOf(slots[K.for]),
          place: placeOf(line),
        },
      ];
    }),
    decision: {
      rule: (nameOf(decision?.rule) ?? C.flagged) as DecisionRule,
      accepting: (nameOf(decision?.[K.accepting]) ??
        C.marginalPass) as PlanSettings['decision']['accepting'],
      rounded: lossOf(decision?.[K.rounded]),
    },
    policy: nameOf(first(W.policy)?.entry.slots.policy) as PairPolicy | undefined,
    drift: {
      loss: lossOf(drift?.slots.loss) ?? DRIFT_IF_NOT_SAID,
      expiry: minutesOf(drift?.slots[K.expiry]),
      extended: drift ? has(drift, K.extended) : false,
      closing: drift ? has(drift, K.closing) : false,
      widening: drift ? has(drift, K.widening) : false,
    },
    doubts: doubtSettings(first(W.doubts)?.entry.body?.entries ?? []),
    changes: changeRules(scope.plan(W.changes)[0]),
    percentile: shareOf(first(W.percentile)?.entry.slots.share),
    adopt: scope.plan(W.adopt).flatMap(({ entry }) => {
      const by = nameOf(entry.slots[K.by]);
      if (by === undefined) return [];
      const on = dayOf(entry.slots[K.on]);
      return namesOf(entry.slots.name).map((name) => ({ name, by, on }));
    }),
    silence: silencesOf(scope.plan(W.silence)),
    spares: shareOf(first(W.spares)?.entry.slots.share),
    identify: scope.plan(W.identify).flatMap((line) => {
      const kind = nameOf(line.entry.slots.what);
      const form = nameOf(line.entry.slots.shape);
      if (kind === undefined || form === undefined) return [];
      return [
        { kind: kind as PlanSettings['identify'][number]['kind'], form, place: placeOf(line) },
      ];
    }),
    place: head && placeOf(head),
  };
}

/** Rules that can be read; what cannot is a finding at its place and asks nothing. */
function changeRules(head: PlacedEntry | undefined): readonly ChangeRule[] {
  return (head?.entry.body?.entries ?? []).flatMap((entry): ChangeRule[] => {
    const place = placeIn(head!.block, entry.span);
    switch (entry.word) {
      case W.margin: {
        const least = lossOf(entry.slots.loss);
        return least === undefined ? [] : [{ rule: W.margin, least, place }];
      }
      case W.signed: {
        const by = namesOf(entry.slots.by);
        return by.length === 0 ? [] : [{ rule: W.signed, by, place }];
      }
      case W.noWorse:
      case W.sameLimits:
      case W.unedited:
      case W.retested:
        return [{ rule: entry.word, place }];
      default:
        return [];
    }
  });
}

function doubtSettings(entries: readonly BoundEntry[]): DoubtSettings {
  const slotsOf = (word: string) => entries.find((entry) => entry.word === word)?.slots;
  const outlier = slotsOf(W.outlier);
  const bend = slotsOf(W.bend);
  const tooHigh = slotsOf(W.tooHigh);
  const tooLow = slotsOf(W.tooLow);
  const course = slotsOf(W.course);
  const exchanged = slotsOf(W.exchanged);
  const length = slotsOf(W.length);
  return {
    outlier: lossOf(outlier?.loss),
    outlierMates: wholeOf(outlier?.[K.mates]),
    asymmetry: lossOf(slotsOf(W.asymmetry)?.loss),
    copied: wholeOf(slotsOf(W.copied)?.fibres),
    bend: lossOf(bend?.loss),
    bendOfSlope: shareOf(bend?.[K.slope]),
    inversion: lossOf(slotsOf(W.inversion)?.loss),
    joint: lossOf(slotsOf(W.joint)?.loss),
    tooHigh: lossOf(tooHigh?.loss),
    highOfFibre: shareOf(tooHigh?.[K.length]),
    leastOfPair: shareOf(tooLow?.pair),
    leastOfFibre: shareOf(tooLow?.[K.length]),
    course: lossOf(course?.loss),
    courseMates: wholeOf(course?.[K.mates]),
    exchanged: shareOf(exchanged?.share),
    exchangedMates: wholeOf(exchanged?.[K.mates]),
    repeated: wholeOf(slotsOf(W.repeated)?.rows),
    numbered: wholeOf(slotsOf(W.numbered)?.fibres),
    lengthShare: shareOf(length?.share),
    lengthLeast: lengthOf(length?.least),
  };
}
