/** Equal lines of one group, told as one with their number. */
import type { Draft } from './draft.ts';

export function folded(drafts: readonly Draft[]): readonly Draft[] {
  const groups = new Map<string, Draft[]>();
  for (const draft of drafts) {
    const key = keyOf(draft);
    const same = groups.get(key);
    if (same) same.push(draft);
    else groups.set(key, [draft]);
  }
  return [...groups.values()].map((all) => (all.length === 1 ? all[0]! : together(all)));
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
