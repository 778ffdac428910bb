/** A first look at a table: its headings, an example of each column, and what they may mean. */
import type { Sheet, TableRow, Work } from '../../import/index.ts';
import { feature, type Session } from '../feature.ts';
import { type Guess, guessMapping, type Seen } from './guess.ts';
import { bytesOf } from './read.ts';

export interface LookParams {
  readonly uri: string;
  readonly base64: string;
  /** Of a workbook: the sheet to look at, else the one that looks most like a table. */
  readonly sheet?: string;
}

export type TableLook =
  | {
      readonly headings: readonly string[];
      /** Of each column the first texts that differ. */
      readonly examples: readonly (readonly string[])[];
      readonly rows: number;
      /** Of a workbook. */
      readonly sheets: readonly string[];
      readonly mapping: Guess;
      readonly objects: readonly string[];
      readonly setups: readonly string[];
    }
  | { readonly because: string };

/** Rows that headings may stand below. */
const titleRows = 20;
/** Rows that a guess looks at. */
const sampleRows = 200;
const mostExamples = 6;
/** Names offered for a choice. */
const mostNames = 1000;

export const lookAtTable = feature<LookParams, Promise<TableLook>>({
  method: 'linkwright/lookAtTable',
  capabilities: {},
  answer: look,
});

async function look(
  session: Session,
  params: LookParams,
  watched: Work | undefined,
): Promise<TableLook> {
  const plan = session.project.planOf(params.uri);
  const order = plan?.result.order ?? [];
  if (!plan || order.length === 0) {
    return { because: 'This file belongs to no plan with links: include it in one first.' };
  }
  const table = await import('../../import/index.ts');
  const bytes = bytesOf(params.base64);
  const work = watched ?? table.unwatched;
  try {
    const first = titleRows + sampleRows;
    const sheets = await table.readSheets(bytes, first, work, session.beginThread);
    const sheet = sheets?.find(({ name }) => name === params.sheet) ?? fullest(sheets);
    const separator = sheets ? undefined : separatorOf(bytes);
    const rows =
      sheet?.rows ?? (await table.readTable(bytes, { separator }, work, session.beginThread));
    const { heading, seen, above } = seenIn(rows, table.plainText);
    const setups = plan.named('setup').map(({ name }) => name);
    const mapping = guessMapping(seen, { objects: new Set(order), setups });
    return {
      headings: seen.headings,
      examples: seen.headings.map((_, index) =>
        [...new Set(seen.rows.flatMap((row) => row[index] || []))].slice(0, mostExamples),
      ),
      rows: (sheet?.count ?? rows.length) - above,
      sheets: sheets?.map(({ name }) => name) ?? [],
      mapping: {
        ...(sheet && { sheet: sheet.name }),
        ...(separator && separator !== ',' && { separator }),
        ...(heading !== 1 && { heading }),
        ...mapping,
      },
      objects: order.slice(0, mostNames),
      setups,
    };
  } catch (error) {
    if (error instanceof table.UnreadableTable) return { because: error.message };
    if (error instanceof table.Cancelled) return { because: 'Stopped; nothing was written.' };
    throw error;
  }
}

function fullest(sheets: readonly Sheet[] | undefined): Sheet | undefined {
  return sheets?.toSorted((a, b) => b.count - a.count)[0];
}

/** The sign that parts the most lines into equally many cells; a comma only where no other does as well. */
function separatorOf(bytes: Uint8Array): ',' | ';' | '|' | 'tab' {
  const text = new TextDecoder().decode(bytes.subarray(0, 1 << 16));
  const lines = text.split(/\r\n|\r|\n/u).slice(0, sampleRows);
  const parted = (['\t', ';', '|', ','] as const).map((sign) => {
    const lengths = lines.map((line) => line.split(sign).length).filter((each) => each > 1);
    const cells = lengths.map((each) => each * lengths.filter((other) => other === each).length);
    return { sign, cells: Math.max(0, ...cells) };
  });
  const { sign, cells } = parted.reduce((a, b) => (b.cells > a.cells ? b : a));
  if (cells === 0) return ',';
  return sign === '\t' ? 'tab' : sign;
}

/** The row with the most words that are no numbers, among the first, is that of the headings. */
function seenIn(
  rows: readonly TableRow[],
  text: (cell: TableRow['cells'][number]) => string,
): { readonly heading: number; readonly seen: Seen; readonly above: number } {
  const titles = rows.slice(0, titleRows).map(({ cells }) => cells.map(text));
  const words = titles.map((cells) => new Set(cells.filter((each) => /\p{L}/u.test(each))).size);
  const most = Math.max(0, ...words);
  // A row of data may hold as many words as its headings, which stand above it.
  const index = most < 1 ? -1 : words.findIndex((count) => count * 3 >= most * 2);
  const data = rows.slice(index + 1);
  const width = rows.slice(0, sampleRows).reduce((a, { cells }) => Math.max(a, cells.length), 0);
  const head = index < 0 ? [] : titles[index]!;
  return {
    heading: index < 0 ? 0 : rows[index]!.number,
    seen: {
      headings: Array.from({ length: width }, (_, at) => head[at] ?? ''),
      rows: data.slice(0, sampleRows).map(({ cells }) => cells.map(text)),
    },
    above: index + 1,
  };
}
