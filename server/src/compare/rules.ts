/**
 * The rules of a plan for its changes, held against one comparison: those of the
 * new state, and those of the old one that it took away or made weaker, which is
 * itself told. One breach for each rule and thing that breaks it.
 */
import { compareDb, type ExactDb, exactDb, zeroDb } from '../../../grammar/src/quantity/index.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { fibresInWords, inDb, inNm, microInDb } from '../checks/figures.ts';
import type { Verdict } from '../evaluate/result.ts';
import type { ChangeRule } from '../model/types.ts';
import { newAnswers } from './answers.ts';
import type {
  Change,
  Comparison,
  Effect,
  EitherPlace,
  PlanState,
  ReadingKey,
  RuleBreach,
  StatePlace,
} from './types.ts';

export type Told = Pick<Comparison, 'changes' | 'effects' | 'retest'>;

/** Every breach, rules in order of the new text, then what the new state took away. */
export function ruleBreaches(
  told: Told,
  before: PlanState,
  after: PlanState,
): readonly RuleBreach[] {
  const rules = firstOfEach(after.settings.changes);
  const old = firstOfEach(before.settings.changes);
  const held = rules.map((rule) => ({ rule: asStrictAs(rule, old), state: after }));
  const gone = old.filter((rule) => !rules.some((other) => other.rule === rule.rule));
  return [
    ...held.flatMap(({ rule, state }) => breachesOf(rule, state, told, before, after)),
    ...gone.flatMap((rule) => breachesOf(rule, before, told, before, after)),
    ...rules.flatMap((rule) => weakened(rule, old, after)),
    ...gone.map((rule) => takenAway(rule, before)),
  ];
}

type Found = Pick<RuleBreach, 'message' | 'at'>;

function breachesOf(
  rule: ChangeRule,
  from: PlanState,
  told: Told,
  before: PlanState,
  after: PlanState,
): RuleBreach[] {
  const stands =
    from === before ? inOld(before.locate(rule.place)) : inNew(after.locate(rule.place));
  return foundBy(rule, told, before, after).map((found) => ({
    rule: rule.rule,
    ...found,
    stands,
  }));
}

function foundBy(rule: ChangeRule, told: Told, before: PlanState, after: PlanState): Found[] {
  switch (rule.rule) {
    case W.margin:
      return marginsBelow(exactDb(rule.least), told.effects, after);
    case W.noWorse:
      return worse(told.effects, after);
    case W.signed:
      return unsigned(rule.by, before, after);
    case W.sameLimits:
      return told.changes.filter(isOfLimits(before, after)).map(accepting);
    case W.unedited:
      return told.changes.filter(isEdited).map(editing);
    case W.retested:
      return untested(told, after);
  }
}

// ---- what a rule says in both states

/** A rule may stand once; a second of its word is a finding, and not read. */
function firstOfEach(rules: readonly ChangeRule[]): readonly ChangeRule[] {
  return rules.filter((rule, at) => rules.findIndex((other) => other.rule === rule.rule) === at);
}

/** A change cannot be let through by the same change of its rule. */
function asStrictAs(rule: ChangeRule, old: readonly ChangeRule[]): ChangeRule {
  const was = old.find((other) => other.rule === rule.rule);
  if (rule.rule === W.margin && was?.rule === W.margin && was.least > rule.least) {
    return { ...rule, least: was.least };
  }
  if (rule.rule === W.signed && was?.rule === W.signed) {
    const both = rule.by.filter((name) => was.by.includes(name));
    return { ...rule, by: both.length > 0 ? both : was.by };
  }
  return rule;
}

function weakened(rule: ChangeRule, old: readonly ChangeRule[], after: PlanState): RuleBreach[] {
  const was = old.find((other) => other.rule === rule.rule);
  const stands = inNew(after.locate(rule.place));
  const breach = (message: string): RuleBreach => ({
    rule: rule.rule,
    message,
    stands,
    at: stands,
  });
  if (rule.rule === W.margin && was?.rule === W.margin && rule.least < was.least) {
    return [
      breach(
        `The least margin of a change was ${microInDb(was.least)} and is ${microInDb(rule.least)} now. This change is still held against ${microInDb(was.least)}; have the new bound agreed first.`,
      ),
    ];
  }
  if (rule.rule === W.signed && was?.rule === W.signed) {
    const added = rule.by.filter((name) => !was.by.includes(name));
    if (added.length === 0) return [];
    return [
      breach(
        `${inWords(added)} may sign answers from now on. In this change only the names of before count: ${inWords(was.by)}.`,
      ),
    ];
  }
  return [];
}

function takenAway(rule: ChangeRule, before: PlanState): RuleBreach {
  return {
    rule: rule.rule,
    message: `The rule \`${asWritten(rule)}\` was taken away, or cannot be read any more. This change is still held against it; put it back, or have its end agreed first.`,
    stands: inOld(before.locate(rule.place)),
    at: {},
  };
}

function asWritten(rule: ChangeRule): string {
  if (rule.rule === W.margin) return `${rule.rule} ${microInDb(rule.least)}`;
  if (rule.rule === W.signed) return `${rule.rule} ${rule.by.map((by) => `"${by}"`).join(', ')}`;
  return rule.rule;
}

// ---- margin

type ReadingEffect = Extract<Effect, { kind: 'reading' }>;

/** Readings that count against a margin: what a concession accepts does not, nor what nothing judges. */
const withMargin: ReadonlySet<Verdict> = new Set([
  'pass',
  'marginal-pass',
  'marginal-fail',
  'fail',
]);

function marginsBelow(least: ExactDb, effects: readonly Effect[], after: PlanState): Found[] {
  const below = (now: ExactDb | undefined, was: ExactDb | undefined): now is ExactDb =>
    now !== undefined &&
    compareDb(now, least) < 0 &&
    (was === undefined || compareDb(was, least) >= 0 || compareDb(now, was) < 0);
  const readings = effects.filter(
    (effect): effect is ReadingEffect =>
      effect.kind === 'reading' &&
      effect.after !== undefined &&
      withMargin.has(effect.after.verdict) &&
      below(effect.after.margin, effect.before?.margin),
  );
  const designs = effects.filter(
    (effect) => effect.kind === 'design' && below(effect.after?.margin, effect.before?.margin),
  );
  return [
    ...byObject(readings).map(([object, own]): Found => {
      const worst = own.reduce((a, b) => (marginOf(b) < marginOf(a) ? b : a));
      return {
        message: `${object}: ${keyInWords(worst.key)} leaves ${margin(marginOf(worst), least)}${moreOf(own.length)}. A change has to leave at least ${inDb(least, marginOf(worst))}: ${remedy(marginOf(worst))}`,
        at: inNew(worst.after?.place),
      };
    }),
    ...byObject(designs).map(([object, own]): Found => {
      const worst = own.reduce((a, b) => (marginOf(b) < marginOf(a) ? b : a));
      const where = worst.kind === 'design' ? ` at ${inNm(worst.wavelength)}` : '';
      return {
        message: `${object}: by design${where} it leaves ${margin(marginOf(worst), least)}. A change has to leave at least ${inDb(least, marginOf(worst))}: use less lossy parts, fewer joints or a shorter way.`,
        at: inNew(placeOfObject(object, after)),
      };
    }),
  ];
}

/** What fails may be conceded; what passes with little can only lose less. */
function remedy(margin: ExactDb): string {
  const better = 'clean both ends and measure again, or use less lossy parts';
  return compareDb(margin, zeroDb) < 0 ? `${better}, or have it conceded.` : `${better}.`;
}

function marginOf(effect: Effect): ExactDb {
  return (
    (effect.kind === 'reading' || effect.kind === 'design' ? effect.after?.margin : undefined) ??
    zeroDb
  );
}

/** `a margin of 0.31 dB`, or by how much it is over. */
function margin(value: ExactDb, beside: ExactDb): string {
  return compareDb(value, zeroDb) < 0
    ? `no margin: it is ${inDb(-value as ExactDb, beside)} over its limit`
    : `a margin of ${inDb(value, beside)}`;
}

// ---- no verdict worse

/** How good a verdict is of what was judged; the others say that nothing is judged. */
const goodness: Readonly<Partial<Record<Verdict, number>>> = {
  pass: 0,
  'marginal-pass': 1,
  conceded: 2,
  'marginal-fail': 3,
  fail: 4,
};

const unjudged = 5;

function worse(effects: readonly Effect[], after: PlanState): Found[] {
  const readings = effects.filter((effect): effect is ReadingEffect => {
    if (effect.kind !== 'reading' || !effect.before || !effect.after) return false;
    const was = goodness[effect.before.verdict];
    return was !== undefined && (goodness[effect.after.verdict] ?? unjudged) > was;
  });
  const applications = effects.flatMap((effect) =>
    effect.kind === 'application' &&
    effect.before !== undefined &&
    effect.before.support !== 'not supported' &&
    effect.after?.support === 'not supported'
      ? [effect]
      : [],
  );
  return [
    ...byObject(readings).map(([object, own]): Found => {
      const first = own[0]!;
      return {
        message: `${object}: ${keyInWords(first.key)} was ${inSentence(first.before?.verdict)} and is ${inSentence(first.after?.verdict)} now${moreOf(own.length)}. No verdict may get worse by a change: undo what moves it, or put right what it shows.`,
        at: inNew(first.after?.place),
      };
    }),
    ...applications.map(
      ({ object, application, way, before }): Found => ({
        message: `${object}: ${application}${way ? ` to ${way}` : ''} was supported (${before?.support}) and is not any more. No verdict may get worse by a change: undo what moves it, or put right what it shows.`,
        at: inNew(placeOfObject(object, after)),
      }),
    ),
  ];
}

const inSentence = (verdict: Verdict | undefined): string => (verdict ?? '').replaceAll('-', ' ');

// ---- signed answers

function unsigned(by: readonly string[], before: PlanState, after: PlanState): Found[] {
  const may = new Set(by.map((name) => name.normalize('NFC')));
  return newAnswers(before, after).flatMap((answer): Found[] => {
    if (answer.by !== undefined && may.has(answer.by.normalize('NFC'))) return [];
    const who = answer.by === undefined ? 'is signed by nobody' : `is signed by ${answer.by}`;
    return [
      {
        message: `${answer.said} is new or says something else, and ${who}. It has to be signed by ${inWords(by, 'or')}: let them write it, with their name behind \`${W.by}\`.`,
        at: inNew(after.locate(answer.place)),
      },
    ];
  });
}

// ---- limits, evidence, retests

/** The rules themselves are told by their own names. */
function isOfLimits(before: PlanState, after: PlanState): (change: Change) => boolean {
  const linesOf = (state: PlanState) =>
    new Set(
      state.settings.changes.flatMap(({ place }) => {
        const found = state.locate(place);
        return found ? [lineOf(found)] : [];
      }),
    );
  const [old, now] = [linesOf(before), linesOf(after)];
  return (change) =>
    change.kind === 'basis' &&
    !(change.after ? now.has(lineOf(change.after)) : old.has(lineOf(change.before)));
}

const lineOf = (place: Change['after']): string => `${place?.path}:${place?.range.start.line}`;

function accepting(change: Change): Found {
  return {
    message: `What is accepted changed: ${saidOf(change)}. Limits are to stay as they are: put it back, or have the new one agreed first.`,
    at: placeOf(change),
  };
}

/** What is added is no edit: a withdrawal with its reason, work that ages readings. What was recorded of either stays. */
function isEdited({ kind, form }: Change): boolean {
  return (kind === 'evidence' || kind === 'readings') && form !== 'new';
}

function editing(change: Change): Found {
  return {
    message: `Evidence was edited or taken away: ${saidOf(change)}. Put it back as it was; what is wrong of it goes by \`${W.withdraw}\` with the reason, and a better reading is added.`,
    at: placeOf(change),
  };
}

function untested(told: Told, after: PlanState): Found[] {
  const objects = new Map<string, (typeof told.retest)[number][]>();
  for (const retest of told.retest) {
    const own = objects.get(retest.key.object);
    if (own) own.push(retest);
    else objects.set(retest.key.object, [retest]);
  }
  return [...objects].map(([object, own]): Found => {
    const fibres = [...new Set(own.map(({ key }) => key.fibre))].sort((a, b) => a - b);
    const count = own.length === 1 ? '1 reading is' : `${own.length} readings are`;
    return {
      message: `${object}: ${count} to make again, of ${fibresInWords(fibres)} (${own[0]!.because}). Measure them again in the same change.`,
      at: inNew(placeOfObject(object, after)),
    };
  });
}

function placeOfObject(object: string, after: PlanState) {
  for (const kind of ['link', 'channel', 'ring', 'cable'] as const) {
    const found = after.find(kind, object);
    if (found) return after.locate(found.namePlace);
  }
  return undefined;
}

// ---- words

function saidOf({ subject, was, now, form }: Change): string {
  if (was !== undefined && now !== undefined) return `${subject} was ${was} and is ${now} now`;
  if (now !== undefined) return `${subject} is ${now}, which was not said before`;
  if (was !== undefined) return `${subject} was ${was} and is not said any more`;
  return form === 'gone' ? `${subject} is gone` : subject;
}

function keyInWords({ fibre, quantity, wavelength, direction }: ReadingKey): string {
  const what = quantity === 'loss' ? '' : ` (${quantity})`;
  return `fibre ${fibre} at ${[inNm(wavelength), direction].filter(Boolean).join(' ')}${what}`;
}

/** How many more of the same object are like the one that is named. */
function moreOf(count: number): string {
  return count > 1 ? `, and so for ${count - 1} more of its readings` : '';
}

function byObject<Of extends Effect>(effects: readonly Of[]): [string, Of[]][] {
  const objects = new Map<string, Of[]>();
  for (const effect of effects) {
    const own = objects.get(effect.object);
    if (own) own.push(effect);
    else objects.set(effect.object, [effect]);
  }
  return [...objects];
}

const inNew = (after: StatePlace | undefined): EitherPlace => (after ? { after } : {});

const inOld = (before: StatePlace | undefined): EitherPlace => (before ? { before } : {});

/** Where a change stands; one that is gone where it stood. */
const placeOf = ({ before, after }: Change): EitherPlace => (after ? { after } : inOld(before));

function inWords(names: readonly string[], joined = 'and'): string {
  if (names.length < 2) return names[0] ?? '';
  return `${names.slice(0, -1).join(', ')} ${joined} ${names.at(-1)}`;
}
