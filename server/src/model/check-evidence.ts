/**
 * What there is to say about a piece of evidence by itself: names that mean
 * nothing, columns without direction, times that run backwards, ends that a
 * tree does not have, events that say too little or lie behind their own end.
 */
import type { BoundEntry } from '../../../grammar/src/bound.ts';
import { micrometres, toMetres } from '../../../grammar/src/quantity/index.ts';
import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import type { EvidencePart, RowsPart } from './declaration.ts';
import { endsOf, objectModel, testedOf } from './evidence-rows.ts';
import type { ModelFinding } from './finding.ts';
import { finding } from './findings.ts';
import { numbersInWords } from './numbers.ts';
import { unknownName, unknownNames } from './resolve.ts';
import type { EvidenceRows } from './rows.ts';
import { nearestSpelling, type Scope } from './scope.ts';
import { placeIn, whenOf, wholesOf } from './values.ts';

export function checkEvidence(part: EvidencePart, scope: Scope): readonly ModelFinding[] {
  const { block, object, content } = part;
  const findings: ModelFinding[] = [];
  const value = { kind: 'name', span: part.objectPlace.span, text: object } as const;
  const unknown = unknownName(['object'], value, part.objectPlace, scope);
  if (unknown) findings.push(unknown);
  const entries = 'rows' in content ? content.head.entries : content.entries;
  findings.push(...unknownNames(entries, content.kind, block, scope));
  if (!('rows' in content)) {
    findings.push(...fibresNotThere(part, entries, scope));
    return findings;
  }
  findings.push(...testedBackwards(entries, part), ...directionsMissing(part, content));
  if (!unknown) findings.push(...endsUnknown(part, content, scope));
  if (content.kind === W.events) {
    findings.push(
      ...eventsIncomplete(part, content),
      ...eventsBeforeStart(part, content),
      ...eventsBeyondEnd(part, content),
    );
  }
  return findings;
}

function directionsMissing({ block, object }: EvidencePart, { head }: RowsPart): ModelFinding[] {
  return head.headings.flatMap((heading) => {
    if (heading.kind !== 'reading' || heading.direction) return [];
    const column = `${heading.wavelength / 1000} nm`;
    const place = placeIn(block, heading.span);
    return [finding('direction-missing', place, { column }, { about: object })];
  });
}

const whatWasTested = {
  readings: 'readings',
  events: 'traces',
  inspection: 'inspections',
} as const;

function* testedBackwards(
  entries: readonly BoundEntry[],
  { block, object, content }: EvidencePart,
): Iterable<ModelFinding> {
  const entry = entries.find(({ word }) => word === W.tested);
  if (!entry || !('rows' in content)) return;
  const line = { block, entry };
  const whole = testedOf(line);
  const from = whenOf(line, entry.slots.date);
  if (!whole || !from || whole.to >= from.from) return;
  const [first = '', last = ''] = whole.text.split(' to ');
  yield finding(
    'tested-backwards',
    placeIn(block, entry.span),
    { what: whatWasTested[content.kind], from: first, to: last },
    { about: object },
  );
}

const columnOf = ({ head }: RowsPart, word: string): number =>
  head.headings.findIndex((heading) => heading.kind === 'word' && heading.word === word);

/** An end is named by its port, as the tree's outputs name it; where one of those is not read, it may name it. */
function* endsUnknown(
  { block, object }: EvidencePart,
  content: RowsPart,
  scope: Scope,
): Iterable<ModelFinding> {
  const { rows, head } = content;
  const column = columnOf(content, W.end);
  const heading = head.headings[column];
  const model = heading && objectModel(object, scope);
  if (!heading || !model) return;
  const ends = endsOf(model);
  if (ends.size === 0) {
    // A tree that could not be read has no ends either: its own findings say why.
    if (model.path.some((element) => element.kind === 'split') || model.ways.length > 0) return;
    const place = placeIn(block, heading.span);
    yield finding('ends-without-tree', place, { object: model.name }, { about: object });
    return;
  }
  if (model.unread) return;
  for (let row = 0; row < rows.count; row++) {
    const name = rows.words(row, column);
    if (name === undefined || ends.has(name)) continue;
    const place = placeIn(block, rows.span(row, column));
    const nearest = nearestSpelling(name, ends.keys());
    yield finding(
      'unknown-end',
      place,
      { object: model.name, name, ...(nearest !== undefined && { nearest }) },
      nearest === undefined
        ? { about: object }
        : {
            about: object,
            fix: { title: `Change to ${nearest}`, edits: [{ place, text: nearest }] },
          },
    );
  }
}

/** Work, withdrawals and concessions name fibres of their object, by its own numbers. */
function* fibresNotThere(
  { block, object }: EvidencePart,
  entries: readonly BoundEntry[],
  scope: Scope,
): Iterable<ModelFinding> {
  const values = entries.find(({ word }) => word === W.fibres)?.slots.fibres;
  const fibres = values && objectModel(object, scope)?.fibres;
  if (!fibres || fibres.length === 0) return;
  const known = new Set(fibres);
  for (const value of values) {
    const fibre = wholesOf([value])?.find((number) => !known.has(number));
    if (fibre === undefined) continue;
    const details = { of: object, fibre, fibres: numbersInWords(fibres) };
    yield finding('fibre-out-of-range', placeIn(block, value.span), details, { about: object });
  }
}

/** Distances count from end A: one finding for each fibre. */
function* eventsBeforeStart(
  { block, object }: EvidencePart,
  content: RowsPart,
): Iterable<ModelFinding> {
  const { rows } = content;
  const [at, kind, fibreAt, endAt] = [W.at, W.kind, W.fibre, W.end].map((word) =>
    columnOf(content, word),
  ) as [number, number, number, number];
  const said = new Set<number | string>();
  for (const row of rowNumbers(rows)) {
    const fibre = rows.number(row, fibreAt) ?? rows.words(row, endAt);
    const length = rows.measured(row, at);
    if (fibre === undefined || length?.kind !== 'quantity') continue;
    if (length.base >= 0 || said.has(fibre)) continue;
    said.add(fibre);
    const what = rows.words(row, kind) === C.end ? 'The end of the trace' : 'An event';
    const details = { what, fibre, at: inWords(length.base) };
    yield finding('event-before-start', placeIn(block, rows.span(row, at)), details, {
      about: object,
    });
  }
}

/** Said once for all rows of the block that lack the same. */
function* eventsIncomplete(
  { block, object }: EvidencePart,
  content: RowsPart,
): Iterable<ModelFinding> {
  const { rows, head } = content;
  if (head.headings.some(({ kind }) => kind === 'spoilt') || rows.count === 0) return;
  for (const [word, what] of [
    [W.at, 'distance'],
    [W.kind, 'kind'],
  ] as const) {
    const column = columnOf(content, word);
    if (column < 0) {
      const place = placeIn(block, head.headings[0]?.span ?? rows.rowSpan(0));
      yield finding('event-incomplete', place, { rows: rows.count, what }, { about: object });
      continue;
    }
    const lacking = rowNumbers(rows).filter((row) => rows.isAbsent(row, column));
    const [first] = lacking;
    if (first === undefined) continue;
    const place = placeIn(block, rows.span(first, column));
    yield finding('event-incomplete', place, { rows: lacking.length, what }, { about: object });
  }
}

/** A trace that ends cannot go on behind its end: one finding for each fibre. */
function* eventsBeyondEnd(
  { block, object }: EvidencePart,
  content: RowsPart,
): Iterable<ModelFinding> {
  const { rows } = content;
  const [at, kind, fibreAt, endAt] = [W.at, W.kind, W.fibre, W.end].map((word) =>
    columnOf(content, word),
  ) as [number, number, number, number];
  const fibreOf = (row: number) => rows.number(row, fibreAt) ?? rows.words(row, endAt);
  const lengthOf = (row: number) => {
    const measured = rows.measured(row, at);
    return measured?.kind === 'quantity' ? measured : undefined;
  };
  const ends = new Map<number | string, number>();
  for (const row of rowNumbers(rows)) {
    const fibre = fibreOf(row);
    // An end before the beginning has its own finding.
    if (
      fibre !== undefined &&
      rows.words(row, kind) === C.end &&
      (lengthOf(row)?.base ?? -1) >= 0
    ) {
      ends.set(fibre, row);
    }
  }
  const said = new Set<number | string>();
  for (const row of rowNumbers(rows)) {
    const fibre = fibreOf(row);
    const end = fibre === undefined ? undefined : ends.get(fibre);
    const [here, last] = [lengthOf(row), end === undefined ? undefined : lengthOf(end)];
    if (fibre === undefined || end === undefined || !here || !last || said.has(fibre)) continue;
    if (here.base <= last.base) continue;
    said.add(fibre);
    const related = [
      { place: placeIn(block, rows.span(end, at)), message: 'The end of the trace.' },
    ];
    yield finding(
      'event-beyond-end',
      placeIn(block, rows.span(row, at)),
      { fibre, at: inWords(here.base), end: inWords(last.base) },
      { about: object, related },
    );
  }
}

const rowNumbers = (rows: EvidenceRows): number[] =>
  Array.from({ length: rows.count }, (_, row) => row);

function inWords(base: number): string {
  const metres = toMetres(micrometres(base));
  return Math.abs(metres) >= 1000 ? `${Number((metres / 1000).toFixed(6))} km` : `${metres} m`;
}
