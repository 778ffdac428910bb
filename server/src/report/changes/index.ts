/**
 * View model of a comparison: what is compared, what it comes to, each change
 * with its effects on one scale, what is to be made again.
 */
import type { Change, ChangeKind, Comparison, PlanState } from '../../compare/types.ts';
import { numbersInWords } from '../../model/numbers.ts';
import { count, counted, type Display } from '../figures.ts';
import { hold, reachFor, ticks } from '../scale.ts';
import type { ScaleView } from '../view.ts';
import { effectRows } from './effects.ts';
import { labelOf } from './labels.ts';
import { matrixOf, verdictSentence } from './matrix.ts';
import { marginsApart } from './moves.ts';
import { type Placer, placer } from './places.ts';
import type {
  AskRow,
  ChangeRow,
  ChangesView,
  EffectRow,
  Piece,
  RetestRow,
  SidePlace,
} from './view.ts';

/** Effects of one change that are shown before somebody asks for more. */
const shownEffects = 5;
/** A page holds so many rows of one change, and so many objects to measure again. */
const mostEffects = 300;
const mostRetests = 300;

export interface ChangesSubject {
  readonly comparison: Comparison;
  readonly display: Display;
  /** The new state, to say where objects stand; left out where no editor looks. */
  readonly now?: Pick<PlanState, 'find' | 'locate'>;
  /** Address of the plan's file. */
  readonly root?: string;
}

export function changesOf({ comparison, display, now, root = '' }: ChangesSubject): ChangesView {
  const place = placer(root);
  const where = (object: string): SidePlace | undefined => {
    const thing = now?.find('object', object);
    return thing && place(now?.locate(thing.namePlace), 'now');
  };
  const changes = comparison.changes.map((change, index) =>
    changeRow(change, index + 1, place, where, display),
  );
  const { before, after, engineering } = comparison;
  return {
    root,
    title: `Changes since ${before.label}`,
    compared: [
      `${before.label}, compared with ${after.label}`,
      after.title === undefined || after.title === before.title || before.title === undefined
        ? (after.title ?? before.title)
        : `${after.title}, was ${before.title}`,
    ]
      .filter(Boolean)
      .join(' · '),
    counted:
      engineering === 0 ? 'no engineering change' : counted(engineering, 'engineering change'),
    sentences: sentencesOf(comparison, display),
    ...withMatrix(comparison),
    asks: [...brokenRules(comparison, place), ...alteredEvidence(comparison, place)],
    scale: scaleOf(changes),
    changes,
    retest: retestRows(comparison, where),
    repeat: comparison.retest.length,
  };
}

function withMatrix(comparison: Comparison): Pick<ChangesView, 'matrix'> {
  const matrix = matrixOf(comparison);
  return matrix ? { matrix } : {};
}

function changeRow(
  change: Change,
  number: number,
  place: Placer,
  where: (object: string) => SidePlace | undefined,
  display: Display,
): ChangeRow {
  const all = effectRows(change.effects, place, display).map((row): EffectRow => {
    const at = row.place ?? where(row.object);
    return at ? { ...row, place: at } : row;
  });
  const rows = all.slice(0, mostEffects);
  const places = [
    place(change.after, 'now'),
    place(change.before, 'was'),
    ...namedElsewhere(change).map(({ before, after }) =>
      after ? place(after, 'now') : place(before, 'was'),
    ),
  ].filter((each) => each !== undefined);
  const { guard } = change;
  const notes = [
    change.note,
    placesInWords(change),
    guard?.answered === undefined ? undefined : `Answered: ${guard.answered}`,
    reachWords(change),
  ].filter((each) => each !== undefined);
  return {
    number,
    kind: change.kind,
    label: labelOf(change),
    alarming: guard !== undefined && guard.answered === undefined,
    subject: change.subject,
    ...(change.was === undefined ? {} : { was: withMinus(change.was) }),
    ...(change.now === undefined ? {} : { now: withMinus(change.now) }),
    notes,
    places,
    effects: rows,
    shown: Math.min(rows.length, shownEffects),
    rest: restWords(all.slice(shownEffects)),
    left: all.length - rows.length,
  };
}

/** `-20.26 dBm` is shown with a true minus, as every figure is. */
function withMinus(text: string): string {
  return text.replaceAll(/(^|[\s(,])-(?=\d)/gu, '$1−');
}

/** So many places are named of what is told of several things at once. */
const mostPlaces = 6;

/** Those beside the first that are named. */
export function namedElsewhere({ elsewhere = [] }: Pick<Change, 'elsewhere'>) {
  return elsewhere.slice(0, mostPlaces - 1);
}

function placesInWords({ elsewhere = [] }: Change): string | undefined {
  const all = elsewhere.length + 1;
  if (all <= mostPlaces) return undefined;
  return `Changed alike in ${count(all)} places; the first ${mostPlaces} are named here.`;
}

/** Kinds whose text may hold for many objects. */
const shares: ReadonlySet<ChangeKind> = new Set<ChangeKind>([
  'basis',
  'method',
  'application',
  'medium',
  'joints',
  'connection',
  'shared',
  'coverage',
]);

/** What several objects are made of, or judged by, says how far it reaches. */
function reachWords({ reach, kind, effects }: Change): string | undefined {
  if (!shares.has(kind) || reach.length < 2) return undefined;
  const touched = new Set(effects.map(({ object }) => object)).size;
  const held = reach.length - touched;
  const used = `Reaches ${counted(reach.length, 'object')}`;
  if (held <= 0) return `${used}.`;
  return touched === 0
    ? `${used}, and changes nothing in them.`
    : `${used}; ${count(held)} of them do not change.`;
}

/** `53 more readings move, no verdict changes`. */
function restWords(rows: readonly EffectRow[]): string {
  if (rows.length === 0) return '';
  const readings = rows.reduce((sum, row) => sum + row.readings, 0);
  const moved = rows.some((row) => row.moved);
  const what =
    readings > 0 ? `${counted(readings, 'more reading')}` : counted(rows.length, 'more effect');
  return `${what}${moved ? '' : ', no verdict changes'}`;
}

function sentencesOf(comparison: Comparison, display: Display): readonly (readonly Piece[])[] {
  const sentences: (readonly Piece[])[] = [verdictSentence(comparison)];
  const worst = worstSentence(comparison, display);
  if (worst) sentences.push(worst);
  const conceded = concededSentence(comparison, display);
  if (conceded) sentences.push(conceded);
  const { before, after } = comparison;
  if (before.summary.accepted !== after.summary.accepted) {
    sentences.push([
      {
        text: after.summary.accepted
          ? 'The plan could not be accepted, and can be now.'
          : 'The plan could be accepted, and cannot be now.',
        strong: true,
      },
    ]);
  }
  return sentences;
}

function worstSentence(
  { before, after }: Comparison,
  { precision }: Display,
): readonly Piece[] | undefined {
  const [was, now] = [before.summary.worst, after.summary.worst];
  if (!was && !now) return undefined;
  const [wasText, nowText] = marginsApart(was?.margin, now?.margin, precision);
  const at = now ?? was;
  const fibre = at ? ` (${at.object} fibre ${at.key.fibre})` : '';
  if (was && now && was.margin === now.margin)
    return [{ text: `Worst margin ${nowText} dB, as before${fibre}.` }];
  return [
    { text: `Worst margin was ${wasText}, now ` },
    { text: now ? `${nowText} dB` : nowText, strong: true },
    { text: `${fibre}.` },
  ];
}

/** Accepted exceedances whose margin moves do not count for the worst, and are named apart. */
function concededSentence(
  { effects }: Comparison,
  { precision }: Display,
): readonly Piece[] | undefined {
  const moved = effects.flatMap((each) =>
    each.kind === 'reading' &&
    each.before?.verdict === 'conceded' &&
    each.after?.verdict === 'conceded' &&
    each.before.margin !== each.after.margin
      ? [each]
      : [],
  );
  const [first] = moved;
  if (!first) return undefined;
  const [was, now] = marginsApart(first.before?.margin, first.after?.margin, precision);
  const more =
    moved.length > 1 ? `, and ${counted(moved.length - 1, 'more conceded reading')}` : '';
  return [
    { text: `Conceded fibre ${first.key.fibre} of ${first.object} was ${was}, now ` },
    { text: `${now} dB`, strong: true },
    { text: `${more}.` },
  ];
}

function brokenRules({ breaches }: Comparison, place: Placer): readonly AskRow[] {
  return breaches.map(({ rule, message, stands, at }) => ({
    name: rule,
    message,
    places: [at, stands].flatMap(({ before, after }) => {
      const found = after ? place(after, 'now') : place(before, 'was');
      return found ?? [];
    }),
  }));
}

function alteredEvidence({ changes }: Comparison, place: Placer): readonly AskRow[] {
  return changes.flatMap(({ guard, after, before }, index) =>
    guard && guard.answered === undefined
      ? [
          {
            name: guard.finding,
            message: guard.message,
            places: [place(after, 'now'), place(before, 'was')].filter(
              (each) => each !== undefined,
            ),
            change: index + 1,
          },
        ]
      : [],
  );
}

/** One scale for all changes: it holds what they were and what they are. */
function scaleOf(changes: readonly ChangeRow[]): ScaleView {
  const margins = changes.flatMap(({ effects }) =>
    effects.flatMap(({ was, now }) => [was, now].flatMap((each) => each?.margin ?? [])),
  );
  const reach = reachFor(hold(margins), margins.length);
  return { reach, ticks: ticks(reach) };
}

function retestRows(
  { retest }: Comparison,
  where: (object: string) => SidePlace | undefined,
): readonly RetestRow[] {
  const groups = new Map<string, Omit<RetestRow, 'fibres' | 'readings'> & { all: number[] }>();
  for (const { key, because } of retest) {
    const { object, fibre } = key;
    const name = JSON.stringify([object, because]);
    const group = groups.get(name) ?? { object, because, all: [] };
    groups.set(name, group);
    group.all.push(fibre);
  }
  return [...groups.values()].slice(0, mostRetests).map(({ object, because, all }) => {
    const place = where(object);
    return {
      object,
      fibres: numbersInWords([...new Set(all)].sort((a, b) => a - b)),
      readings: all.length,
      because,
      ...(place ? { place } : {}),
    };
  });
}
