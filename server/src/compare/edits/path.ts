/** What lines whose order means something say otherwise: the path that light takes, reels, what a cable passes. */
import type { BoundEntry } from '../../../../grammar/src/bound.ts';
import { type Context, W } from '../../../../grammar/src/vocabulary/index.ts';
import { nameOf } from '../../model/values.ts';
import type { Draft } from './draft.ts';
import { kindOf } from './kinds.ts';
import { type About, concerned, lineEdits, spoken, type Telling } from './line.ts';
import type { Lines } from './side.ts';
import { entryContent, printEntry } from './values.ts';

const none: ReadonlyMap<string, string> = new Map();

export function pathEdits(
  before: Lines,
  after: Lines,
  context: Context,
  about: About,
): readonly Draft[] {
  const old = before.entries.map((entry) => entryContent(entry, context, before.voice));
  const now = after.entries.map((entry) => entryContent(entry, context, after.voice));
  const gaps = gapsOf(old, now);
  if (gaps.length === 0) return [];

  // What stands elsewhere as it stood here has moved; it is no other thing of its word.
  const moved = movedBetween(gaps, old, now);
  const left = new Set(moved.map(([index]) => index));
  const right = new Set(moved.map(([, index]) => index));

  const drafts: Draft[] = [];
  const gone: number[] = [];
  const fresh: number[] = [];
  for (const gap of gaps) {
    const others = new Set(gap.now.filter((index) => !right.has(index)));
    for (const index of gap.old) {
      if (left.has(index)) continue;
      const { word } = before.entries[index]!;
      const mate = [...others].find((other) => after.entries[other]!.word === word);
      if (mate === undefined) {
        gone.push(index);
        continue;
      }
      others.delete(mate);
      drafts.push(
        ...lineEdits(
          spoken(before, before.entries[index]!),
          spoken(after, after.entries[mate]!),
          context,
          about,
          named(after.entries, mate),
        ),
      );
    }
    fresh.push(...others);
  }
  if (moved.length > 0) drafts.push(movedEdit(moved, before, after, context, about));
  for (const index of gone) {
    drafts.push(
      ...lineEdits(
        spoken(before, before.entries[index]!),
        undefined,
        context,
        about,
        unnamed(before.entries[index]!),
      ),
    );
  }
  for (const index of fresh) {
    drafts.push(
      ...lineEdits(
        undefined,
        spoken(after, after.entries[index]!),
        context,
        about,
        unnamed(after.entries[index]!),
      ),
    );
  }
  return drafts;
}

/** Lines that are the same in another gap, each once. */
function movedBetween(
  gaps: readonly Gap[],
  old: readonly string[],
  now: readonly string[],
): readonly [number, number][] {
  const places = new Map<string, number[]>();
  for (const index of gaps.flatMap((gap) => gap.now)) {
    const same = places.get(now[index]!);
    if (same) same.push(index);
    else places.set(now[index]!, [index]);
  }
  return gaps
    .flatMap((gap) => gap.old)
    .flatMap((index): [number, number][] => {
      const to = places.get(old[index]!)?.shift();
      return to === undefined ? [] : [[index, to]];
    });
}

function movedEdit(
  moved: readonly [number, number][],
  before: Lines,
  after: Lines,
  context: Context,
  about: About,
): Draft {
  const [from, to] = moved[0]!;
  const entry = before.entries[from]!;
  const shared = kindOf(context, entry.word) === 'shared';
  const one = moved.length === 1;
  const whole = orderOf(before, context) === orderOf(after, context);
  const place = (index: number, lines: Lines) => `${index + 1} of ${lines.entries.length}`;
  return {
    kind: shared
      ? 'shared'
      : context === W.cable && entry.word === W.route
        ? 'words'
        : 'connection',
    form: 'moved',
    subject: one
      ? `place of ${entry.word} ${printEntry(entry, context, before.voice.text)} in the path of ${about.label}`.replace(
          /\s+/gu,
          ' ',
        )
      : `order of ${context === W.cable ? 'the reels' : 'the path'} of ${about.label}`,
    was: one ? place(from, before) : orderOf(before, context, whole),
    now: one ? place(to, after) : orderOf(after, context, whole),
    before: { block: before.block, span: entry.span },
    after: { block: after.block, span: after.entries[to]!.span },
    count: moved.length,
    ...concerned(about, entry.word),
    guarded: entry.word === W.route ? undefined : 'path-changed-without-work',
  };
}

/**
 * Words of a path in their order, with the names that reels, nodes and splits have of their own; those in a row once;
 * where the words alone say no difference, with all that is said of them.
 */
function orderOf({ entries, voice }: Lines, context: Context, whole = false): string {
  return entries
    .map((entry) => {
      const own = whole ? printEntry(entry, context, voice.text) : nameOf(entry.slots.name);
      return [entry.word, own].filter(Boolean).join(' ');
    })
    .filter((word, index, all) => word !== all[index - 1])
    .join(', ');
}

/** `segment 2`, where a path has several; the word alone where it has one. */
function named(entries: readonly BoundEntry[], index: number): Telling {
  const { word, slots } = entries[index]!;
  // A split, a reel or a node has a name of its own.
  const own = nameOf(slots.name);
  const alike = entries.filter((entry) => entry.word === word);
  const number = alike.indexOf(entries[index]!) + 1;
  return {
    shown: none,
    apart: new Set(),
    name: own
      ? `${word} ${own}`
      : alike.length === 1
        ? calledOf(word)
        : `${calledOf(word)} ${number}`,
    many: `${calledOf(word)}s`,
  };
}

function unnamed(entry: BoundEntry): Telling {
  // What is new or gone has no number of its own: what it is says which.
  return {
    shown: none,
    apart: new Set(),
    name: calledOf(entry.word),
    many: `${calledOf(entry.word)}s`,
  };
}

const calledOf = (word: string): string => (word === W.as ? W.pattern : word);

// ---- the longest run of what stayed

interface Gap {
  readonly old: readonly number[];
  readonly now: readonly number[];
}

/** Beyond so many comparisons, what lies between equal ends is one gap. */
const most = 1_000_000;

/** Runs of indices between what both lists have in the same order. */
function gapsOf(old: readonly string[], now: readonly string[]): readonly Gap[] {
  let start = 0;
  while (start < old.length && start < now.length && old[start] === now[start]) start++;
  let end = 0;
  while (
    end < old.length - start &&
    end < now.length - start &&
    old[old.length - 1 - end] === now[now.length - 1 - end]
  ) {
    end++;
  }
  const rows = old.length - start - end;
  const columns = now.length - start - end;
  if (rows === 0 && columns === 0) return [];
  const range = (from: number, length: number) => Array.from({ length }, (_, i) => from + i);
  if (rows * columns > most) return [{ old: range(start, rows), now: range(start, columns) }];

  const width = columns + 1;
  const longest = new Uint32Array((rows + 1) * width);
  for (let i = rows - 1; i >= 0; i--) {
    for (let j = columns - 1; j >= 0; j--) {
      longest[i * width + j] =
        old[start + i] === now[start + j]
          ? longest[(i + 1) * width + j + 1]! + 1
          : Math.max(longest[(i + 1) * width + j]!, longest[i * width + j + 1]!);
    }
  }
  const gaps: { old: number[]; now: number[] }[] = [];
  let gap: { old: number[]; now: number[] } | undefined;
  const open = () => {
    if (!gap) {
      gap = { old: [], now: [] };
      gaps.push(gap);
    }
    return gap;
  };
  let [i, j] = [0, 0];
  while (i < rows || j < columns) {
    if (i < rows && j < columns && old[start + i] === now[start + j]) {
      gap = undefined;
      i++;
      j++;
    } else if (
      j >= columns ||
      (i < rows && longest[(i + 1) * width + j]! >= longest[i * width + j + 1]!)
    ) {
      open().old.push(start + i++);
    } else {
      open().now.push(start + j++);
    }
  }
  return gaps;
}
