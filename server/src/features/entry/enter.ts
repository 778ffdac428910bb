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
import { type Blank, blankFor } from './blanks.ts';
import { cellName, headingOf } from './grid.ts';
import { newBlock } from './lay-out.ts';
import { problemIn } from './problem.ts';
import { doubtsOf, triedWith } from './tried.ts';
import { sameKey, type WantedKey, wantedOf } from './wanted.ts';

export interface EnterParams {
  readonly textDocument: TextDocumentIdentifier;
  readonly object: string;
  readonly key: WantedKey;
  /** As typed: a number, perhaps with its unit, or `dark`. */
  readonly text: string;
  /** The minute on the tester's clock, `2026-03-14 09:05`; the server asks none. */
  readonly now?: string;
  /** Who measures. */
  readonly by?: string;
  /** As it was typed a moment ago: put right in its cell, where it stands there still. */
  readonly instead?: string;
}

/** What writing a reading does, or why it cannot be written. */
export type Entered =
  | {
      readonly uri: string;
      readonly edit: { readonly range: Range; readonly newText: string };
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
    const text = plainly(params.text);
    const instead = params.instead && plainly(params.instead);
    const blank = blankFor(session.project, plan, result, params.key, instead);
    return blank
      ? intoBlank(session, plan, result, blank, { ...params, text })
      : intoNewBlock(session, plan, result, { ...params, text });
  },
});

function plainly(typed: string): string {
  return typed.trim().replace(/^([-+]?\d+),(\d+)/u, '$1.$2');
}

function intoBlank(
  session: Session,
  plan: Plan,
  result: LinkResult,
  { document, block, cell, row, time }: Blank,
  { key, text, now }: EnterParams,
): Entered {
  const minute = /\d\d:\d\d$/u.exec(now ?? '')?.[0];
  const edits: PlacedEdit[] = [{ place: { block: block.id, span: cell }, text }];
  if (time && minute) edits.push({ place: { block: block.id, span: time }, text: minute });
  const changed = edits
    .toSorted((a, b) => b.place.span.start - a.place.span.start)
    .reduce(
      (now, { place: { span }, text }) => now.slice(0, span.start) + text + now.slice(span.end),
      block.text,
    );
  const problem = problemIn(changed, block.text);
  if (problem) return { problem };
  const line = block.text.slice(0, row.start).split('\n').length - 1;
  const newText = formatLine(changed, line) ?? changed.split('\n')[line]!.replace(/\r$/u, '');
  const at = block.line + line;
  const range = {
    start: { line: at, character: 0 },
    end: { line: at, character: document.line(at).length },
  };
  return {
    uri: document.uri,
    edit: { range, newText },
    ...judged(session, plan, result, key, edits, { block: block.id, span: cell }),
  };
}

/** A reading that has no cell begins a block of its own, with a cell for each that is wanted: a new attempt is never written over an old one. */
function intoNewBlock(
  session: Session,
  plan: Plan,
  result: LinkResult,
  { key, text, now, by }: EnterParams,
): Entered {
  const { keys } = wantedOf(result);
  const wanted = keys.some((each) => sameKey(each, key)) ? keys : [key];
  const { uri, range, newText } = newBlock(session, plan, result, {
    keys: wanted,
    now,
    by,
    typed: new Map([[cellName(key), text]]),
  });
  const problem = problemIn(newText.trimStart(), '');
  if (problem) return { problem };
  const document = session.project.document(uri)!;
  const block = document.blockAt(range.start)!;
  const end = document.offsetIn(block, range.start);
  const edits = [{ place: { block: block.id, span: { start: end, end } }, text: newText }];
  const start = end + newText.lastIndexOf(text);
  const cell = { block: block.id, span: { start, end: start + text.length } };
  const entered = judged(session, plan, result, key, edits, cell);
  const doubts = [...standing(session, result, key, wanted === keys), ...entered.doubts];
  return { uri, edit: { range, newText }, ...entered, doubts };
}

/** What to say where nobody wants the reading any more: somebody else wrote it meanwhile. */
function standing(
  { settings }: Session,
  { link, readings }: LinkResult,
  key: WantedKey,
  isWanted: boolean,
): readonly string[] {
  const stands = readings.find(
    (each) => each.attempt !== null && each.current && sameKey(key, each),
  );
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
  edits: readonly PlacedEdit[],
  cell: Place,
): { verdict: Verdict; said: string; doubts: readonly string[] } {
  const where = placeName(link, key.fibre);
  const after = triedWith(plan, link.name, edits);
  const reading = after?.result.readings.findLast(
    (each) => each.attempt !== null && each.current && sameKey(key, each),
  );
  if (!after || !reading)
    return { verdict: 'untested', said: `${where}, ${headingOf(key)}: written`, doubts: [] };
  const doubts = doubtsOf(after, triedWith(plan, link.name, []), [cell])
    .toSorted((a, b) => distance(a, cell) - distance(b, cell))
    .map(({ message }) => message);
  const said = `${where}: ${inWords(reading, settings.precision)}`;
  return { verdict: reading.verdict, said, doubts };
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
