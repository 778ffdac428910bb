/** What the plan says of itself: who, where, how doubtful readings are and how they are decided. */
import { microDb } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import type { Scope } from './scope.ts';
import { silencesOf } from './terms.ts';
import type { DecisionRule, PairPolicy, PlanSettings } from './types.ts';
import {
  dayOf,
  has,
  lossOf,
  minutesOf,
  nameOf,
  namesOf,
  placeOf,
  shareOf,
  wavelengthOf,
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
