import type { TextDocumentPositionParams } from 'vscode-languageserver-protocol';
import type { BoundEntry } from '../../../../grammar/src/bound.ts';
import { formatLine } from '../../../../grammar/src/format.ts';
import { picometres, toNanometres } from '../../../../grammar/src/quantity/index.ts';
import type { PlacedEdit } from '../../checks/finding.ts';
import type { LinkResult } from '../../evaluate/result.ts';
import { placeName } from '../../model/ways.ts';
import type { BlockView, DocumentView, Plan, Range } from '../../project/types.ts';
import { resultAt } from '../coverage.ts';
import { feature, type Session, subject } from '../feature.ts';
import { blanksIn, columnOf, readingsOf, type Tabled } from './blanks.ts';
import { type Copied, cellText, headed, readCopied } from './clipboard.ts';
import { farOff } from './far-off.ts';
import { cellName, headingOf } from './grid.ts';
import { newBlock } from './lay-out.ts';
import { problemIn } from './problem.ts';
import { doubtsOf, readingOf, triedWith } from './tried.ts';
import { type ColumnOf, isOtherwise, lossInDb, readTyped } from './typed.ts';
import { sameKey, type WantedKey, wantedOf } from './wanted.ts';

export interface PasteParams extends TextDocumentPositionParams {
  /** What was copied. */
  readonly text: string;
  /** The minute on the tester's clock, `2026-03-14 09:05`; the server asks none. */
  readonly now?: string;
  /** Who measures. */
  readonly by?: string;
}

/** Which cells what was copied goes into, to be looked at before it is written. */
export type Pasted =
  | {
      readonly object: string;
      readonly uri: string;
      readonly edits: readonly {
        readonly range: Range;
        readonly newText: string;
      }[];
      readonly readings: number;
      /** What was not taken, and why: a sentence each. */
      readonly left: readonly string[];
      /** Sentences that ask for a second look before it becomes evidence. It is written all the same if wanted. */
      readonly doubts: readonly string[];
    }
  | { readonly because: string };

/**
 * Readings copied from a spreadsheet, for the rows of the link at the cursor.
 * Only cells with `-` are filled: what stands in a row is evidence, and stays.
 */
export const pasteReadings = feature<PasteParams, Pasted>({
  method: 'linkwright/pasteReadings',
  capabilities: {},
  answer(session, { textDocument, position, text, now, by }) {
    const found = resultAt(session, textDocument.uri, position);
    if (!found?.result) {
      return {
        because:
          'Put the cursor into the link or channel, or into the readings, that the copied values are of.',
      };
    }
    const { plan, result } = found;
    const copied = readCopied(text);
    if (copied.rows.length === 0) {
      const copy = 'Copy the cells of readings from the spreadsheet first.';
      const said = text.trim().replace(/\s+/gu, ' ');
      return {
        because:
          said === ''
            ? `Nothing was copied. ${copy}`
            : `"${short(said)}" holds no reading. ${copy}`,
      };
    }
    const all = readingsOf(session.project, plan, result.link.name);
    const here = subject(session, textDocument.uri)?.document.blockAt(position)?.id;
    const open = all.filter((each) => blanksIn(each, result.link).length > 0);
    const target = open.find(({ block }) => block.id === here) ?? open.at(-1);
    if (target) return intoTable(plan, result, target, copied);
    const { keys } = wantedOf(result);
    if (keys.length === 0) {
      return {
        because: `${result.link.name} has no reading that is missing, and no cell with "-" to write into.`,
      };
    }
    return intoNewTable(session, plan, result, keys, copied, { now, by });
  },
});

interface Filled {
  readonly key: WantedKey;
  readonly text: string;
}

function intoTable(plan: Plan, result: LinkResult, target: Tabled, copied: Copied): Pasted {
  const { document, block } = target;
  const blanks = blanksIn(target, result.link);
  const columns = columnsOf(target.entry);
  const fibres = [...new Set(blanks.map(({ key }) => key.fibre))];
  const { filled, left } = place(result, copied, columns, fibres);
  const lines = new Set<number>();
  let text = block.text;
  const typed: PlacedEdit[] = [];
  const there = filled.map((each) => ({
    ...each,
    blank: blanks.findLast(({ key }) => sameKey(each.key, key)),
  }));
  for (const { key, blank } of there) {
    if (!blank) left.push(`${nameOf(result, key)} has a reading already, which stays.`);
  }
  for (const { text: said, blank } of there
    .filter(({ blank }) => blank)
    .toSorted((a, b) => b.blank!.cell.start - a.blank!.cell.start)) {
    const { start, end } = blank!.cell;
    text = text.slice(0, start) + said + text.slice(end);
    lines.add(block.text.slice(0, start).split('\n').length - 1);
    typed.push({ place: { block: block.id, span: blank!.cell }, text: said });
  }
  const problem = problemIn(text, block.text);
  if (problem) return { because: problem };
  if (typed.length === 0)
    return { because: left[0] ?? 'None of the copied cells holds a reading.' };
  return {
    object: result.link.name,
    uri: document.uri,
    edits: [...lines]
      .toSorted((a, b) => a - b)
      .map((line) => ({
        range: wholeLine(document, block, line),
        newText: formatLine(text, line) ?? text.split('\n')[line]!.replace(/\r$/u, ''),
      })),
    readings: typed.length,
    left,
    doubts: doubtsIn(plan, result, typed, filled),
  };
}

function intoNewTable(
  session: Session,
  plan: Plan,
  result: LinkResult,
  keys: readonly WantedKey[],
  copied: Copied,
  said: Pick<PasteParams, 'now' | 'by'>,
): Pasted {
  const columns = [
    ...new Map(keys.map((key) => [headingOf(key), { ...key, holds: lossInDb }])).values(),
  ];
  const fibres = [...new Set(keys.map(({ fibre }) => fibre))];
  const { filled, left } = place(result, copied, columns, fibres);
  if (filled.length === 0)
    return { because: left[0] ?? 'None of the copied cells holds a reading.' };
  const typed = new Map(filled.map(({ key, text }) => [cellName(key), text]));
  const { uri, range, newText } = newBlock(session, plan, result, { keys, ...said, typed });
  const problem = problemIn(newText.trimStart(), '');
  if (problem) return { because: problem };
  const document = session.project.document(uri)!;
  const block = document.blockAt(range.start)!;
  const start = document.offsetIn(block, range.start);
  const added = { place: { block: block.id, span: { start, end: start } }, text: newText };
  return {
    object: result.link.name,
    uri,
    edits: [{ range, newText }],
    readings: filled.length,
    left,
    doubts: doubtsIn(plan, result, [added], filled),
  };
}

/** What the checks ask, and each value far from the others of its column. */
function doubtsIn(
  plan: Plan,
  { link }: LinkResult,
  edits: readonly PlacedEdit[],
  filled: readonly Filled[],
): readonly string[] {
  const after = triedWith(plan, link.name, edits);
  const before = triedWith(plan, link.name, []);
  if (!after) return [];
  const far = filled.flatMap(({ key }) => {
    const reading = readingOf(after.result, key);
    return (reading && farOff(after.result, reading, placeName(link, key.fibre))) ?? [];
  });
  return [...doubtsOf(after, before, []).map(({ message }) => message), ...far];
}

type Column = Omit<WantedKey, 'fibre'> & { readonly holds: ColumnOf };

function columnsOf(entry: BoundEntry): readonly Column[] {
  return entry.body!.table!.headings.flatMap((heading) =>
    heading.kind === 'reading' && heading.direction
      ? [
          {
            wavelength: picometres(heading.wavelength),
            direction: heading.direction,
            holds: columnOf(entry, heading),
          },
        ]
      : [],
  );
}

/** Brings copied cells to fibres and columns: by their headings and numbers where they have some, else by their places. */
function place(
  result: LinkResult,
  { headings, rows }: Copied,
  columns: readonly Column[],
  fibres: readonly number[],
): { readonly filled: readonly Filled[]; readonly left: string[] } {
  const left: string[] = [];
  const width = Math.max(...rows.map(({ cells }) => cells.length));
  const at = headings
    ? byHeadings(headings, columns, left)
    : byPlaces(rows, width, columns, (text) => fibreOf(result, text) !== undefined);
  const filled: Filled[] = [];
  for (const [index, { line, cells }] of rows.entries()) {
    const named = at.fibre === undefined ? undefined : cells[at.fibre];
    const fibre = named === undefined ? fibres[index] : fibreOf(result, named);
    if (fibre === undefined) {
      left.push(
        named === undefined
          ? `Row ${line} is one more than there are fibres to read.`
          : `Row ${line}: ${result.link.name} has no ${named === '' ? 'fibre without a number' : `fibre ${named}`}.`,
      );
      continue;
    }
    for (const [column, key] of at.readings) {
      const text = cellText(cells[column] ?? '');
      if (text === undefined) continue;
      const { holds, wavelength, direction } = key;
      const typed = readTyped(text, holds, () => undefined);
      const none =
        'problem' in typed
          ? 'reading'
          : isOtherwise(typed.text, holds) && `${holds.quantity} in ${holds.unit.name}`;
      const apart = cells.length === 1 && /[\s,]/u.test(text);
      if ('problem' in typed || none) {
        left.push(
          `Row ${line}, column ${column + 1}: "${text}" is no ${none}.${apart ? ' Tabs or semicolons part the cells.' : ''}`,
        );
        continue;
      }
      filled.push({ key: { fibre, wavelength, direction }, text: typed.text });
    }
  }
  return { filled, left };
}

interface Placed {
  readonly fibre: number | undefined;
  readonly readings: readonly (readonly [number, Column])[];
}

function byHeadings(
  headings: readonly string[],
  columns: readonly Column[],
  left: string[],
): Placed {
  let fibre: number | undefined;
  const readings: (readonly [number, Column])[] = [];
  for (const [index, heading] of headings.entries()) {
    const says = headed(heading);
    if (says.kind === 'fibre') fibre ??= index;
    else if (says.kind === 'reading') {
      const fit = columns.filter(
        ({ wavelength, direction }) =>
          toNanometres(wavelength) === says.nanometres &&
          (says.direction === undefined || says.direction === direction),
      );
      const [only] = fit;
      if (fit.length === 1) readings.push([index, only!]);
      else if (only)
        left.push(`Column "${heading}" says no direction, and there are two: name A>B or B>A.`);
      else left.push(`Column "${heading}": no such reading is wanted here.`);
    } else if (heading !== '') left.push(`Column "${heading}" is left out.`);
  }
  return { fibre, readings };
}

/** Without headings: a first column of fibres if every cell of it names one and the width fits, then the columns in their order. */
function byPlaces(
  rows: Copied['rows'],
  width: number,
  columns: readonly Column[],
  isFibre: (text: string) => boolean,
): Placed {
  const leads =
    width === columns.length + 1 ||
    (width > 1 && rows.every(({ cells }) => isFibre(cells[0] ?? '')));
  const skip = leads ? 1 : 0;
  return {
    fibre: leads ? 0 : undefined,
    readings: columns.slice(0, width - skip).map((column, index) => [index + skip, column]),
  };
}

function fibreOf({ link }: LinkResult, text: string): number | undefined {
  const end = link.ways.find(({ name }) => name === text);
  if (end) return end.fibre;
  const number = /^(?:fib(?:re|er)\s*)?0*(\d+)$/iu.exec(text.trim())?.[1];
  return number !== undefined && link.fibres.includes(Number(number)) ? Number(number) : undefined;
}

function short(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

function nameOf({ link }: LinkResult, key: WantedKey): string {
  return `${placeName(link, key.fibre)} at ${headingOf(key)}`;
}

function wholeLine(document: DocumentView, block: BlockView, line: number): Range {
  const at = block.line + line;
  return {
    start: { line: at, character: 0 },
    end: { line: at, character: document.line(at).length },
  };
}
