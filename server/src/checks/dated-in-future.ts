import { isLater } from '../evaluate/until-now.ts';
import type { Place, When } from '../model/types.ts';
import type { Check, Found, LinkContext } from './check.ts';
import {
  example,
  multimodeLink,
  multimodePlan,
  multimodeReadings,
  multimodeSetup,
} from './examples.ts';

interface Dated {
  readonly what: string;
  readonly when: When;
  readonly place: Place;
  readonly effect: string;
}

const notYet = 'It does not count yet.';

/** Work, decisions and what was seen, dated after the instant of judgement: once for each block they stand in. */
function* find({ evidence, asOf }: LinkContext): Iterable<Found> {
  const told = new Set<string>();
  for (const { what, when, place, effect } of datedOf(evidence)) {
    const key = `${what} ${place.block}`;
    if (!isLater(when, asOf) || told.has(key)) continue;
    told.add(key);
    yield {
      place,
      message: `${what} is dated ${when.text}, later than the time of judgement. ${effect} Look at the year and the day, and at the zone of the plan.`,
      details: { what, dated: when.text },
    };
  }
}

function datedOf(evidence: LinkContext['evidence']): readonly Dated[] {
  const seen = (what: string, cells: readonly { readonly at: When }[]) =>
    cells.map(({ at }): Dated => ({ what, when: at, place: at.place, effect: notYet }));
  const decided = (what: string, decisions: readonly { readonly on?: When }[]) =>
    decisions.flatMap(({ on }): readonly Dated[] =>
      on ? [{ what, when: on, place: on.place, effect: notYet }] : [],
    );
  return [
    ...evidence.work.map(
      ({ on }): Dated => ({
        what: 'Work',
        when: on,
        place: on.place,
        effect: 'It ages all earlier readings of what it touches all the same.',
      }),
    ),
    ...decided('A withdrawal', evidence.withdrawals),
    ...decided('A concession', evidence.concessions),
    ...seen('A trace', evidence.events),
    ...seen('An inspection', evidence.inspections),
    ...seen(
      'A measured length',
      evidence.lengths.filter(({ from }) => from !== 'reading'),
    ),
  ];
}

const plan = (day: string) =>
  example(
    multimodePlan,
    multimodeLink,
    multimodeSetup,
    multimodeReadings('1  2.31  0.84', '2  1.08  0.80'),
    `concession KQ-1 {
  fibres      1
  accepted    2.40 dB
  because     "spare fibre, rework booked"
  by          "M. Ashdown" on ${day}
}
`,
  );

export const datedInFuture: Check = {
  name: 'dated-in-future',
  kind: 'doubt',
  severity: 'warning',
  title: 'Work or a decision is dated later than now',
  explanation:
    'Nobody cleaned, withdrew, conceded or looked tomorrow. Until its day comes such a decision does not count; work ages what came before it all the same, for a mistyped year must never make an old reading count for more. Most often the year is wrong.',
  source: 'Our own rule: a date after the instant of judgement is an impossible value.',
  bad: plan('2062-03-20'),
  good: plan('2026-03-20'),
  link: find,
};
