/**
 * A splitter tree drawn over loss: every end stands where its loss ends, what
 * ends share is drawn once, and ends that are alike share a row.
 */
import { type ExactDb, exactDb, type Picometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, Verdict, WavelengthResult, WayResult } from '../evaluate/result.ts';
import type { LinkModel } from '../model/types.ts';
import { type DrawnElement, ratioOf } from './elements.ts';
import { decibels, length, lossBeside, microToDb, toDb } from './figures.ts';
import type { LaidElement } from './path.ts';
import type { Subject } from './subject.ts';
import { worstOf } from './verdicts.ts';
import type { Side, TextPlace } from './view.ts';

/** A stretch of one row, dB from A. */
interface TreeLine {
  readonly row: number;
  readonly from: number;
  readonly to: number;
  /** Loss of a splitter rather than of fibre and joints. */
  readonly split: boolean;
}

/** Where a path parts: from the first to the last row of what follows. */
interface TreeStem {
  readonly at: number;
  /** Where the splitter stands, and the first and last of its branches; rows may lie between ends. */
  readonly row: number;
  readonly first: number;
  readonly last: number;
  /** `SP-1 PLC-1x4`. */
  readonly name: string;
  /** `1:4`; empty where its name does not hold it. */
  readonly ratio: string;
  readonly place?: TextPlace;
}

interface TreeReading {
  readonly loss: number;
  readonly side: Side;
  readonly verdict: Verdict;
}

interface TreeEnd {
  readonly row: number;
  readonly name: string;
  /** How many more ends are like it. */
  readonly alike: number;
  readonly length: string;
  /** Most allowed up to the end, dB; undefined where a figure is missing. */
  readonly loss?: number;
  /** What stands behind the end: the greatest reading, else what is most allowed. */
  readonly figure: string;
  readonly limit?: { readonly loss: number; readonly figure: string };
  readonly readings: readonly TreeReading[];
  readonly verdict: Verdict;
  readonly place?: TextPlace;
}

/** A limit that all ends share: a line through all of them. */
interface TreeBound {
  readonly what: 'least' | 'limit';
  readonly name: string;
  readonly loss: number;
  readonly figure: string;
}

export interface TreeDrawing {
  /** The port at its root, and the row it stands in. */
  readonly root: { readonly name: string; readonly row: number };
  readonly rows: number;
  readonly lines: readonly TreeLine[];
  readonly stems: readonly TreeStem[];
  readonly ends: readonly TreeEnd[];
  readonly bounds: readonly TreeBound[];
}

/** Ends within this much of each other share a row; one further off its siblings never does. */
const alike = 0.5;

/** Elements of one way as they are laid and drawn. */
export interface DrawnWay {
  readonly laid: readonly LaidElement[];
  readonly drawn: readonly DrawnElement[];
}

export function treeOf(
  subject: Subject,
  result: LinkResult,
  at: Picometres,
  drawWay: (way: WayResult, at: WavelengthResult | undefined) => DrawnWay,
): TreeDrawing {
  const branches = result.ways.filter(({ kind }) => kind === 'branch');
  const root: Node = { from: 0, to: 0, split: false, children: [], ends: [] };
  for (const branch of branches) {
    const judged = branch.wavelengths.find(({ wavelength }) => wavelength === at);
    const { laid, drawn } = drawWay(branch, judged);
    insert(root, laid, drawn, endOf(subject, result, branch, judged, drawn, at));
  }
  const lines: TreeLine[] = [];
  const stems: TreeStem[] = [];
  const ends: TreeEnd[] = [];
  const row = place(subject, fold(root), { lines, stems, ends });
  return {
    root: { name: result.link.from[0] ?? '', row },
    rows: ends.length,
    lines,
    stems,
    ends,
    bounds: boundsOf(subject, branches, result.link.terms.carries, at),
  };
}

type Loose = Omit<TreeEnd, 'row'>;

interface Node {
  readonly element?: LaidElement['element'];
  readonly from: number;
  readonly to: number;
  readonly split: boolean;
  readonly children: Node[];
  readonly ends: Loose[];
}

function endOf(
  subject: Subject,
  result: LinkResult,
  branch: WayResult,
  judged: WavelengthResult | undefined,
  drawn: readonly DrawnElement[],
  at: Picometres,
): Loose {
  const { precision } = subject.display;
  const fibre = result.fibres.find((each) => each.fibre === branch.way.fibre);
  const here = fibre?.current.filter(({ wavelength }) => wavelength === at) ?? [];
  const read = here.flatMap(({ loss, direction, verdict }) =>
    loss === undefined
      ? []
      : [
          {
            micro: loss,
            loss: microToDb(loss),
            side: (direction === 'A>B' ? 'up' : direction === 'B>A' ? 'down' : 'both') as Side,
            verdict,
          },
        ],
  );
  const greatest = read.reduce<(typeof read)[number] | undefined>(
    (a, b) => (a && a.micro >= b.micro ? a : b),
    undefined,
  );
  const loss = drawn.findLast(({ allowed }) => allowed)?.allowed?.upTo;
  const limit = judged?.governing?.value;
  const own = subject.plan.locate(branch.way.place);
  return {
    name: branch.name,
    alike: 0,
    length: branch.length === undefined ? '' : length(branch.length, subject.display),
    ...(loss === undefined ? {} : { loss }),
    figure: greatest
      ? lossBeside(greatest.micro, limit, precision)
      : judged?.worst === undefined
        ? ''
        : decibels(judged.worst, precision),
    ...(limit === undefined
      ? {}
      : { limit: { loss: toDb(limit), figure: decibels(limit, precision) } }),
    readings: read.map(({ loss: each, side, verdict }) => ({ loss: each, side, verdict })),
    verdict: worstOf(here.map(({ verdict }) => verdict)) ?? 'not-judged',
    ...(own ? { place: own } : {}),
  };
}

/** Puts a way into the tree; ways share what is the same element. */
function insert(
  root: Node,
  laid: readonly LaidElement[],
  drawn: readonly DrawnElement[],
  end: Loose,
): void {
  let node = root;
  for (const [index, { element }] of laid.entries()) {
    const known = node.children.find((child) => child.element === element);
    if (known) {
      node = known;
      continue;
    }
    const to = drawn[index]?.allowed?.upTo ?? node.to;
    const split = element.kind === 'split';
    const child: Node = { element, from: node.to, to, split, children: [], ends: [] };
    node.children.push(child);
    node = child;
  }
  node.ends.push(end);
}

/** Sibling branches with one end each that are as good as equal become one. */
function fold(node: Node): Node {
  const children: Node[] = [];
  for (const child of node.children.map(fold)) {
    const end = loneEnd(child);
    const twin =
      end &&
      children.find((other) => {
        const before = loneEnd(other);
        return before !== undefined && areAlike(before, end);
      });
    if (!twin || !end) {
      children.push(child);
      continue;
    }
    const kept = lastOf(twin);
    kept.ends[0] = joined(kept.ends[0] as Loose, end);
  }
  return { ...node, children };
}

function areAlike(a: Loose, b: Loose): boolean {
  if (
    a.verdict !== b.verdict ||
    a.length === '' ||
    (a.verdict !== 'pass' && a.readings.length > 0)
  ) {
    return false;
  }
  const losses = [a, b].map(({ loss, readings }) => readings[0]?.loss ?? loss);
  const [first, second] = losses;
  return first !== undefined && second !== undefined && Math.abs(first - second) <= alike;
}

/** The worse of two gives its figures; all readings stay. */
function joined(a: Loose, b: Loose): Loose {
  const worse = (b.readings[0]?.loss ?? b.loss ?? 0) > (a.readings[0]?.loss ?? a.loss ?? 0) ? b : a;
  return {
    ...worse,
    name: a.name,
    place: a.place,
    alike: a.alike + b.alike + 1,
    readings: [...a.readings, ...b.readings],
  };
}

function loneEnd(node: Node): Loose | undefined {
  if (node.children.length === 0) return node.ends.length === 1 ? node.ends[0] : undefined;
  return node.children.length === 1 && node.ends.length === 0
    ? loneEnd(node.children[0] as Node)
    : undefined;
}

function lastOf(node: Node): Node {
  return node.children.length === 0 ? node : lastOf(node.children[0] as Node);
}

interface Placed {
  readonly lines: TreeLine[];
  readonly stems: TreeStem[];
  readonly ends: TreeEnd[];
}

/** Gives ends rows from the top; a node stands in the middle of what follows it. */
function place(subject: Subject, node: Node, into: Placed): number {
  const own = node.ends.map((end) => {
    const row = into.ends.length;
    into.ends.push({ ...end, row });
    return row;
  });
  const rows = node.children.map((child) => place(subject, child, into));
  const all = [...own, ...rows];
  const row = ((all[0] ?? 0) + (all.at(-1) ?? 0)) / 2;
  if (node.to > node.from)
    into.lines.push({ row, from: node.from, to: node.to, split: node.split });
  const [first] = rows;
  const last = rows.at(-1);
  if (rows.length > 1 && first !== undefined && last !== undefined) {
    const splitter = node.children.find(({ element }) => element?.kind === 'split')?.element;
    const at = splitter && subject.plan.locate(splitter.place);
    into.stems.push({
      at: node.to,
      row,
      first,
      last,
      name: splitter?.kind === 'split' ? `${splitter.name} ${splitter.splitter}` : '',
      ratio: splitter?.kind === 'split' ? ratioOf(splitter.splitter) : '',
      ...(at ? { place: at } : {}),
    });
  }
  return row;
}

/** Limits that are the same for every end, and the least loss that an application wants. */
function boundsOf(
  subject: Subject,
  branches: readonly WayResult[],
  carries: LinkModel['terms']['carries'],
  at: Picometres,
): readonly TreeBound[] {
  const { precision } = subject.display;
  const bound = (what: TreeBound['what'], name: string, value: ExactDb): TreeBound => ({
    what,
    name,
    loss: toDb(value),
    figure: decibels(value, precision),
  });
  const limits = branches.map(({ wavelengths }) =>
    wavelengths
      .find(({ wavelength }) => wavelength === at)
      ?.limits.find(({ kind, value }) => kind === 'application' && value !== undefined),
  );
  const [first] = limits;
  const shared =
    first?.value !== undefined && limits.every((limit) => limit?.value === first.value)
      ? [bound('limit', first.name, first.value)]
      : [];
  const least = carries.flatMap(({ name, application, beside }) => {
    const min = application?.rows.find((row) => row.min !== undefined)?.min;
    return min === undefined || beside ? [] : [bound('least', name, exactDb(min))];
  });
  return [...least.slice(0, 1), ...shared];
}
