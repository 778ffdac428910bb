/** The lines that a path is written in: where to say something else of one of its parts. */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import type { PlacedEdit } from '../checks/finding.ts';
import type { LinkModel, PathElement, Place } from '../model/types.ts';
import type { BlockView, Plan, Project } from '../project/types.ts';

/** One part of a path with the line that puts it there. */
export interface PathLine {
  readonly element: Exclude<PathElement, { kind: 'link' }>;
  readonly entry: BoundEntry;
  readonly block: BlockView;
  /** As an editor counts it, from 1. */
  readonly line: number;
  /** Neighbours in the path, where both are parts of the same. */
  readonly before?: PathElement;
  readonly after?: PathElement;
}

/** Every line of a path and of the links that it crosses, each once; parts that no line of the plan puts there are left out. */
export function pathLines(project: Project, plan: Plan, link: LinkModel): readonly PathLine[] {
  const lines = new Map<string, PathLine>();
  const add = (path: readonly PathElement[]) => {
    for (const [index, element] of path.entries()) {
      if (element.kind === 'link') {
        if (element.link) for (const each of pathsOf(element.link)) add(each);
        continue;
      }
      const key = keyOf(element.place);
      if (lines.has(key)) continue;
      const written = entryAt(project, plan, element.place);
      if (!written) continue;
      const [before, after] = [path[index - 1], path[index + 1]];
      lines.set(key, { element, ...written, ...(before && { before }), ...(after && { after }) });
    }
  };
  for (const path of pathsOf(link)) add(path);
  return [...lines.values()];
}

/** The entry that stands at a place, however deep. */
export function entryAt(
  project: Project,
  plan: Plan,
  place: Place,
): Pick<PathLine, 'entry' | 'block' | 'line'> | undefined {
  const located = plan.locate(place);
  const document = located && project.document(located.uri);
  const block = document?.blockAt(located!.range.start);
  if (!block || block.id !== place.block) return undefined;
  const entry = entryIn(block.bound().entries, place);
  return entry && { entry, block, line: located!.range.start.line + 1 };
}

/** A value that is written where it holds: not one that fills a hole. */
export function written(entry: BoundEntry, slot: string): Value | undefined {
  const [value, ...more] = entry.slots[slot] ?? [];
  if (!value || more.length > 0) return undefined;
  return value.kind === 'hole' || value.kind === 'spoilt' ? undefined : value;
}

/** Another text for part of a block. */
export function edit(
  block: Pick<BlockView, 'id'>,
  start: number,
  end: number,
  text: string,
): PlacedEdit {
  return { place: { block: block.id, span: { start, end } }, text };
}

function pathsOf({ path, ways }: LinkModel): readonly (readonly PathElement[])[] {
  return [path, ...ways.map((way) => way.path)];
}

function entryIn(entries: readonly BoundEntry[], { span }: Place): BoundEntry | undefined {
  for (const entry of entries) {
    if (entry.span.end < span.start || span.end < entry.span.start) continue;
    if (entry.span.start === span.start && entry.span.end === span.end) return entry;
    const inner = entry.body && entryIn(entry.body.entries, { block: 0, span });
    if (inner) return inner;
  }
  return undefined;
}

function keyOf({ block, span }: Place): string {
  return `${block} ${span.start}`;
}
