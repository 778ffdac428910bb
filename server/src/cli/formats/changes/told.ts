/** Changes, broken rules and altered evidence, each at its place: what code hosts show beside the lines. */

import type { Severity } from '../../../../../grammar/src/tree.ts';
import type { Change, RuleBreach } from '../../../compare/types.ts';
import type { ChangeRow, EffectRow } from '../../../report/changes/view.ts';
import type { Told } from '../told.ts';
import { broken, type Compared, type ComparedPlan, placeOf, saidOf } from './compared.ts';

/** What asks for somebody comes first, then changes in their order. */
export function toldOf({ plans }: Compared): readonly Told[] {
  return plans.flatMap((plan) => [
    ...plan.comparison.breaches.map((breach) => breachTold(plan, breach)),
    ...alteredIn(plan),
    ...engineeringIn(plan),
  ]);
}

/** Evidence altered with no answer; errors. */
export function alteredIn(plan: ComparedPlan): readonly Told[] {
  const rows = rowsOf(plan);
  return plan.comparison.changes.flatMap((change, index): Told[] => {
    const { guard, subject, before, after } = change;
    const row = rows[index];
    if (!row || !guard || guard.answered !== undefined) return [];
    const message = `${sentence(row)} ${guard.message}${after ? '' : ` ${whereGone(plan)}`}`;
    return [
      {
        finding: { name: guard.finding, severity: 'error', message, about: subject },
        ...placeOf(plan, after, before),
      },
    ];
  });
}

export function breachTold(plan: ComparedPlan, { rule, message, at, stands }: RuleBreach): Told {
  const { after, before } = broken({ at, stands });
  return {
    finding: { name: ruleName(rule), severity: 'error', message, about: rule },
    ...placeOf(plan, after, before),
  };
}

/** What the names of changes and of broken rules mean, for formats that explain theirs. */
export function titlesOf({ plans }: Compared): ReadonlyMap<string, string> {
  return new Map(
    plans.flatMap((plan) => [
      ...rowsOf(plan).map((row) => [nameOf(row), `Changed: ${row.label}`] as const),
      ...plan.comparison.breaches.map(
        ({ rule }) =>
          [ruleName(rule), `Broken: the rule of the plan for its changes, ${rule}`] as const,
      ),
    ]),
  );
}

function ruleName(rule: string): string {
  return `rule-${rule.replaceAll(' ', '-')}`;
}

function engineeringIn(plan: ComparedPlan): readonly Told[] {
  const rows = rowsOf(plan);
  return plan.comparison.changes.flatMap((change, index): Told[] => {
    const row = rows[index];
    if (!row || change.kind === 'text' || (change.guard && change.guard.answered === undefined))
      return [];
    const gone = change.after ? '' : ` ${whereGone(plan)}`;
    return [
      {
        finding: {
          name: nameOf(row),
          severity: severityOf(change),
          message: `${sentence(row)}${gone}`,
          about: change.subject,
        },
        ...placeOf(plan, change.after, change.before),
      },
    ];
  });
}

function rowsOf(plan: ComparedPlan): readonly ChangeRow[] {
  return saidOf(plan).view.changes;
}

function nameOf({ kind }: ChangeRow): string {
  return `changed-${kind}`;
}

function severityOf({ movesVerdict }: Change): Severity {
  return movesVerdict ? 'warning' : 'note';
}

/** `Limits and basis, changed: fibre allowance of OM4 at 850 nm: was 3.5 dB/km, now 3.0 dB/km. …` */
export function sentence(row: ChangeRow): string {
  const { label, subject, notes, effects, shown, rest } = row;
  const values = valuesOf(row);
  const head = `${label[0]?.toUpperCase()}${label.slice(1)}: ${subject}${values ? `: ${values}` : ''}.`;
  const done = [...effects.slice(0, shown).map(effectWords), rest].filter(Boolean).join('; ');
  return [head, ...notes.map(ended), ...(done ? [`${done}.`] : [])].join(' ');
}

/** As a sentence of its own. */
function ended(note: string): string {
  const whole = /[.!?]$/u.test(note) ? note : `${note}.`;
  return `${whole[0]?.toUpperCase()}${whole.slice(1)}`;
}

/** `was 3.5 dB/km, now 3.0 dB/km`; of one side only that one. */
export function valuesOf({ was, now }: Pick<ChangeRow, 'was' | 'now'>): string {
  return [was === undefined ? '' : `was ${was}`, now === undefined ? '' : `now ${now}`]
    .filter(Boolean)
    .join(', ');
}

function effectWords({ spoken }: EffectRow): string {
  return spoken;
}

function whereGone({ comparison }: ComparedPlan): string {
  return `(It stood here in ${comparison.before.label}.)`;
}
