/**
 * Everything that is written for others about a plan, by one order: a field
 * sheet or a record, in the form that is asked for. What sets a page, a
 * workbook or a PDF is loaded by nobody who asks for none.
 */
import { plainDisplay } from './figures.ts';
import type { Paper } from './paper/blocks.ts';
import type { PageSize } from './paper/pdf.ts';
import type { DocumentedPlan } from './paper/plan.ts';
import { recordCsv } from './record/csv.ts';
import { recordJson } from './record/json.ts';
import { recordPaper } from './record/paper.ts';
import { filesOf, type Recorded, type RecordState } from './record/recorded.ts';
import { sheetPaper } from './sheet/paper.ts';

export const sheetFormats = ['html', 'pdf'] as const;
export const recordFormats = ['html', 'pdf', 'xlsx', 'csv', 'json'] as const;

export type SheetFormat = (typeof sheetFormats)[number];
export type RecordFormat = (typeof recordFormats)[number];

interface DatedPlan extends DocumentedPlan {
  /** By which it is judged, on the site's clock. */
  readonly minute: number;
}

/** A plan with the texts of its files, to be written about. */
export function recordedPlan(
  plan: DatedPlan,
  textOf: (uri: string) => string | undefined,
  { tool, issue }: { readonly tool: string; readonly issue: boolean },
): Recorded {
  return {
    plan,
    display: plainDisplay,
    asOf: minuteInWords(plan.minute),
    tool,
    issue,
    files: filesOf(plan, textOf),
  };
}

const lastMinuteOfDay = 1439;

/** `2026-03-14`, or with the time of day where it is not the end of the day. */
export function minuteInWords(minute: number): string {
  const [day = '', time = ''] = new Date(minute * 60_000).toISOString().split('T');
  return minute % 1440 === lastMinuteOfDay ? day : `${day} ${time.slice(0, 5)}`;
}

/** `links`: only these links and channels, else all that have work. */
export function writtenSheet(
  recorded: Recorded,
  format: SheetFormat,
  { links, page }: { readonly links?: readonly string[]; readonly page: PageSize },
): Promise<string | Uint8Array> {
  return set(sheetPaper(recorded, links ? { links } : {}), format, page);
}

export async function writtenRecord(
  recorded: Recorded,
  state: RecordState,
  { format, page }: { readonly format: RecordFormat; readonly page: PageSize },
): Promise<string | Uint8Array> {
  switch (format) {
    case 'csv':
      return recordCsv(recorded, state);
    case 'json':
      return recordJson(recorded, state);
    case 'xlsx': {
      const { recordWorkbook } = await import('./record/workbook.ts');
      return recordWorkbook(recorded, state);
    }
    case 'html':
    case 'pdf':
      return set(recordPaper(recorded, state), format, page);
  }
}

async function set(
  paper: Paper,
  format: 'html' | 'pdf',
  page: PageSize,
): Promise<string | Uint8Array> {
  if (format === 'pdf') {
    const { paperPdf } = await import('./paper/pdf.ts');
    return paperPdf(paper, page);
  }
  const { printPaper } = await import('./page/paper-document.tsx');
  return printPaper(paper);
}

export { stateOf } from './record/recorded.ts';
