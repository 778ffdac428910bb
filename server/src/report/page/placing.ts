/** Where the elements of a path stand on a drawing, and where their words and figures find room. */
import { scaleLinear } from 'd3-scale';
import type { Drawing } from '../drawing.ts';
import type { DrawnElement } from '../elements.ts';
import { textWidth } from './text-width.ts';

/** Joints nearer than this are spread evenly and tied to their true place by a leader, px. */
const apart = 28;
/** A cord at an end is drawn at least so long, however short it is. */
const leastEnd = 40;
/** Between two texts of one line, px. */
const air = 6;

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
  const [first, last] = [drawing.elements[0], drawing.elements.at(-1)];
  const begin = first && isFibre(first) ? left + leastEnd : left;
  const end = last && isFibre(last) ? right - leastEnd : right;
  const within = own.map((each) => Math.min(end, Math.max(begin, each)));
  const x = spreadOut(within, joints, begin, end);
  let joint = 0;
  return drawing.elements.map((element) => {
    if (!isFibre(element)) {
      const at = x[joint] ?? left;
      const placed = { element, x: at, own: within[joint] ?? left, from: at, to: at };
      joint += 1;
      return placed;
    }
    const from = joint === 0 ? left : x[joint - 1]!;
    const to = joint < x.length ? x[joint]! : right;
    return { element, x: (from + to) / 2, own: (from + to) / 2, from, to };
  });
}

/** Place across of a distance: between the joints before and behind it, where they are drawn. */
export function acrossAt(placed: readonly Placed[], metres: number): number {
  let [x, at] = [placed[0]?.from ?? 0, 0];
  for (const { element, from, to } of placed) {
    if (!isFibre(element)) continue;
    if (metres <= element.at + element.length) {
      return from + ((to - from) * (metres - element.at)) / Math.max(1e-9, element.length);
    }
    [x, at] = [to, element.at + element.length];
  }
  return metres >= at ? x : (placed[0]?.from ?? 0);
}

/** Keeps the order and pushes apart what is too near: forward from A, then back from B. */
function spreadOut(
  own: readonly number[],
  joints: readonly DrawnElement[],
  left: number,
  right: number,
): number[] {
  const wanted = joints.map((joint, index) => {
    const before = joints[index - 1];
    return before ? Math.max(apart, (markWidth(before) + markWidth(joint)) / 2 + air) : 0;
  });
  const sum = wanted.reduce((all, each) => all + each, 0);
  const shrink = Math.min(1, (right - left) / Math.max(1, sum));
  const gap = (index: number) => (wanted[index] ?? 0) * shrink;
  const x = [...own];
  for (let index = 1; index < x.length; index += 1) {
    x[index] = Math.max(x[index]!, x[index - 1]! + gap(index));
  }
  let limit = right;
  for (let index = x.length - 1; index >= 0; index -= 1) {
    x[index] = Math.min(x[index]!, limit);
    limit = x[index]! - gap(index);
  }
  return x;
}

function markWidth({ mark, severity }: DrawnElement): number {
  return Math.max(textWidth(mark), textWidth(severity ?? '', { bold: true }));
}

export interface Words {
  readonly index: number;
  readonly name: string;
  readonly kind: string;
  /** 0 beside the path, 1 a row further up. */
  readonly row: 0 | 1;
  /** Middle of the text. */
  readonly x: number;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

const meets = (a: Stretch, b: Stretch, gap = air): boolean =>
  a.from < b.to + gap && b.from < a.to + gap;

/**
 * Words that do not meet, nor the line that ties the upper row to the path:
 * each beside the path, or one row up, or shortened; what still has no room
 * keeps its words for the pointer. The ends come first, then what has a name.
 */
export function placeWords(
  placed: readonly Placed[],
  left: number,
  right: number,
): readonly Words[] {
  const rows: [Stretch[], Stretch[]] = [[], []];
  const leaders: Stretch[] = [];
  const words: Words[] = [];
  for (const index of byImportance(placed)) {
    const each = placed[index];
    if (!each) continue;
    const leader = { from: each.x - 1, to: each.x + 1 };
    const found = choicesFor(each.element).find(({ name, kind, row }) => {
      const at = stretchOf(each.x, name, kind, left, right);
      if (!at || rows[row].some((other) => meets(at, other))) return false;
      return row === 1
        ? ![...rows[0], ...over(placed, index)].some((other) => meets(leader, other, 2))
        : !leaders.some((other) => meets(at, other, 2));
    });
    if (!found) continue;
    const at = stretchOf(each.x, found.name, found.kind, left, right)!;
    rows[found.row].push(at);
    if (found.row === 1) leaders.push(leader);
    words.push({ index, ...found, x: (at.from + at.to) / 2 });
  }
  return words;
}

/** What stands between words and path, over the signs of other elements. */
function over(placed: readonly Placed[], own: number): readonly Stretch[] {
  return placed.flatMap(({ element, x }, index) => {
    const half = markWidth(element) / 2;
    return index === own || half === 0 ? [] : [{ from: x - half, to: x + half }];
  });
}

function byImportance(placed: readonly Placed[]): readonly number[] {
  const last = placed.length - 1;
  const rank = (index: number): number => {
    const { element } = placed[index]!;
    if (!isFibre(element)) return index === 0 || index === last ? 0 : element.name ? 1 : 3;
    return element.name ? 2 : 4;
  };
  return [...placed.keys()].sort((a, b) => rank(a) - rank(b) || a - b);
}

function choicesFor({ name, kind }: DrawnElement): readonly Omit<Words, 'index' | 'x'>[] {
  const [short = kind] = kind.split(',');
  const texts = [
    { name, kind },
    ...(short === kind ? [] : [{ name, kind: short }]),
    ...(name ? [{ name: '', kind }] : []),
    ...(name && short !== kind ? [{ name: '', kind: short }] : []),
  ];
  return texts.flatMap((text) => ([0, 1] as const).map((row) => ({ ...text, row })));
}

/** What a text takes, pushed in from the edges; undefined where it does not fit between them. */
function stretchOf(
  x: number,
  name: string,
  kind: string,
  left: number,
  right: number,
): Stretch | undefined {
  const width = Math.max(textWidth(name, { mono: true }), textWidth(kind));
  if (width > right - left) return undefined;
  const from = Math.max(left, Math.min(x - width / 2, right - width));
  return { from, to: from + width };
}

/** Elements whose figures find room under them, joints first; the others keep theirs for the pointer. */
export function placeFigures(
  placed: readonly Placed[],
  textsOf: (index: number) => readonly string[],
): ReadonlySet<number> {
  const taken: Stretch[] = [];
  const shown = new Set<number>();
  for (const index of byImportance(placed)) {
    const { x } = placed[index]!;
    const half = Math.max(0, ...textsOf(index).map((text) => textWidth(text))) / 2;
    const at = { from: x - half, to: x + half };
    if (half === 0 || taken.some((other) => meets(at, other, 3))) continue;
    taken.push(at);
    shown.add(index);
  }
  return shown;
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
