/** The one door of the results view: a question in, its part of the view model out. */
import { type ChartsView, chartsOf } from './charts.ts';
import { type CoverageView, coverageOf } from './coverage.ts';
import { type Drawing, drawingOf } from './drawing.ts';
import { findingsOf, namesWithFindings } from './findings.ts';
import { overallOf } from './head.ts';
import { fibreKey, linkKey, partsOf } from './keys.ts';
import type { Question, TableView } from './question.ts';
import { shownText } from './shown-text.ts';
import type { Subject } from './subject.ts';
import { indexOf, keysIn, outlineOf, rowsOf, type Table, tableOf } from './table.ts';
import { type CursorPlace, holds, readingAt, typedAt } from './typed.ts';
import type { AtCursor, FindingsView, Results, Slice, Step, TextPlace } from './view.ts';

/** Findings that come with the page; more are asked for. */
const firstFindings = 100;
/** Never more rows at once, whatever is asked. */
const mostRows = 2000;

/** Where the cursor of the editor stands: names declared or tested there, and the place itself. */
export interface Cursor extends CursorPlace {
  readonly objects: readonly string[];
}

export interface Answers {
  readonly results: Results;
  readonly rows: Slice;
  readonly drawing: Drawing | null;
  readonly findings: FindingsView;
  readonly cursor: AtCursor;
  readonly step: Step | null;
  readonly 'find-row': Step;
  readonly coverage: CoverageView;
  readonly charts: ChartsView;
  readonly text: string;
  readonly place: TextPlace | null;
}

export type Answer = Answers[keyof Answers];

/** Every question but that for a place, which the text itself has to answer. */
export function answerTo(
  subject: Subject,
  question: Exclude<Question, { ask: 'place' }>,
  cursor: Cursor | undefined,
): Answer {
  switch (question.ask) {
    case 'results':
      return resultsOf(subject, question.view, question.from, question.to);
    case 'rows':
      return sliceOf(subject, question.view, question.from, question.to);
    case 'drawing':
      return drawingOf(subject, question.object, question.wavelength) ?? null;
    case 'findings':
      return findingsOf(subject.plan, question.from, question.to);
    case 'cursor':
      return cursor ? atCursor(subject, question.view, cursor) : {};
    case 'step':
      return step(subject, question);
    case 'coverage':
      return coverageOf(subject, question.view, question.cable);
    case 'charts':
      return chartsOf(subject, question.view, question.object);
    case 'text':
      return shownText(subject, question.view, question.form);
    case 'find-row':
      return stepTo(subject, question.view, question.key);
  }
}

export function resultsOf(subject: Subject, view: TableView, from: number, to: number): Results {
  const { head, tally, scale } = overallOf(subject, view);
  const table = tableFor(subject, view);
  const first = Math.max(0, Math.min(from, table.rows - (to - from)));
  return {
    root: subject.plan.root,
    head,
    tally,
    scale,
    outline: outlineOf(table),
    slice: {
      from: first,
      rows: rowsOf(subject, table, scale.reach, first, Math.min(to, first + mostRows)),
    },
    findings: findingsOf(subject.plan, 0, firstFindings),
    ...(subject.plan.result.order.length === 0 ? { empty: 'no-links' as const } : {}),
  };
}

function sliceOf(subject: Subject, view: TableView, from: number, to: number): Slice {
  const { scale } = overallOf(subject, view);
  const table = tableFor(subject, view);
  const first = Math.max(0, Math.min(from, table.rows));
  return {
    from: first,
    rows: rowsOf(subject, table, scale.reach, first, Math.min(to, first + mostRows)),
  };
}

function tableFor(subject: Subject, view: TableView): Table {
  return tableOf(subject, view, namesWithFindings(subject.plan));
}

function atCursor(subject: Subject, view: TableView, cursor: Cursor): AtCursor {
  const results = cursor.objects.flatMap((name) => subject.plan.result.link(name) ?? []);
  const tested = results.find((each) => readingAt(each, cursor));
  const named = results.find(
    ({ link }) => holds(link.place, cursor) || (link.row && holds(link.row, cursor)),
  );
  const result = tested ?? named ?? results[0];
  if (!result) return {};
  const { name } = result.link;
  const fibre = tested && readingAt(tested, cursor)?.fibre;
  const typed = tested && typedAt(subject, tested, cursor);
  const table = tableFor(subject, view);
  const ofFibre = fibre === undefined ? undefined : fibreKey(name, fibre);
  const inFibre = ofFibre === undefined ? undefined : indexOf(table, ofFibre);
  const key = inFibre === undefined ? linkKey(name) : ofFibre!;
  const index = inFibre ?? indexOf(table, key);
  return {
    object: name,
    ...(fibre === undefined ? {} : { fibre }),
    key,
    ...(index === undefined ? {} : { index }),
    ...(typed ? { typed } : {}),
  };
}

function stepTo(subject: Subject, view: TableView, key: string): Step {
  const { kind, link } = partsOf(key);
  const open = kind === 'fibre' || kind === 'reading' ? [link] : [];
  const wider = { ...view, open: [...new Set([...view.open, ...open])] };
  const index = indexOf(tableFor(subject, wider), key);
  return { key, ...(index === undefined ? {} : { index }), open };
}

type StepQuestion = Extract<Question, { ask: 'step' }>;

function step(subject: Subject, { view, from, to, back }: StepQuestion): Step | null {
  return to === 'missing'
    ? nextMissing(subject, view, from)
    : nextNotPass(subject, view, from, back);
}

/** Among the rows as they stand: fibres of open links, and links that are shut. */
function nextNotPass(subject: Subject, view: TableView, from: string, back: boolean): Step | null {
  const table = tableFor(subject, view);
  const keys = table.entries.flatMap((entry, index) =>
    keysIn(entry).map((each, inside) => ({ ...each, index: table.starts[index]! + inside })),
  );
  const at = keys.findIndex(({ key }) => key === from);
  const asks = ({ verdict }: (typeof keys)[number]) => verdict !== undefined && verdict !== 'pass';
  const found = back
    ? (keys.slice(0, Math.max(0, at)).findLast(asks) ?? keys.findLast(asks))
    : (keys.slice(at + 1).find(asks) ?? keys.find(asks));
  return found ? { key: found.key, index: found.index, open: [] } : null;
}

/** The next fibre, in the order of the table, that has a reading to make. */
function nextMissing(subject: Subject, view: TableView, from: string): Step | null {
  const { entries } = tableFor(subject, { ...view, unfolded: ['untested'] });
  const { link, fibre } = partsOf(from);
  const all = entries.flatMap((entry) =>
    entry.kind !== 'link' || entry.summary.result.present >= entry.summary.result.expected
      ? []
      : entry.summary.result.fibres
          .filter(({ current }) => current.some(({ attempt }) => attempt === null))
          .map((each) => ({ link: entry.summary.name, fibre: each.fibre })),
  );
  const own = all.findIndex(
    (each) => each.link === link && (fibre === undefined || each.fibre > fibre),
  );
  const after =
    own >= 0 ? all[own] : (all[all.findLastIndex((each) => each.link === link) + 1] ?? all[0]);
  if (!after) return null;
  return stepTo(subject, view, fibreKey(after.link, after.fibre));
}
