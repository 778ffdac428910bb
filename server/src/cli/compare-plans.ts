/** The plans of two sides, each with its counterpart, compared. */
import { compareTexts, type ComparedPlan as Judged } from '../compare/index.ts';
import type { StatePlace } from '../compare/types.ts';
import type { Instant } from '../project/instant.ts';
import type { Side, Sides } from './compare-sides.ts';
import type { Compared, ComparedPlan } from './formats/changes/compared.ts';
import { toPath } from './open.ts';

export function comparedSides({ before, after }: Sides, asOf: Instant): Compared {
  const levels = Math.max(levelsAbove(before), levelsAbove(after));
  const side = (of: Side) => ({ label: of.label, files: textsOf(of, levels) });
  const plans = compareTexts({ before: side(before), after: side(after), asOf });
  return {
    plans: plans.map((plan) => placed(plan, { before, after }, levels)),
    commits: {
      ...(before.commit === undefined ? {} : { before: before.commit }),
      ...(after.commit === undefined ? {} : { after: after.commit }),
    },
  };
}

/** How far above the folder that was named the files of a side lie: an include may lead there. */
function levelsAbove({ base, files }: Side): number {
  return Math.max(
    0,
    ...files.map((uri) => fromBase(base, uri).filter((part) => part === '..').length),
  );
}

/** Stands for a folder above the one that was named, whose name is of one side only. */
const above = 'above';

/** Paths of both sides from one folder: what lies alike in the folders that were named is called alike. */
function textsOf({ base, files, project }: Side, levels: number) {
  return files.flatMap((uri) => {
    const document = project.document(uri);
    if (!document) return [];
    const parts = fromBase(base, uri);
    const up = parts.filter((part) => part === '..').length;
    const path = [...Array<string>(levels - up).fill(above), ...parts.slice(up)].join('/');
    return [{ path, text: document.text() }];
  });
}

/** Parts of the path from a folder to a file, names as they are on the disk. */
function fromBase(base: string, uri: string): readonly string[] {
  const from = base.split('/');
  const to = uri.split('/');
  let same = 0;
  while (same < from.length && from[same] === to[same]) same += 1;
  return [...from.slice(same).map(() => '..'), ...to.slice(same).map(decodeURIComponent)];
}

function placed(plan: Judged, sides: Sides, levels: number): ComparedPlan {
  const { comparison, root, formerRoot = root } = plan;
  const roots = { before: formerRoot, after: root };
  return {
    comparison: {
      ...comparison,
      before: { ...comparison.before, label: sides.before.label },
      after: { ...comparison.after, label: sides.after.label },
    },
    ...(plan.before && { before: plan.before }),
    path: realPath(plan.after ? sides.after : sides.before, root.split('/'), levels),
    pathOf({ path }: StatePlace, side) {
      const folder = roots[side].split('/').slice(0, -1);
      return realPath(sides[side], [...folder, ...path.split('/')], levels);
    },
  };
}

/** From the path that both sides share to that of one side, as written from the working folder. */
function realPath({ base }: Side, path: readonly string[], levels: number): string {
  const parts = parted(path);
  const own = parts.findIndex((part, index) => part !== above || index === levels);
  const up = Array<string>(levels - own).fill('..');
  const rest = parts.slice(own).map(encodeURIComponent);
  return toPath(parted([...base.split('/'), ...up, ...rest]).join('/'));
}

/** With every `..` taken. */
function parted(path: readonly string[]): readonly string[] {
  const parts: string[] = [];
  for (const part of path) {
    if (part === '..') parts.pop();
    else parts.push(part);
  }
  return parts;
}
