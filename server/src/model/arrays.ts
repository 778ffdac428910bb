/** Array connectors along a path: how many places they hold, and whether the fibres of a link fill them. */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { arrayOf } from './component.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { buildComponent, buildConnector, typeOf } from './parts.ts';
import type { PathLine } from './placing.ts';
import type { Scope } from './scope.ts';
import type { LinkModel, PathElement } from './types.ts';

/** Places of the arrays between which a stretch of fibre lies, the larger where they differ; undefined without any. */
export function arrayBeside(
  lines: readonly PathLine[],
  index: number,
  scope: Scope,
): number | undefined {
  const nearest = (beside: readonly PathLine[]) =>
    beside.map((line) => placesOf(line, scope)).find((places) => places !== undefined) ?? 1;
  const most = Math.max(
    nearest(lines.slice(0, index).toReversed()),
    nearest(lines.slice(index + 1)),
  );
  return most > 1 ? most : undefined;
}

/** The first array whose places the n fibres of a link do not fill. Channels take some of them, on purpose. */
export function arraysNotFilled(
  path: readonly PathElement[],
  n: number | undefined,
): readonly ModelFinding[] {
  if (n === undefined || n === 0) return [];
  if (path.some(({ kind }) => kind === 'link' || kind === 'cord')) return [];
  for (const element of path) {
    const places = placesIn(element) ?? 1;
    if (n % places === 0 || !('name' in element)) continue;
    const { name, place } = element;
    return [finding('array-not-filled', place, { name, places, fibres: n })];
  }
  return [];
}

/** Places of the arrays that links end in, the larger where they differ; undefined without any. */
export function arrayOfEnds(links: readonly Pick<LinkModel, 'path'>[]): number | undefined {
  const ends = links.flatMap(({ path }) => [path[0], path.at(-1)]);
  const most = Math.max(
    1,
    ...ends.map((end) =>
      end?.kind === 'connector' || end?.kind === 'plug' ? (end.type?.positions ?? 1) : 1,
    ),
  );
  return most > 1 ? most : undefined;
}

function placesIn(element: PathElement): number | undefined {
  if (element.kind === 'connector' || element.kind === 'plug') return element.type?.positions;
  return element.kind === 'component' && element.type ? arrayOf(element.type) : undefined;
}

/** Fibres that what stands in a line holds; undefined for fibre, splices and what is not known. */
function placesOf(line: PathLine, scope: Scope): number | undefined {
  switch (line.entry.word) {
    case W.connector:
    case W.plug: {
      const type = typeOf(W.connector, buildConnector, line, scope);
      return type && (type.positions ?? 1);
    }
    case W.component: {
      const type = typeOf(W.component, buildComponent, line, scope);
      return type && arrayOf(type);
    }
    default:
      return undefined;
  }
}
