/**
 * The results table as a row of entries: links in their order, those that ask
 * for no look folded together. Rows are made only for the slice that is asked
 * for; the rest is counted.
 */
import type { FibreResult, LinkResult, ReadingResult, Verdict } from '../evaluate/result.ts';
import { counted, margin } from './figures.ts';
import { grouped } from './grouping.ts';
import { columnsKey, fibreKey, foldKey, limitsKey, linkKey, readingKey } from './keys.ts';
import type { FoldKind, TableView } from './question.ts';
import { fibreRow } from './rows/fibre.ts';
import { columnsRow, limitsRow, linkRow, unreadRow } from './rows/link.ts';
import { readingRow, readingsOf } from './rows/reading.ts';
import { lanesOf } from './strip.ts';
import type { Subject } from './subject.ts';
import { type Summary, summaryOf } from './summary.ts';
import { lookOf, worstOf } from './verdicts.ts';
import type { FoldRow, Row, Run, TableOutline } from './view.ts';

/** Fewer links than this are not worth folding. */
const foldFrom = 12;
/** From here on a link takes one line. */
const denseFrom = 200;
const overviewPlaces = 200;

interface ShownFibre {
  readonly fibre: FibreResult;
  /** Empty while it is shut. */
  readonly readings: readonly ReadingResult[];
}

export interface LinkEntry {
  readonly kind: 'link';
  readonly summary: Summary;
  readonly open: boolean;
  /** Those that filter and search leave; listed only while the link is open. */
  readonly fibres: readonly ShownFibre[];
  readonly rows: number;
}

export interface FoldEntry {
  readonly kind: 'fold';
  readonly fold: FoldKind | 'group';
  readonly group?: string;
  readonly verdict?: Verdict;
  readonly links: readonly Summary[];
  readonly open: boolean;
  readonly rows: 1;
}

interface UnreadEntry {
  readonly kind: 'unread';
  readonly name: string;
  readonly rows: 1;
}

export type Entry = LinkEntry | FoldEntry | UnreadEntry;

export interface Table {
  readonly entries: readonly Entry[];
  /** Index of the first row of each entry. */
  readonly starts: readonly number[];
  readonly rows: number;
  readonly dense: boolean;
  readonly fibresShown: number;
}

interface Kept {
  readonly view: string;
  readonly results: readonly (LinkResult | undefined)[];
  readonly asking: ReadonlySet<string>;
  readonly table: Table;
}

const tables = new WeakMap<Subject['plan'], Kept>();

/** Slices of a long table are asked for one after the other: while nothing has changed it is the same. */
export function tableOf(subject: Subject, view: TableView, asking: ReadonlySet<string>): Table {
  const { result } = subject.plan;
  const { reach: _, ...ofTable } = view;
  const asked = JSON.stringify(ofTable);
  const results = result.order.map((name) => result.link(name));
  const before = tables.get(subject.plan);
  if (
    before?.view === asked &&
    before.results.length === results.length &&
    before.results.every((each, index) => each === results[index]) &&
    before.asking.size === asking.size &&
    [...asking].every((name) => before.asking.has(name))
  ) {
    return before.table;
  }
  const table = madeTable(subject, view, asking);
  tables.set(subject.plan, { view: asked, results, asking, table });
  return table;
}

function madeTable(subject: Subject, view: TableView, asking: ReadonlySet<string>): Table {
  const { order } = subject.plan.result;
  const keep = filterOf(view);
  const open = new Set(view.open);
  const openFibres = new Set(view.openFibres);
  const shown: LinkEntry[] = [];
  let fibresShown = 0;
  for (const summary of inOrder(subject, view)) {
    const fibres = keep(summary);
    if (!fibres) continue;
    fibresShown += fibres.length;
    shown.push(linkEntry(summary, fibres, open.has(summary.name), openFibres));
  }
  const entries: Entry[] = [
    ...subject.plan.result.order
      .filter((name) => !subject.plan.result.link(name))
      .map((name): UnreadEntry => ({ kind: 'unread', name, rows: 1 })),
    ...(view.group === 'link'
      ? view.find.trim() || byColumn.has(view.order)
        ? shown
        : folded(shown, view, asking)
      : grouped(shown, view)),
  ];
  const starts: number[] = [];
  let rows = 0;
  for (const entry of entries) {
    starts.push(rows);
    rows += entry.rows;
  }
  return { entries, starts, rows, dense: order.length > denseFrom, fibresShown };
}

export function outlineOf(table: Table): TableOutline {
  const { rows, dense, fibresShown } = table;
  return { runs: runsOf(table), rows, dense, overview: overviewOf(table), fibresShown };
}

export function rowsOf(
  subject: Subject,
  table: Table,
  reach: number,
  from: number,
  to: number,
): readonly Row[] {
  const rows: Row[] = [];
  let index = entryAt(table, from);
  for (let at = from; at < Math.min(to, table.rows); index += 1) {
    const entry = table.entries[index]!;
    const start = table.starts[index]!;
    for (; at < Math.min(to, start + entry.rows); at += 1) {
      rows.push(rowAt(subject, entry, at - start, reach));
    }
  }
  return rows;
}

/** Index of the row with this key, undefined while it is not in the table. */
export function indexOf(table: Table, key: string): number | undefined {
  for (const [index, entry] of table.entries.entries()) {
    const inside = offsetOf(entry, key);
    if (inside !== undefined) return table.starts[index]! + inside;
  }
  return undefined;
}

/** Keys and verdicts of all rows of an entry, in order. */
export function keysIn(entry: Entry): { readonly key: string; readonly verdict?: Verdict }[] {
  if (entry.kind === 'unread') return [{ key: linkKey(entry.name) }];
  if (entry.kind === 'fold') return [{ key: keyOfFold(entry) }];
  const { name, result } = entry.summary;
  if (!entry.open) return [{ key: linkKey(name), verdict: result.verdict }];
  return [
    { key: linkKey(name), verdict: result.verdict },
    { key: columnsKey(name) },
    ...entry.fibres.flatMap(({ fibre, readings }) => [
      { key: fibreKey(name, fibre.fibre), verdict: fibre.verdict },
      ...readings.map((reading) => ({
        key: readingKey(name, reading),
        verdict: reading.current ? reading.verdict : ('pass' as const),
      })),
    ]),
    { key: limitsKey(name) },
  ];
}

/** Orders in which a link is looked for by a figure, and so none is folded away. */
const byColumn: ReadonlySet<TableView['order']> = new Set(['length', 'tested', 'limit']);

/** Links in their order, or in the same from its other end; what has no figure stays last. */
function inOrder(subject: Subject, { order, turned }: TableView): readonly Summary[] {
  const { result } = subject.plan;
  const now = result.order.flatMap((name) => {
    const link = result.link(name);
    return link ? [summaryOf(link)] : [];
  });
  if (order === 'length' || order === 'tested' || order === 'limit') {
    return byFigure(now, (summary) => summary[order], turned);
  }
  const sorted =
    order === 'plan' ? now : order === 'name' ? [...now].sort(byName) : byMargin(subject, now);
  return turned ? sorted.toReversed() : sorted;
}

function byFigure(
  all: readonly Summary[],
  figure: (summary: Summary) => number | undefined,
  turned: boolean,
): readonly Summary[] {
  const way = turned ? -1 : 1;
  const known = all.filter((each) => figure(each) !== undefined);
  const sorted = known.sort((a, b) => way * (figure(a)! - figure(b)!));
  return [...sorted, ...all.filter((each) => figure(each) === undefined)];
}

/** What has not changed keeps its place, so that sorting again is quick. */
function byMargin(subject: Subject, now: readonly Summary[]): readonly Summary[] {
  const before = sortedBefore.get(subject.plan) ?? [];
  const byOwnName = new Map(now.map((summary) => [summary.name, summary]));
  const kept: Summary[] = [];
  for (const { name } of before) {
    const summary = byOwnName.get(name);
    if (!summary) continue;
    kept.push(summary);
    byOwnName.delete(name);
  }
  const place = new Map(now.map((summary, index) => [summary, index]));
  const sorted = [...kept, ...byOwnName.values()].sort(
    (a, b) => a.rank - b.rank || compare(a.margin, b.margin) || place.get(a)! - place.get(b)!,
  );
  sortedBefore.set(subject.plan, sorted);
  return sorted;
}

const sortedBefore = new WeakMap<Subject['plan'], readonly Summary[]>();

function byName(a: Summary, b: Summary): number {
  return a.name.localeCompare(b.name, 'en', { numeric: true });
}

/** Two links without a margin are equal, though infinity less infinity is not. */
function compare(a: number, b: number): number {
  return a === b ? 0 : a - b;
}

/** Fibres of a link that filter and search leave; undefined where the link goes too. */
export function filterOf(
  view: TableView,
): (summary: Summary) => readonly FibreResult[] | undefined {
  const hidden = new Set(view.hidden);
  const find = view.find.trim().toLowerCase();
  return (summary) => {
    const { result } = summary;
    if (find && !summary.text().includes(find) && !/\d/u.test(find)) return undefined;
    const own = `${result.link.name}\n${result.link.title ?? ''}`.toLowerCase();
    const whole = !find || own.includes(find);
    if (result.fibres.length === 0) {
      return whole && !hidden.has(result.verdict) ? result.fibres : undefined;
    }
    const fibres =
      whole && hidden.size === 0
        ? result.fibres
        : result.fibres.filter(
            (fibre) => !hidden.has(fibre.verdict) && (whole || fits(fibre, find)),
          );
    return fibres.length > 0 ? fibres : undefined;
  };
}

function fits({ fibre, fromPort = '', toPort = '' }: FibreResult, find: string): boolean {
  return (
    find === String(fibre) ||
    find === `fibre ${fibre}` ||
    fromPort.toLowerCase().includes(find) ||
    toPort.toLowerCase().includes(find)
  );
}

function linkEntry(
  summary: Summary,
  fibres: readonly FibreResult[],
  open: boolean,
  openFibres: ReadonlySet<string>,
): LinkEntry {
  if (!open) return { kind: 'link', summary, open, fibres: [], rows: 1 };
  const shown = fibres.map((fibre) => ({
    fibre,
    readings:
      openFibres.size > 0 && openFibres.has(fibreKey(summary.name, fibre.fibre))
        ? readingsOf(summary.result, fibre)
        : [],
  }));
  const inside = shown.reduce((sum, { readings }) => sum + 1 + readings.length, 0);
  return { kind: 'link', summary, open, fibres: shown, rows: inside + 3 };
}

function folded(
  shown: readonly LinkEntry[],
  view: TableView,
  asking: ReadonlySet<string>,
): readonly Entry[] {
  const groups: Record<FoldKind, LinkEntry[]> = { untested: [], pass: [] };
  const left: LinkEntry[] = [];
  for (const entry of shown) {
    const { verdict } = entry.summary.result;
    const quiet = !entry.open && !asking.has(entry.summary.name);
    if (quiet && (verdict === 'pass' || verdict === 'untested')) groups[verdict].push(entry);
    else left.push(entry);
  }
  const small = (fold: FoldKind) => groups[fold].length < foldFrom;
  if (small('pass') && small('untested')) return shown;
  const stay = new Set(left);
  for (const fold of ['untested', 'pass'] as const) {
    if (small(fold)) for (const entry of groups[fold]) stay.add(entry);
  }
  const rest = shown.filter((entry) => stay.has(entry));
  const folds = (['untested', 'pass'] as const)
    .filter((fold) => !small(fold))
    .flatMap((fold): Entry[] => {
      const open = view.unfolded.includes(fold);
      const links = groups[fold].map(({ summary }) => summary);
      return [{ kind: 'fold', fold, links, open, rows: 1 }, ...(open ? groups[fold] : [])];
    });
  return [...rest, ...folds];
}

/** Links that filter and search leave, with their fibres, in the order of the table. */
export function shownOf(
  subject: Subject,
  view: TableView,
): readonly { readonly result: LinkResult; readonly fibres: readonly FibreResult[] }[] {
  const keep = filterOf(view);
  return inOrder(subject, view).flatMap((summary) => {
    const fibres = keep(summary);
    return fibres ? [{ result: summary.result, fibres }] : [];
  });
}

function runsOf({ entries }: Table): readonly Run[] {
  const runs: [Run[0], number, number][] = [];
  const add = (kind: Run[0], count: number, lines = 1) => {
    const last = runs.at(-1);
    if (last?.[0] === kind && last[2] === lines) last[1] += count;
    else if (count > 0) runs.push([kind, count, lines]);
  };
  for (const entry of entries) {
    if (entry.kind === 'fold') add('fold', 1);
    else add('link', 1);
    if (entry.kind !== 'link' || !entry.open) continue;
    add('columns', 1);
    const lines = waves(entry.summary.result);
    for (const { readings } of entry.fibres) {
      add('fibre', 1, lines);
      add('reading', readings.length);
    }
    add('limits', 1, linesOfLimits(entry.summary.result));
  }
  return runs;
}

/** Of the last line of an open link: one a wavelength, one an application. */
function linesOfLimits({ wavelengths, applications }: LinkResult): number {
  return Math.max(1, wavelengths.length + applications.length);
}

/** Lines that a fibre takes where its wavelengths stand below each other. */
function waves(result: LinkResult): number {
  return Math.max(1, new Set(result.wavelengths.map(({ wavelength }) => wavelength)).size);
}

function overviewOf(table: Table): TableOutline['overview'] {
  const places = new Map<number, Verdict>();
  const mark = (index: number, verdict: Verdict) => {
    if (verdict === 'pass') return;
    const place = Math.floor((index / table.rows) * overviewPlaces);
    const there = places.get(place);
    if (there !== verdict) places.set(place, there ? worstOf([there, verdict])! : verdict);
  };
  for (const [index, entry] of table.entries.entries()) {
    if (entry.kind !== 'link') continue;
    let row = table.starts[index]!;
    if (!entry.open) mark(row, entry.summary.result.verdict);
    row += 2;
    for (const { fibre, readings } of entry.fibres) {
      mark(row, fibre.verdict);
      for (const [inside, reading] of readings.entries()) {
        if (reading.current) mark(row + 1 + inside, reading.verdict);
      }
      row += 1 + readings.length;
    }
  }
  return [...places].map(([place, verdict]) => [place / overviewPlaces, verdict] as const);
}

function entryAt({ starts }: Table, row: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (starts[middle]! <= row) low = middle;
    else high = middle - 1;
  }
  return low;
}

function offsetOf(entry: Entry, key: string): number | undefined {
  if (entry.kind === 'unread') return key === linkKey(entry.name) ? 0 : undefined;
  if (entry.kind === 'fold') return key === keyOfFold(entry) ? 0 : undefined;
  if (key === linkKey(entry.summary.name)) return 0;
  if (!entry.open || !key.includes(entry.summary.name)) return undefined;
  const inside = keysIn(entry).findIndex((each) => each.key === key);
  return inside < 0 ? undefined : inside;
}

function rowAt(subject: Subject, entry: Entry, offset: number, reach: number): Row {
  if (entry.kind === 'unread') return unreadRow(entry.name);
  if (entry.kind === 'fold') return foldRow(subject, entry, reach);
  const { result } = entry.summary;
  if (offset === 0) return linkRow(subject, result, reach, entry.open);
  if (offset === 1) return columnsRow(subject, result);
  let at = 2;
  for (const { fibre, readings } of entry.fibres) {
    if (offset === at) return fibreRow(subject, result, fibre, readings.length > 0);
    const reading = readings[offset - at - 1];
    if (reading) return readingRow(subject, result, fibre, reading);
    at += 1 + readings.length;
  }
  return limitsRow(subject, result);
}

function keyOfFold({ fold, group }: FoldEntry): string {
  return foldKey(group === undefined ? fold : `group ${group}`);
}

function foldRow(subject: Subject, entry: FoldEntry, reach: number): FoldRow {
  const { fold, links, open, group, verdict } = entry;
  const results = links.map(({ result }) => result);
  const worst = results
    .flatMap(({ worstMargin }) => worstMargin ?? [])
    .reduce<NonNullable<LinkResult['worstMargin']> | undefined>(
      (least, each) => (least && least.margin <= each.margin ? least : each),
      undefined,
    );
  const number = counted(links.length, 'link');
  const sentence =
    fold === 'group'
      ? [number, verdict ? lookOf(verdict).word : group ? `in ${group}` : 'in no cable'].join(', ')
      : fold === 'pass'
        ? `${number} pass, folded because nothing in them asks for a look`
        : `${number} with readings to make`;
  return {
    kind: 'fold',
    key: keyOfFold(entry),
    fold,
    ...(group === undefined ? {} : { group }),
    ...(verdict ? { verdict } : {}),
    open,
    links: links.length,
    sentence: sentence.slice(number.length).replace(/^,? /u, ''),
    lanes: lanesOf(results, reach),
    ...(worst
      ? {
          margin: {
            text: margin(worst.margin, subject.display.precision),
            verdict: worst.reading.verdict,
          },
        }
      : {}),
    spoken: sentence,
  };
}
