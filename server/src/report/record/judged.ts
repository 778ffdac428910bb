/** How a plan was tested and judged, as labels and values: limits with their editions, methods, uncertainty, decision, who answers for figures. */
import { microToNumber } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult } from '../../evaluate/result.ts';
import type { LimitsSet, PlanSettings } from '../../model/types.ts';
import { listed, wavelength } from '../figures.ts';
import type { Documented } from '../paper/plan.ts';

export type LabelledValue = readonly [label: string, value: string | undefined];

export function resultsIn({ plan }: Documented): readonly LinkResult[] {
  return plan.result.order.flatMap((name) => plan.result.link(name) ?? []);
}

export function judgedBy(subject: Documented): readonly LabelledValue[] {
  const { settings } = subject.plan;
  const results = resultsIn(subject);
  const sets = distinct(results.flatMap(({ link }) => link.terms.limits));
  const beside = distinct(results.flatMap(({ link }) => link.terms.compare)).filter(
    (set) => !sets.includes(set),
  );
  const carried = distinct(
    results.flatMap(({ link }) => link.terms.carries.map(({ name }) => name)),
  );
  return [
    ...sets.map((set): LabelledValue => ['Limits in force', setInWords(set)]),
    ...beside.map((set): LabelledValue => ['Compared only', setInWords(set)]),
    ['Applications', listed(carried)],
    [
      'Governing',
      'the smallest limit of components, application and contract, each brought to what was read; every figure with its source stands at its link',
    ],
    ['Reference', listed(distinct(results.flatMap(({ link }) => link.terms.reference ?? [])))],
    ['Method in use', listed(distinct(results.flatMap(methodsOf)))],
    ['Directions', listed(distinct(results.map(directionsOf)))],
    ['Uncertainty', uncertaintyOf(settings)],
    ['Decision', decisionOf(settings)],
    ['Drift allowed', driftOf(settings)],
    ...adoptedBy(settings).map((words): LabelledValue => ['Adopted figures', words]),
  ];
}

/** Names that a person answers for, once for each person and day. */
function adoptedBy({ adopt }: PlanSettings): readonly string[] {
  const people = new Map<string, string[]>();
  for (const { name, by, on } of adopt) {
    const who = `by ${by}${on ? ` on ${on}` : ''}`;
    people.set(who, [...(people.get(who) ?? []), name]);
  }
  return [...people].map(([who, names]) => `${listed(names)}, ${who}`);
}

function distinct<T>(values: readonly T[]): readonly T[] {
  return [...new Set(values)];
}

function setInWords({ name, edition, contract, basis }: LimitsSet): string {
  const sources = distinct(
    basis.map(({ text, trust }) => (trust === 'recalled' ? `${text} (from memory)` : text)),
  );
  return [name, edition, contract ? 'a contract’s own' : '', sources.slice(0, 4).join('; ')]
    .filter(Boolean)
    .join(', ');
}

function methodsOf({ readings }: LinkResult): readonly string[] {
  return readings.flatMap(({ current, method }) =>
    current && method ? [`${method} reference`] : [],
  );
}

function directionsOf({ link: { terms } }: LinkResult): string {
  const { wanted, average } = terms.directions;
  if (average) return 'both, their mean judged';
  return wanted.length === 2 ? 'both, each judged alone' : (wanted[0] ?? '');
}

function uncertaintyOf({ uncertainty }: PlanSettings): string {
  const lines = uncertainty.map(({ loss, wavelength: at, method, for: of }) =>
    [
      `${microToNumber(loss)} dB`,
      at === undefined ? '' : `at ${wavelength(at)}`,
      method,
      of && `for ${of}`,
    ]
      .filter(Boolean)
      .join(' '),
  );
  return lines.length === 0
    ? 'none said: taken as zero'
    : `${lines.join('; ')}, expanded, k = 2; it moves no limit`;
}

function decisionOf({ decision: { rule, accepting, rounded } }: PlanSettings): string {
  return [
    rule,
    accepting === 'none' ? 'no marginal result accepted' : `accepting up to ${accepting}`,
    rounded === undefined
      ? 'limits never rounded before comparing'
      : `limits rounded to ${microToNumber(rounded)} dB first, half up`,
  ].join(', ');
}

function driftOf({ drift }: PlanSettings): string {
  return [
    `${microToNumber(drift.loss)} dB from the reference`,
    drift.expiry === undefined
      ? 'a reference holds until the end of its day'
      : `a reference holds ${drift.expiry / 60} h`,
    drift.closing ? 'a last check is required' : '',
    drift.widening ? 'uncertainty grows by a drift within it' : '',
  ]
    .filter(Boolean)
    .join(', ');
}
