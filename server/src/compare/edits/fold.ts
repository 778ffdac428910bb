/** What is told as one: equal lines of one group, with their number, then the same of several things. */
import type { Draft } from './draft.ts';

export function folded(drafts: readonly Draft[]): readonly Draft[] {
  const groups = new Map<string, Draft[]>();
  for (const draft of drafts) {
    const key = keyOf(draft);
    const same = groups.get(key);
    if (same) same.push(draft);
    else groups.set(key, [draft]);
  }
  return alike([...groups.values()].map((all) => (all.length === 1 ? all[0]! : together(all))));
}

let alone = 0;

function keyOf(draft: Draft): string {
  const { group, kind, form, was, now, before, after, note } = draft;
  if (!group) return `alone ${alone++}`;
  return [
    group.key,
    group.of,
    kind,
    form,
    // New things and those gone differ in what they are called: they are counted.
    group.loose ? '' : (was ?? ''),
    group.loose ? '' : (now ?? ''),
    note ?? '',
    before?.block.order ?? '',
    after?.block.order ?? '',
  ].join('\n');
}

function together(all: readonly Draft[]): Draft {
  const first = all[0]!;
  const { many, of } = first.group!;
  const count = all.reduce((sum, draft) => sum + (draft.count ?? 1), 0);
  const objects = [...new Set(all.flatMap((draft) => draft.objects ?? []))];
  // Of one that was renamed, both names are there: the first is how it is called.
  const things = [...new Set(all.flatMap((draft) => draft.objects?.[0] ?? []))];
  const readings = all.flatMap((draft) => draft.readings ?? []);
  return {
    ...first,
    subject: subjectOf(first, many, of, things),
    ...(first.was !== undefined && { was: counted(count, first.was, things.length) }),
    ...(first.now !== undefined && { now: counted(count, first.now, things.length) }),
    count,
    ...(objects.length > 0 && { objects }),
    ...(readings.length > 0 && { readings }),
  };
}

function subjectOf(
  { group, form }: Draft,
  many: string,
  of: string,
  objects: readonly string[],
): string {
  if (objects.length < 2) return `${many} of ${of}`;
  const which = `${objects[0]} to ${objects.at(-1)} in ${of}`;
  return group?.whole && form !== 'changed'
    ? `${objects.length} ${many}, ${which}`
    : `${many} of ${objects.length}, ${which}`;
}

/** `2 x LC`: of several in one object; of several objects each has one. */
const counted = (count: number, text: string, things: number): string =>
  things > 1 ? text : `${count} x ${text}`;

// ---- the same of several things

/** A line that was changed alike in several declarations is one change, with each place of it. */
function alike(drafts: readonly Draft[]): readonly Draft[] {
  const groups = new Map<string, Draft[]>();
  const told: Draft[][] = [];
  for (const draft of drafts) {
    const key = sayingOf(draft);
    const same = key === undefined ? undefined : groups.get(key);
    if (same) {
      same.push(draft);
      continue;
    }
    const one = [draft];
    told.push(one);
    if (key !== undefined) groups.set(key, one);
  }
  return told.map((all) => (all.length === 1 ? all[0]! : ofSeveral(all)));
}

/** What it says, without of what; undefined where each is to be told by itself, as all that was recorded is. */
function sayingOf({
  thing,
  subject,
  kind,
  form,
  was,
  now,
  note,
  guarded,
}: Draft): string | undefined {
  if (!thing || kind === 'evidence' || kind === 'readings' || !subject.endsWith(thing.label)) {
    return undefined;
  }
  return [
    thing.kind,
    subject.slice(0, -thing.label.length),
    kind,
    form,
    was ?? '',
    now ?? '',
    note ?? '',
    guarded ?? '',
  ].join('\n');
}

function ofSeveral([first, ...elsewhere]: readonly Draft[]): Draft {
  const { subject, thing } = first!;
  const names = [...new Set([first!, ...elsewhere].flatMap((each) => each.thing?.name ?? []))];
  const joined = names.length === 2 ? ' and ' : ' to ';
  const which = `${names.length} ${thing!.kind}s, ${names[0]}${joined}${names.at(-1)}`;
  return {
    ...first!,
    subject: subject.slice(0, -thing!.label.length) + which,
    count: [first!, ...elsewhere].reduce((sum, { count = 1 }) => sum + count, 0),
    elsewhere,
  };
}
