/** A path as it is drawn: elements from A to B with their place along it; links of a channel opened up. */
import { type Micrometres, micrometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import type { LinkModel, PathElement } from '../model/types.ts';

export interface LaidElement {
  readonly element: Exclude<PathElement, { kind: 'link' }>;
  /** Metres from A. */
  readonly at: number;
  /** Metres it takes. */
  readonly length: number;
  /** The link of a channel that it belongs to. */
  readonly link?: string;
}

export interface LaidPath {
  readonly elements: readonly LaidElement[];
  /** Metres from A to B. */
  readonly length: number;
}

export function layOut(object: LinkModel): LaidPath {
  const elements: LaidElement[] = [];
  let at = 0;
  for (const { element, link } of flat(object)) {
    const length = toMetres(lengthOf(element));
    elements.push({ element, at, length, ...(link ? { link } : {}) });
    at += length;
  }
  return { elements, length: at };
}

type Flat = Pick<LaidElement, 'element' | 'link'>;

function flat(object: LinkModel): readonly Flat[] {
  return object.path.flatMap((element): Flat[] => {
    if (element.kind !== 'link') return [{ element }];
    if (!element.link) return [];
    const inner = flat(element.link);
    const { name, turned } = element;
    return (turned ? inner.toReversed() : inner).map((each) => ({ ...each, link: name, turned }));
  });
}

function lengthOf(element: LaidElement['element']): Micrometres {
  return element.kind === 'segment' || element.kind === 'cord'
    ? (element.length ?? micrometres(0))
    : micrometres(0);
}
