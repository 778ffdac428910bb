/** What a comparison says of a pair, as lines that a person reads beside the pair. */
import {
  compareDb,
  type ExactDb,
  printProse,
  subtractDb,
  toMetres,
  toNanometres,
  zeroDb,
} from '../../../grammar/src/quantity/index.ts';
import {
  type Comparison,
  compareTexts,
  type Effect,
  type StatePlace,
} from '../../../server/src/compare/index.ts';
import { parseInstant } from '../../../server/src/project/instant.ts';
import type { Pair } from './pair.ts';

/** By which both sides are judged. */
const asOf = parseInstant('2026-06-01 12:00')!;

const known = new Map<string, Comparison>();

export function compared({ before, after }: Pick<Pair, 'before' | 'after'>): Comparison {
  const key = JSON.stringify([before, after]);
  const told = known.get(key) ?? comparedNow(before, after);
  known.set(key, told);
  return told;
}

function comparedNow(before: string, after: string): Comparison {
  const side = (label: string, text: string) => ({ label, files: filesOf(text) });
  const [found, ...more] = compareTexts({
    before: side('before', before),
    after: side('after', after),
    asOf,
  });
  if (!found || more.length > 0) throw new Error('one plan is compared');
  return found.comparison;
}

/** A text that holds several files, each behind a line with its path. */
function filesOf(text: string): { path: string; text: string }[] {
  const [plan = '', ...others] = text.split(/^=== /mu);
  return [
    { path: 'plan.lwl', text: plan },
    ...others.map((other) => {
      const end = other.indexOf('\n');
      return { path: other.slice(0, end), text: other.slice(end + 1) };
    }),
  ];
}

/** Changed lines, then what is told of them, then what is told with the sides exchanged. */
export function toldOf({ title, before, after }: Pair): string {
  const forth = compared({ before, after });
  const back = compared({ before: after, after: before });
  return [
    `## ${title}`,
    ...changedLines(before, after),
    '',
    ...linesOf(forth),
    '',
    'the other way round:',
    ...linesOf(back),
    '',
  ].join('\n');
}

function changedLines(before: string, after: string): string[] {
  const [old, now] = [before.split('\n'), after.split('\n')];
  const only = (lines: readonly string[], others: readonly string[]) => {
    const left = new Map<string, number>();
    for (const line of others) left.set(line, (left.get(line) ?? 0) + 1);
    return lines.filter((line) => {
      const count = left.get(line) ?? 0;
      left.set(line, count - 1);
      return count <= 0 && line.trim() !== '';
    });
  };
  const [gone, fresh] = [only(old, now), only(now, old)];
  const most = 8;
  const some = (lines: readonly string[], sign: string) => [
    ...lines.slice(0, most).map((line) => `    ${sign} ${line.trimStart()}`),
    ...(lines.length > most ? [`    ${sign} … ${lines.length - most} more`] : []),
  ];
  return [...some(gone, '-'), ...some(fresh, '+')];
}

function linesOf(comparison: Comparison): string[] {
  const { changes, effects, matrix, retest, breaches, engineering } = comparison;
  const at = (place: StatePlace | undefined) => {
    if (!place) return undefined;
    const path = place.path === 'plan.lwl' ? '' : `${place.path} `;
    return `${path}line ${place.range.start.line + 1}`;
  };
  const moves = matrix.filter(({ before, after }) => before !== after);
  return [
    ...changes.flatMap((change, index) => {
      const values = [
        ...(change.was === undefined ? [] : [`was ${change.was}`]),
        ...(change.now === undefined ? [] : [`now ${change.now}`]),
      ].join(', ');
      const facts = [
        change.count > 1 ? `${change.count} lines` : undefined,
        at(change.after) ?? (change.before ? `${at(change.before)} before` : undefined),
        change.reach.length > 0 ? `reaches ${inShort(change.reach)}` : undefined,
        change.movesVerdict ? 'moves verdicts' : undefined,
      ].filter((fact) => fact !== undefined);
      return [
        `${index + 1}. ${change.kind}, ${change.form}: ${change.subject}${values ? `: ${values}` : ''}`,
        ...(change.note === undefined ? [] : [`   ${change.note}`]),
        ...(facts.length > 0 ? [`   (${facts.join('; ')})`] : []),
        ...(change.guard
          ? [
              `   guard ${change.guard.finding}: ${change.guard.message}${change.guard.answered === undefined ? '' : ` Answered: ${change.guard.answered}`}`,
            ]
          : []),
        ...grouped(change.effects).map((line) => `   → ${line}`),
      ];
    }),
    ...grouped(effects.filter(({ causes }) => causes.length === 0)).map(
      (line) => `without a cause: → ${line}`,
    ),
    ...(moves.length > 0
      ? [
          `verdicts: ${moves.map(({ before, after, count }) => `${count} ${before} → ${after}`).join(', ')}`,
        ]
      : []),
    ...(retest.length > 0
      ? [`to make again: ${retest.length}, first ${keyOf(retest[0]!.key)}: ${retest[0]!.because}`]
      : []),
    ...breaches.map(
      ({ rule, message, stands, at: where }) =>
        `rule ${rule} (${at(stands.after ?? stands.before) ?? 'nowhere'}, broken at ${at(where.after ?? where.before) ?? 'no line'}): ${message}`,
    ),
    engineering === 0
      ? 'no engineering change'
      : `${engineering} engineering ${engineering === 1 ? 'change' : 'changes'}`,
  ];
}

const inShort = (names: readonly string[]): string =>
  names.length > 3
    ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`
    : names.join(', ');

type Key = Extract<Effect, { kind: 'reading' }>['key'];

function keyOf({ object, fibre, quantity, wavelength, direction }: Key): string {
  return [
    object,
    fibre,
    `${toNanometres(wavelength)} nm`,
    direction,
    quantity === 'loss' ? undefined : quantity,
  ]
    .filter((part) => part !== undefined)
    .join(' ');
}

/** Effects of one object that go the same way as one line, with how far margins move. */
function grouped(effects: readonly Effect[]): string[] {
  const groups = new Map<string, Effect[]>();
  for (const effect of effects) {
    const key = `${effect.object}|${effect.kind}|${wayOf(effect)}`;
    const own = groups.get(key);
    if (own) own.push(effect);
    else groups.set(key, [effect]);
  }
  return [...groups.values()].map((own) => {
    const [first] = own;
    if (!first) return '';
    const name = first.formerly ? `${first.object} (was ${first.formerly})` : first.object;
    const count = own.length > 1 ? `${own.length} ${first.kind}s` : first.kind;
    const lead =
      first.kind === 'reading' ? `, first ${keyOf(first.key).replace(`${first.object} `, '')}` : '';
    return `${name}, ${count}${own.length > 1 ? lead : lead.replace(', first', '')}: ${wayOf(first)}${margins(own)}`;
  });
}

function wayOf(effect: Effect): string {
  switch (effect.kind) {
    case 'reading': {
      const said = (side: typeof effect.before) => {
        if (!side) return 'none';
        const attempt = side.attempt === null ? '' : ` (attempt ${side.attempt})`;
        const governing = side.governing === undefined ? '' : ` by ${side.governing}`;
        return `${side.verdict}${attempt}${governing}`;
      };
      return turn(said(effect.before), said(effect.after));
    }
    case 'object':
      return turn(objectSays(effect.before), objectSays(effect.after));
    case 'application':
      return `${effect.application}${effect.way ? ` to ${effect.way}` : ''} ${turn(supportSays(effect.before), supportSays(effect.after))}`;
    case 'design':
      return turn(effect.before ? 'by design' : undefined, effect.after ? 'by design' : undefined);
  }
}

type Side<Kind extends Effect['kind']> = Extract<Effect, { kind: Kind }>['before'];

function objectSays(side: Side<'object'>): string | undefined {
  if (!side) return undefined;
  const accepted = side.accepted ? ', accepted' : '';
  const length = side.length === undefined ? '' : `, ${toMetres(side.length)} m`;
  return `${side.verdict}${accepted}, ${side.present} of ${side.expected}${length}`;
}

function supportSays(side: Side<'application'>): string | undefined {
  if (!side) return undefined;
  const power = side.powerMargin === undefined ? '' : `, power ${printProse(side.powerMargin)}`;
  const over =
    side.overloadMargin === undefined ? '' : `, overload ${printProse(side.overloadMargin)}`;
  return `${side.support}${power}${over}`;
}

function turn(was: string | undefined, now: string | undefined): string {
  if (was === now) return was ?? '';
  if (was === undefined) return `new: ${now}`;
  return now === undefined ? `gone: ${was}` : `${was} → ${now}`;
}

/** How far margins move, and where a single one stands. */
function margins(effects: readonly Effect[]): string {
  const moved = effects.flatMap((effect) => {
    if (effect.kind !== 'reading' && effect.kind !== 'design') return [];
    const [was, now] = [effect.before?.margin, effect.after?.margin];
    return was === undefined && now === undefined ? [] : [{ was, now }];
  });
  const [first] = moved;
  if (!first) return '';
  if (moved.length === 1) {
    const said = (value: ExactDb | undefined) => (value === undefined ? 'none' : printProse(value));
    return first.was === first.now
      ? `, margin ${said(first.was)}`
      : `, margin ${said(first.was)} → ${said(first.now)}`;
  }
  const by = moved.flatMap(({ was, now }) =>
    was === undefined || now === undefined ? [] : [subtractDb(now, was)],
  );
  if (by.length === 0) {
    const now = moved.flatMap((each) => each.now ?? each.was ?? []);
    const worst = now.reduce((a, b) => (compareDb(a, b) <= 0 ? a : b), now[0] ?? zeroDb);
    return `, least margin ${printProse(worst)}`;
  }
  const least = by.reduce((a, b) => (compareDb(a, b) <= 0 ? a : b));
  const most = by.reduce((a, b) => (compareDb(a, b) >= 0 ? a : b));
  if (least === zeroDb && most === zeroDb) return '';
  return least === most
    ? `, margins by ${printProse(least)}`
    : `, margins by ${printProse(least)} to ${printProse(most)}`;
}
