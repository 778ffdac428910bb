/**
 * Two sets of texts, compared: the old ones are judged, each plan of them is
 * kept as it is, and the new ones are put in their place block by block, so that
 * only what changes is judged a second time.
 */
import { splitBlocks } from '../../../grammar/src/blocks.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { BlockId } from '../model/types.ts';
import { LiveProject, type Plan } from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import { compare, compareOneSided } from './compare.ts';
import { freeze } from './freeze.ts';
import { pathFrom, stateOf } from './state.ts';
import { type Stretch, stretchesBetween } from './stretches.ts';
import type { Comparison, PlanState } from './types.ts';

/** A side as its files say it. Paths are of one folder, with `/`. */
export interface Texts {
  /** What a person calls it: `main`, `plans/before`, `as it is open`. */
  readonly label: string;
  readonly files: readonly { readonly path: string; readonly text: string }[];
}

/** One plan of the files, on both sides or on one. */
export interface ComparedPlan {
  /** Path of the plan's own file, as it is now; of a plan that is gone as it was. */
  readonly root: string;
  /** Path of its own file as it was; it may have moved. */
  readonly formerRoot?: string;
  readonly before?: PlanState;
  readonly after?: PlanState;
  readonly comparison: Comparison;
}

export interface TextsToCompare {
  readonly before: Texts;
  readonly after: Texts;
  /** Both sides are judged by it. */
  readonly asOf: Instant;
}

/** Files of both sides lie in it; nothing is read from there. */
const folder = 'file:///compared';

/** Plans by their own file, then by their title; one that is on one side alone is told as one change. */
export function compareTexts({ before, after, asOf }: TextsToCompare): readonly ComparedPlan[] {
  const project = new LiveProject({ asOf });
  project.folders = [folder];
  project.putAll(before.files.map(({ path, text }) => [uriOf(path), { text }]));
  const edits = editsTo(project, after);
  // A file that a plan takes in or lets go changes what all of its blocks reach.
  const changing = edits.some(({ refiles }) => refiles)
    ? allBlocks(project)
    : edits.flatMap(({ blocks }) => blocks);
  project.work(() => false);
  const old = project.plans.map((plan) =>
    sideOf(plan, project, freeze(plan, project, before.label, changing)),
  );
  for (const edit of edits) edit.apply();
  project.work(() => false);
  const now = project.plans.map((plan) =>
    sideOf(plan, project, stateOf(plan, project, after.label)),
  );
  return pairs(old, now).map(({ before: was, after: is }) => compared(was, is, (is ?? was)!.root));
}

function compared(was: Side | undefined, is: Side | undefined, root: string): ComparedPlan {
  const [before, after] = [was?.state, is?.state];
  return {
    root,
    ...(was && { formerRoot: was.root }),
    ...(before && { before }),
    ...(after && { after }),
    comparison: before && after ? compare(before, after) : compareOneSided(before, after),
  };
}

const uriOf = (path: string) => `${folder}/${path.split('/').map(encodeURIComponent).join('/')}`;

// ---- the new texts in place of the old ones

interface FileEdit {
  /** Blocks of the old text that give way. */
  readonly blocks: readonly BlockId[];
  /** Lines that take other files in may be among what changes. */
  readonly refiles: boolean;
  apply(): void;
}

function editsTo(project: LiveProject, after: Texts): readonly FileEdit[] {
  const texts = new Map(after.files.map(({ path, text }) => [uriOf(path), text]));
  const gone = [...project.uris].filter((uri) => !texts.has(uri));
  const others = [...texts].filter(([uri]) => !project.has(uri));
  const edits = [...texts].flatMap(([uri, text]) =>
    project.has(uri) ? editTo(project, uri, text) : [],
  );
  const blocksGone = gone.flatMap((uri) =>
    project
      .document(uri)!
      .blocks()
      .map(({ id }) => id),
  );
  return [
    ...edits,
    {
      blocks: blocksGone,
      refiles: false,
      apply: () =>
        project.putAll([
          ...gone.map((uri) => [uri, undefined] as const),
          ...others.map(([uri, text]) => [uri, { text }] as const),
        ]),
    },
  ];
}

function allBlocks(project: LiveProject): readonly BlockId[] {
  return [...project.uris].flatMap((uri) =>
    project
      .document(uri)!
      .blocks()
      .map(({ id }) => id),
  );
}

function editTo(project: LiveProject, uri: string, text: string): FileEdit | [] {
  const document = project.document(uri)!;
  if (document.text() === text) return [];
  const blocks = document.blocks();
  const parts = splitBlocks(text);
  const stretches = stretchesBetween(
    blocks.map((block) => block.text),
    parts,
  );
  const lines = blocks.map(({ line }) => line);
  const end = document.lineCount;
  // From the end backwards, so that the lines before an edit stay where they are.
  const changes = [...stretches].reverse().map(({ from, to, start, end: last }: Stretch) => ({
    range: {
      start: { line: lines[from] ?? end, character: 0 },
      end: { line: lines[to] ?? end, character: 0 },
    },
    text: parts.slice(start, last).join(''),
  }));
  const gone = stretches.flatMap(({ from, to }) => blocks.slice(from, to));
  const come = stretches.flatMap((stretch) => parts.slice(stretch.start, stretch.end));
  return {
    blocks: gone.map(({ id }) => id),
    refiles: [...gone.map((block) => block.text), ...come].some((part) => part.includes(W.include)),
    apply: () => {
      project.change(uri, 1, changes);
      if (document.text() !== text) project.change(uri, 2, [{ text }]);
    },
  };
}

// ---- which plan of the one side is which of the other

interface Side {
  readonly root: string;
  readonly title?: string;
  readonly state: PlanState;
  /** Addresses of its files, its own first. */
  readonly files: readonly string[];
  /** A plan of its own, and no file that is judged with what it includes. */
  readonly whole: boolean;
}

interface Pair {
  readonly before?: Side;
  readonly after?: Side;
}

function sideOf(plan: Plan, project: LiveProject, state: PlanState): Side {
  const { title } = state.result;
  return {
    root: pathFrom(`${folder}/`, plan.root),
    state,
    files: [...plan.files],
    whole: project.document(plan.root)?.graphFile().hasPlan ?? false,
    ...(title !== undefined && { title }),
  };
}

function pairs(before: readonly Side[], after: readonly Side[]): readonly Pair[] {
  const left = new Set(before);
  const found = new Map<Side, Side>();
  const pair = (fits: (old: Side, now: Side) => boolean) => {
    for (const now of after) {
      if (found.has(now)) continue;
      const candidates = [...left].filter((old) => fits(old, now));
      const others = after.filter(
        (other) => !found.has(other) && candidates.some((old) => fits(old, other)),
      );
      if (candidates.length !== 1 || others.length !== 1) continue;
      found.set(now, candidates[0]!);
      left.delete(candidates[0]!);
    }
  };
  pair((old, now) => old.root === now.root);
  pair((old, now) => old.title !== undefined && old.title === now.title);
  pair((old, now) => old.whole && now.whole);
  const both = after.map((now): Pair => {
    const old = found.get(now);
    return old ? { before: old, after: now } : { after: now };
  });
  const all = [...both, ...[...left].map((old): Pair => ({ before: old }))];
  return all.filter(({ before: old, after: now }) => {
    const alone = old && now ? undefined : (old ?? now);
    // A file that a plan has taken in, or let go, is told with that plan.
    const others = now ? before : after;
    return !alone || alone.whole || !others.some(({ files }) => files.includes(alone.files[0]!));
  });
}
