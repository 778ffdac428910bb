/** The fibres that a service may take, the paths that they take, and whether these have a known length. */
import type { Carried, LinkModel } from '../model/types.ts';
import type { Context } from './context.ts';
import { lengthsOf } from './path.ts';

/** Fibres that a service may take: those that it is given, less the dead. */
export function livingOf(carried: Carried, link: LinkModel): readonly number[] {
  const dead = new Set(link.dead.map(({ fibre }) => fibre));
  return (carried.fibres ?? link.fibres).filter((fibre) => !dead.has(fibre));
}

/**
 * The paths that fibres take, the longest first: a repair puts a piece into
 * some of them. Each with its fibres; dead ones take none.
 */
export function pathsOf(
  context: Context,
  fibres: readonly number[],
): readonly { readonly context: Context; readonly fibres: readonly number[] }[] {
  const dead = new Set(context.link.dead.map(({ fibre }) => fibre));
  const paths = new Map<Context, number[]>();
  for (const fibre of fibres) {
    if (dead.has(fibre)) continue;
    const own = context.along(fibre, Infinity);
    paths.set(own, [...(paths.get(own) ?? []), fibre]);
  }
  if (paths.size === 0) paths.set(context, []);
  const lengthOf = (own: Context) => lengthsOf(own.path.pieces).along ?? Infinity;
  return [...paths]
    .map(([own, numbers]) => ({ context: own, fibres: numbers }))
    .sort((a, b) => lengthOf(b.context) - lengthOf(a.context));
}

/** Whether some stretch of the path was written as unknown; in a channel also one of its links. */
export function hasUnknownLength({ path }: Pick<LinkModel, 'path'>): boolean {
  return path.some(
    (element) =>
      (element.kind === 'segment' && element.deliberate) ||
      (element.kind === 'link' && element.link !== undefined && hasUnknownLength(element.link)),
  );
}
