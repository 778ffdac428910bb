/** Where the elements of a path stand on a drawing, and where their words find room. */
import { scaleLinear } from 'd3-scale';
import type { Drawing, DrawnElement } from '../drawing.ts';

/** Joints nearer than this are spread evenly and tied to their true place by a leader, px. */
const apart = 28;

export interface Placed {
  readonly element: DrawnElement;
  /** Where it is drawn; the middle of a stretch of fibre. */
  readonly x: number;
  /** Its true place by distance. */
  readonly own: number;
  /** Beginning and end: equal for joints. */
  readonly from: number;
  readonly to: number;
}

export function isFibre({ sign }: DrawnElement): boolean {
  return sign === 'segment' || sign === 'cord';
}

/** Elements over distance between two places across. */
export function placeElements(drawing: Drawing, left: number, right: number): readonly Placed[] {
  const distance = scaleLinear()
    .domain([0, Math.max(1e-9, drawing.metres)])
    .range([left, right]);
  const joints = drawing.elements.filter((element) => !isFibre(element));
  const own = joints.map(({ at }) => (drawing.metres > 0 ? distance(at) : left));
  const x = spreadOut(own, left, right);
  let joint = 0;
  return drawing.elements.map((element) => {
    if (!isFibre(element)) {
      const at = x[joint] ?? left;
      const placed = { element, x: at, own: own[joint] ?? left, from: at, to: at };
      joint += 1;
      return placed;
    }
    const from = joint === 0 ? left : x[joint - 1]!;
    const to = joint < x.length ? x[joint]! : right;
    return { element, x: (from + to) / 2, own: (from + to) / 2, from, to };
  });
}

/** Keeps the order and pushes apart what is too near: forward from A, then back from B. */
function spreadOut(own: readonly number[], left: number, right: number): number[] {
  const gap = Math.min(apart, (right - left) / Math.max(1, own.length - 1));
  const x = [...own];
  for (let index = 1; index < x.length; index += 1) {
    x[index] = Math.max(x[index]!, x[index - 1]! + gap);
  }
  let limit = right;
  for (let index = x.length - 1; index >= 0; index -= 1) {
    x[index] = Math.min(x[index]!, limit);
    limit = x[index]! - gap;
  }
  return x;
}

export interface Words {
  readonly index: number;
  readonly name: string;
  readonly kind: string;
  /** 0 beside the path, 1 a row further up. */
  readonly row: 0 | 1;
}

/** Width of a letter at 11 px, generously. */
const letter = 6.2;

/**
 * Words that do not meet: each beside the path, or one row up, or its kind
 * alone; what still has no room keeps its words for the pointer.
 */
export function placeWords(
  placed: readonly Placed[],
  left: number,
  right: number,
): readonly Words[] {
  const ends = [left, left];
  const words: Words[] = [];
  const inOrder = placed.map((each, index) => ({ each, index }));
  for (const { each, index } of inOrder) {
    const { name, kind } = each.element;
    const choices = [
      { name, kind },
      { name: '', kind: shortKind(kind) },
    ];
    const found = choices.flatMap((choice) =>
      ([0, 1] as const).flatMap((row) => {
        const half = (Math.max(choice.name.length, choice.kind.length) * letter) / 2;
        const from = Math.max(left, Math.min(each.x - half, right - 2 * half));
        return from >= (ends[row] ?? 0) && from + 2 * half <= right + 1
          ? [{ ...choice, row, end: from + 2 * half }]
          : [];
      }),
    )[0];
    if (!found) continue;
    ends[found.row] = found.end + 8;
    words.push({ index, name: found.name, kind: found.kind, row: found.row });
  }
  return words;
}

/** Elements whose figures find room under them, from A on; the others keep theirs for the pointer. */
export function placeFigures(placed: readonly Placed[]): ReadonlySet<number> {
  const shown = new Set<number>();
  let end = Number.NEGATIVE_INFINITY;
  for (const [index, { element, x }] of placed.entries()) {
    const { counted, allowed, expected } = element;
    const texts = counted ? [allowed?.text ?? '', expected?.text ?? ''] : ['not in it'];
    const half = (Math.max(...texts.map(({ length }) => length)) * letter) / 2;
    if (x - half < end) continue;
    shown.add(index);
    end = x + half + 4;
  }
  return shown;
}

function shortKind(kind: string): string {
  return kind.split(',')[0] ?? kind;
}

/** Heights of labels pushed apart, in order from above; `height` is their least distance. */
export function pushApart<Label extends { readonly y: number }>(
  labels: readonly Label[],
  height: number,
  bottom: number,
): readonly (Label & { readonly at: number })[] {
  const sorted = [...labels].sort((a, b) => a.y - b.y).map((label) => ({ ...label, at: label.y }));
  for (let index = 1; index < sorted.length; index += 1) {
    sorted[index]!.at = Math.max(sorted[index]!.at, sorted[index - 1]!.at + height);
  }
  let limit = bottom;
  for (let index = sorted.length - 1; index >= 0; index -= 1) {
    sorted[index]!.at = Math.min(sorted[index]!.at, limit);
    limit = sorted[index]!.at - height;
  }
  return sorted;
}
