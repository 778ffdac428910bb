import type { Position, TextDocumentPositionParams } from 'vscode-languageserver-protocol';
import type { LinkResult } from '../../evaluate/result.ts';
import type { LinkModel, Setup } from '../../model/types.ts';
import type { BlockView, DocumentView, Plan, Range } from '../../project/types.ts';
import { resultAt } from '../coverage.ts';
import { feature, type Session } from '../feature.ts';
import { readingsOf } from './blanks.ts';
import { type Grid, gridText } from './grid.ts';
import { wantedOf } from './wanted.ts';

const firstBlank = /(?<=\s)-(?=\s|$)/u;

export interface LayOutParams extends TextDocumentPositionParams {
  /** The minute on the tester's clock, `2026-03-14 09:05`; the server asks none. */
  readonly now?: string;
  /** Who measures. */
  readonly by?: string;
}

/** A block of readings to be written, or why there is none to write. */
export type LaidOut =
  | {
      readonly object: string;
      readonly uri: string;
      readonly range: Range;
      readonly newText: string;
      /** Where the first cell is once the text stands. */
      readonly cell: Position;
      readonly readings: number;
    }
  | { readonly because: string };

/** The block in which the missing readings of the link at the cursor are typed: numbers only. */
export const layOutReadings = feature<LayOutParams, LaidOut>({
  method: 'linkwright/layOutReadings',
  capabilities: {},
  answer(session, { textDocument, position, now, by }) {
    const found = resultAt(session, textDocument.uri, position);
    if (!found?.result) {
      return { because: 'Put the cursor into the link or channel whose readings are to be typed.' };
    }
    const { plan, result } = found;
    const { keys } = wantedOf(result);
    const { name } = result.link;
    if (keys.length === 0) return { because: nothingToRead(result) };
    const block = newBlock(session, plan, result, { keys, now, by });
    const lines = block.newText.split('\n');
    const row = lines.findIndex((line) => firstBlank.test(line));
    const cell = {
      line: block.range.start.line + row,
      character: lines[row]!.search(firstBlank),
    };
    return { object: name, ...block, cell, readings: keys.length };
  },
});

/** Where and how a new block of readings is written: below the object's last one, else below the object. */
export function newBlock(
  session: Session,
  plan: Plan,
  result: LinkResult,
  { keys, now, by, typed }: Pick<Grid, 'keys' | 'by' | 'typed'> & { readonly now?: string },
): { readonly uri: string; readonly range: Range; readonly newText: string } {
  const { link } = result;
  const last = readingsOf(session.project, plan, link.name).at(-1);
  const own = plan.locate(link.place);
  const document = last?.document ?? session.project.document(own!.uri)!;
  const block = last?.block ?? document.blockAt(own!.range.start)!;
  const at = endOf(document, block);
  const text = gridText({ link, keys, setup: setupFor(plan, result), tested: now, by, typed });
  return { uri: document.uri, range: { start: at, end: at }, newText: `\n\n${text}` };
}

/** Behind the closing brace: a comment below it is about what follows. */
function endOf(document: DocumentView, block: BlockView): Position {
  const last = block.bound().entries.at(-1);
  const end = last ? last.span.end : block.text.trimEnd().length;
  const { line } = document.rangeOf(block, { start: end, end }).end;
  return { line, character: document.line(line).length };
}

/** The set-up in use: that of the object's newest readings, else the last of the plan whose launch cord fits its fibre. */
function setupFor(plan: Plan, { readings, link }: LinkResult): string | undefined {
  const used = readings
    .flatMap(({ setup, reading }) => (setup && reading ? [{ setup, order: reading.at.from }] : []))
    .toSorted((a, b) => a.order - b.order)
    .at(-1);
  if (used) return used.setup;
  const all = plan.named('setup').flatMap(({ name }) => plan.setup(name) ?? []);
  return all.findLast((setup) => fits(setup, link))?.name;
}

function fits({ cords, otdr }: Setup, link: LinkModel): boolean {
  if (otdr) return false;
  const launch = cords.find(({ role }) => role === 'launch')?.fibreType;
  const own = link.path.find((element) => element.kind === 'segment')?.fibre;
  return launch !== undefined && own !== undefined && launch.core === own.core;
}

function nothingToRead({ expected, link }: LinkResult): string {
  return expected > 0
    ? `${link.name}: no reading is missing and none asks to be read again; ${expected} of ${expected} are there.`
    : `${link.name} expects no readings: the plan says no wavelengths to measure for its fibre.`;
}
