/**
 * The guard of evidence: what was recorded is superseded, never rewritten, and
 * a path that is another one now needs work by which its readings age. Each
 * breach is answered in words by `silence`, by a withdrawal of the very
 * readings, or by the work itself.
 */
import { K, W } from '../../../../grammar/src/vocabulary/index.ts';
import type { Silence } from '../../model/types.ts';
import { nameOf } from '../../model/values.ts';
import type { Edit, PlanState, ReadingKey } from '../types.ts';
import type { Draft } from './draft.ts';
import type { BlocksById, HeldBlock, Sides } from './side.ts';

/** What the guard looks at beside the edit itself. */
export interface Watch {
  readonly sides: Sides;
  /** What work or a repair that is new reaches. */
  readonly worked: ReadonlySet<string>;
  /** Keys of readings that are new, by {@link textOf}. */
  readonly remeasured: ReadonlySet<string>;
}

/** More objects than these are not counted one by one. */
const most = 25;

export function guardOf(draft: Draft, reach: readonly string[], watch: Watch): Edit['guard'] {
  const finding = draft.guarded;
  if (!finding) return undefined;
  // A set-up by which nothing was measured judges nothing yet.
  if (finding.startsWith('reference-') && reach.length === 0) return undefined;
  const broken =
    finding === 'path-changed-without-work' ? pathBroken(reach, watch) : recordBroken(draft);
  if (!broken) return undefined;
  const answered =
    answerIn(finding, draft, broken.objects, watch.sides) ?? withdrawn(draft, watch.sides);
  return { finding, message: broken.message, ...(answered !== undefined && { answered }) };
}

interface Broken {
  readonly message: string;
  readonly objects: readonly string[];
}

// ---- records

function recordBroken({ guarded, form, objects = [], count = 1, noun }: Draft): Broken {
  const several = count > 1;
  const gone = form === 'gone';
  const verb = gone
    ? `${several ? 'are' : 'is'} gone`
    : `${several ? 'say' : 'says'} something else now`;
  if (guarded === 'reference-altered' || guarded === 'reference-removed') {
    return {
      objects,
      message: gone
        ? 'What was recorded of the set-up is gone, and readings are judged by it. Put it back; what is no good is followed by disturbed or by a new reference.'
        : 'What was recorded of the set-up says something else for the same moment, and readings are judged by it. Put it back, or answer in words.',
    };
  }
  if (guarded === 'work-altered' || guarded === 'work-removed') {
    return {
      objects,
      message: gone
        ? 'Work that was recorded is gone, and readings that it made old count again. Put it back.'
        : 'Work that was recorded says something else now, by which readings grow old or count again. Put it back, and add what was done as work of its own; answer a slip of typing in words.',
    };
  }
  const what = noun ?? 'record';
  const which = several ? `${count} recorded ${what}s` : `A recorded ${what}`;
  return {
    objects,
    message: `${which} ${verb}. Put ${several ? 'them' : 'it'} back; what is wrong goes by withdraw, with a reason, and a better one is added.`,
  };
}

// ---- paths

function pathBroken(reach: readonly string[], watch: Watch): Broken | undefined {
  const { sides } = watch;
  const standing: string[] = [];
  let readings = 0;
  let more = false;
  for (const name of reach) {
    if (watch.worked.has(name)) continue;
    if (standing.length >= most) {
      more = true;
      break;
    }
    const left = standingReadings(name, sides, watch.remeasured);
    if (left === 0) continue;
    standing.push(name);
    readings += left;
  }
  const [first] = standing;
  if (first === undefined) return undefined;
  const who = more
    ? `${first} and more than ${most - 1} others`
    : standing.length > 1
      ? `${first} and ${standing.length - 1} more`
      : first;
  return {
    objects: standing,
    message: `${readings}${more ? ' and more' : ''} ${readings === 1 ? 'reading' : 'readings'} of ${who} ${readings === 1 ? 'stands' : 'stand'} from before the path changed, and no work is recorded. Write work or repair with its day; if the path is as it was, answer in words.`,
  };
}

/** Readings from before that still stand: neither withdrawn nor measured again. */
function standingReadings(
  name: string,
  { before, after, naming }: Sides,
  remeasured: ReadonlySet<string>,
): number {
  const { readings, events } = before.evidence(name);
  if (readings.length === 0 && events.length === 0) return 0;
  const now = naming(name, ['object']);
  const { withdrawals } = after.evidence(now);
  // Of traces it is enough that any stands: they are of the path that was.
  if (readings.length === 0) return withdrawals.length > 0 ? 0 : events.length;
  return readings.filter(
    ({ fibre, quantity, wavelength, direction, at }) =>
      !remeasured.has(
        textOf({ object: now, fibre, quantity, wavelength, ...(direction && { direction }) }),
      ) && !withdrawals.some((each) => takesOut(each, { fibre, wavelength, direction }, at.text)),
  ).length;
}

type Withdrawal = ReturnType<PlanState['evidence']>['withdrawals'][number];

function takesOut(
  { fibres, wavelength, direction, tested }: Withdrawal,
  key: {
    readonly fibre: number;
    readonly wavelength: number;
    readonly direction?: string | undefined;
  },
  time: string | undefined,
): boolean {
  return (
    (!fibres || fibres.includes(key.fibre)) &&
    (wavelength === undefined || wavelength === key.wavelength) &&
    (direction === undefined || direction === key.direction) &&
    (!tested || time === undefined || time.startsWith(tested.text))
  );
}

export function textOf({ object, fibre, quantity, wavelength, direction }: ReadingKey): string {
  return [object, fibre, quantity, wavelength, direction ?? ''].join('\n');
}

// ---- answers

/** Why these very readings are taken out, where all of them are. */
function withdrawn(draft: Draft, { after }: Sides): string | undefined {
  const { readings = [], times = [] } = draft;
  if (readings.length === 0) return undefined;
  let because: string | undefined;
  for (const key of readings) {
    const found = after
      .evidence(key.object)
      .withdrawals.find((each) =>
        times.length === 0
          ? takesOut(each, key, undefined)
          : times.some((time) => takesOut(each, key, time)),
      );
    if (!found) return undefined;
    because ??= found.because;
  }
  return because && `withdrawn: ${because}`;
}

/** Words by which the plan, the object or the block itself answers, in the new state. */
function answerIn(
  finding: string,
  draft: Draft,
  objects: readonly string[],
  sides: Sides,
): string | undefined {
  const { before, after, blocksAfter, blocksBefore } = sides;
  const stood = new Set(before.settings.silence.map(saidBy));
  const ofPlan = after.settings.silence.find(
    (each) => each.finding === finding && !stood.has(saidBy(each)),
  );
  if (ofPlan) return ofPlan.because;
  const blocks = new Set<HeldBlock>();
  const old = new Set<HeldBlock>();
  if (draft.before) old.add(draft.before.block);
  // Of several things changed alike, the words of one are no answer for the others.
  if (draft.after && !draft.elsewhere) blocks.add(draft.after.block);
  for (const block of draft.beside ?? []) {
    if (blocksAfter.get(block.view.id) === block) blocks.add(block);
    if (blocksBefore.get(block.view.id) === block) old.add(block);
  }
  for (const block of blocks) {
    const answer = newIn(block, old, finding);
    if (answer !== undefined) return answer;
  }
  // Several objects are answered when each of them is.
  const answers = objects.map((name) => {
    const block = declaring(sides.naming(name, ['object']), after, blocksAfter);
    const was = declaring(name, before, blocksBefore);
    return block && newIn(block, was ? [was] : [], finding);
  });
  return answers.length > 0 && answers.every((answer) => answer !== undefined)
    ? answers[0]
    : undefined;
}

function declaring(name: string, state: PlanState, blocks: BlocksById): HeldBlock | undefined {
  for (const kind of [W.link, W.channel, W.ring, W.cable, W.setup] as const) {
    const thing = state.find(kind, name);
    if (thing) return blocks.get(thing.place.block);
  }
  return undefined;
}

/**
 * The reason of an answer that a block gives and its old text did not: one that
 * stood before was given to something else, whatever is broken now.
 */
function newIn(block: HeldBlock, old: Iterable<HeldBlock>, finding: string): string | undefined {
  const stood = new Set([...old].flatMap((each) => silencesIn(each).map(saidBy)));
  return silencesIn(block).find((each) => each.finding === finding && !stood.has(saidBy(each)))
    ?.because;
}

type Said = Pick<Silence, 'finding' | 'because' | 'by'>;

const saidBy = ({ finding, because, by = '' }: Said): string => [finding, because, by].join('\n');

function silencesIn(block: HeldBlock): readonly Said[] {
  return block.view.bound().entries.flatMap(({ body }) =>
    (body?.entries ?? []).flatMap(({ word, slots }): Said[] => {
      const [finding, because, by] = [slots.finding, slots.because, slots[K.by]].map(nameOf);
      return word === W.silence && finding !== undefined && because !== undefined
        ? [{ finding, because, ...(by !== undefined && { by }) }]
        : [];
    }),
  );
}
