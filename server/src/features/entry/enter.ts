import type { Range, TextDocumentIdentifier } from 'vscode-languageserver-protocol';
import { formatLine } from '../../../../grammar/src/format.ts';
import { K } from '../../../../grammar/src/vocabulary/index.ts';
import type { PlacedEdit } from '../../checks/finding.ts';
import type { Finding } from '../../checks/index.ts';
import type { LinkResult, ReadingResult, Verdict } from '../../evaluate/result.ts';
import type { Place } from '../../model/types.ts';
import { placeName } from '../../model/ways.ts';
import type { Plan } from '../../project/types.ts';
import { feature, type Session, subject } from '../feature.ts';
import { readingInWords } from '../wording.ts';
import { type Blank, blankFor, cellIn } from './blanks.ts';
import { farOff } from './far-off.ts';
import { cellName, headingOf } from './grid.ts';
import { newBlock } from './lay-out.ts';
import { problemIn } from './problem.ts';
import { doubtsOf, readingOf, triedWith } from './tried.ts';
import { lossInDb, readTyped } from './typed.ts';
import { sameKey, type WantedKey, wantedOf } from './wanted.ts';

export interface EnterParams {
  readonly textDocument: TextDocumentIdentifier;
  readonly object: string;
  readonly key: WantedKey;
  /** As typed: a number, perhaps with its unit, or `dark`; `-` takes it out. */
  readonly text: string;
  /** The minute on the tester's clock, `2026-03-14 09:05`; the server asks none. */
  readonly now?: string;
  /** Who measures. */
  readonly by?: string;
  /** As it was written a moment ago: put right in its cell, where it stands there still. */
  readonly instead?: string;
}

/** What writing a reading does, or why it cannot be written. */
export type Entered =
  | {
      readonly uri: string;
      readonly edit: { readonly range: Range; readonly newText: string };
      /** As it stands in its cell. */
      readonly written: string;
      /** Where it stands once the edit is made. */
      readonly cell: Range;
      readonly verdict: Verdict;
      /** `fibre 7: 0.97 dB, pass, margin +0.83 at 850 nm A>B`. */
      readonly said: string;
      /** Sentences that ask for a second look before it becomes evidence. It is written all the same if wanted. */
      readonly doubts: readonly string[];
    }
  | { readonly problem: string };

/**
 * One reading as it would be written and judged. Nothing is changed by asking:
 * the plan is judged on a copy, and the editor writes what comes back, so that
 * undo, hand edits and saving are the editor's own.
 */
export const enterReading = feature<EnterParams, Entered>({
  method: 'linkwright/enterReading',
  capabilities: {},
  answer(session, params) {
    const plan = subject(session, params.textDocument.uri)?.plan;
    const result = plan?.result.link(params.object);
    if (!plan || !result) return { problem: `${params.object} is not in this plan any more.` };
    const { key, instead } = params;
    const blank = blankFor(session.project, plan, result, key, instead);
    const write = blank
      ? (text: string) => intoBlank(result, blank, params, text)
      : (text: string) => intoNewBlock(session, plan, result, params, text);
    const reference = () => readingAfter(plan, result, key, write(K.dark).edits)?.reference;
    const typed = readTyped(params.text, blank?.column ?? lossInDb, reference);
    if ('problem' in typed) return typed;
    const written = write(typed.text);
    const problem = problemIn(written.text, written.before);
    if (problem) return { problem };
    const { uri, edit, cell } = written;
    const entered = judged(session, plan, result, key, written);
    const doubts = [
      ...(typed.doubt === undefined ? [] : [typed.doubt]),
      ...(blank ? [] : standing(session, result, key)),
      ...entered.doubts,
    ];
    return { uri, edit, written: typed.text, cell, ...entered, doubts };
  },
});

interface Written {
  readonly uri: string;
  readonly edit: { readonly range: Range; readonly newText: string };
  readonly cell: Range;
  /** The same edit, to try it on a copy of the plan; `at` is the cell in it. */
  readonly edits: readonly PlacedEdit[];
  readonly at: Place;
  /** Text of the block with it and without. */
  readonly text: string;
  readonly before: string;
}

function intoBlank(
  result: LinkResult,
  { document, block, cell, row, time }: Blank,
  { key, now }: EnterParams,
  text: string,
): Written {
  const minute = /\d\d:\d\d$/u.exec(now ?? '')?.[0];
  const edits: PlacedEdit[] = [{ place: { block: block.id, span: cell }, text }];
  if (time && minute) edits.push({ place: { block: block.id, span: time }, text: minute });
  const changed = edits
    .toSorted((a, b) => b.place.span.start - a.place.span.start)
    .reduce(
      (now, { place: { span }, text }) => now.slice(0, span.start) + text + now.slice(span.end),
      block.text,
    );
  const line = block.text.slice(0, row.start).split('\n').length - 1;
  const lines = changed.split('\n');
  const newText = formatLine(changed, line) ?? lines[line]!.replace(/\r$/u, '');
  const at = block.line + line;
  return {
    uri: document.uri,
    edit: {
      range: {
        start: { line: at, character: 0 },
        end: { line: at, character: document.line(at).length },
      },
      newText,
    },
    cell: rangeIn(lines.with(line, newText).join('\n'), block.line, result, key, line),
    edits,
    at: { block: block.id, span: cell },
    text: changed,
    before: block.text,
  };
}

/** A reading that has no cell begins a block of its own, with a cell for each that is wanted: a new attempt is never written over an old one. */
function intoNewBlock(
  session: Session,
  plan: Plan,
  result: LinkResult,
  { key, now, by }: EnterParams,
  text: string,
): Written {
  const { keys } = wantedOf(result);
  const { uri, range, newText } = newBlock(session, plan, result, {
    keys: keys.some((each) => sameKey(each, key)) ? keys : [key],
    now,
    by,
    typed: new Map([[cellName(key), text]]),
  });
  const document = session.project.document(uri)!;
  const block = document.blockAt(range.start)!;
  const end = document.offsetIn(block, range.start);
  const own = newText.trimStart();
  const start = end + newText.lastIndexOf(text);
  return {
    uri,
    edit: { range, newText },
    cell: rangeIn(
      own,
      range.start.line + newText.split('\n').length - own.split('\n').length,
      result,
      key,
    ),
    edits: [{ place: { block: block.id, span: { start: end, end } }, text: newText }],
    at: { block: block.id, span: { start, end: start + text.length } },
    text: own,
    before: '',
  };
}

/** Of the cell in the text of a block that begins at a line of its file. */
function rangeIn(
  text: string,
  first: number,
  result: LinkResult,
  key: WantedKey,
  row?: number,
): Range {
  const { start, end } = cellIn(text, result, key, row) ?? { start: 0, end: 0 };
  const before = text.slice(0, start).split('\n');
  const line = first + before.length - 1;
  const character = before.at(-1)!.length;
  return { start: { line, character }, end: { line, character: character + end - start } };
}

function readingAfter(
  plan: Plan,
  { link }: LinkResult,
  key: WantedKey,
  edits: readonly PlacedEdit[],
): ReadingResult | undefined {
  return readingOf(triedWith(plan, link.name, edits)?.result, key);
}

/** What to say where nobody wants the reading any more: somebody else wrote it meanwhile. */
function standing({ settings }: Session, result: LinkResult, key: WantedKey): readonly string[] {
  const { link, readings } = result;
  const stands = readings.find(
    (each) => each.attempt !== null && each.current && sameKey(key, each),
  );
  const isWanted = wantedOf(result).keys.some((each) => sameKey(each, key));
  if (isWanted || !stands) return [];
  const where = placeName(link, key.fibre);
  const said = inWords(stands, settings.precision);
  return [`It has been read meanwhile, ${where}: ${said}. This begins another attempt.`];
}

function judged(
  { settings }: Session,
  plan: Plan,
  { link }: LinkResult,
  key: WantedKey,
  { edits, at }: Written,
): { verdict: Verdict; said: string; doubts: readonly string[] } {
  const where = placeName(link, key.fibre);
  const after = triedWith(plan, link.name, edits);
  const reading = readingOf(after?.result, key);
  if (!after || !reading)
    return { verdict: 'untested', said: `${where}, ${headingOf(key)}: written`, doubts: [] };
  const found = doubtsOf(after, triedWith(plan, link.name, []), [at]).toSorted(
    (a, b) => distance(a, at) - distance(b, at),
  );
  const far = found.some(({ place, severity }) => severity === 'error' && isAt(place, at))
    ? undefined
    : farOff(after.result, reading, where);
  const said = `${where}: ${inWords(reading, settings.precision)}`;
  return {
    verdict: reading.verdict,
    said,
    doubts: [...(far === undefined ? [] : [far]), ...found.map(({ message }) => message)],
  };
}

function isAt({ block, span }: Place, cell: Place): boolean {
  return block === cell.block && span.start === cell.span.start;
}

/** What is said of the cell comes before what is said of others, and that before what lies elsewhere. */
function distance({ place }: Finding, cell: Place): number {
  return place.block === cell.block
    ? Math.abs(place.span.start - cell.span.start)
    : Number.MAX_SAFE_INTEGER;
}

function inWords(reading: ReadingResult, places: number): string {
  const typed = reading.reading?.typed;
  const value = !typed || typed === K.dark ? K.dark : `${typed.digits} ${typed.unit}`;
  return `${value}, ${readingInWords(reading, places)}`;
}
