/** Readings of a table, as an edit of the file they are to come into; nothing is written before the editor says so. */
import type { AboutRow, Work } from '../../import/index.ts';
import type { Range } from '../../project/types.ts';
import { feature, type Session } from '../feature.ts';

export interface ImportParams {
  /** The file of a plan that the readings come into. */
  readonly uri: string;
  /** Of the table: its name without folders, and its bytes in base 64. */
  readonly name: string;
  readonly base64: string;
  /** Text of the mapping. */
  readonly mapping: string;
}

/** What would be written and what was not taken, or why nothing could be read. */
export type ImportAnswer =
  | {
      readonly edit: { readonly range: Range; readonly newText: string };
      readonly readings: number;
      readonly blocks: number;
      readonly rows: number;
      readonly left: Counted;
      readonly duplicates: Counted;
    }
  | { readonly problems: readonly string[] };

/** The first of many, and how many there are. */
export interface Counted {
  readonly count: number;
  readonly first: readonly AboutRow[];
}

/** As many as somebody reads through in a list. */
const mostListed = 1000;

export const importReadings = feature<ImportParams, Promise<ImportAnswer>>({
  method: 'linkwright/importReadings',
  capabilities: {},
  answer: (session, params, work) => read(session, params, work),
});

async function read(
  session: Session,
  params: ImportParams,
  work: Work | undefined,
): Promise<ImportAnswer> {
  const { uri, name, base64, mapping } = params;
  const document = session.project.document(uri);
  const plan = session.project.planOf(uri);
  if (!document || !plan) return { problems: ['This file belongs to no plan.'] };
  const table = await import('../../import/index.ts');
  try {
    const found = await table.importReadings(
      { plan, name, bytes: bytesOf(base64), mapping, begin: session.beginThread },
      work ?? table.unwatched,
    );
    if ('problems' in found) return { problems: found.problems };
    const before = document.text();
    const whole = table.appended(before, found.text);
    const kept = before.replace(/[ \t\r\n]+$/u, '').length;
    const lines = before.slice(0, kept).split(/\r\n|\r|\n/u);
    const last = document.lineCount - 1;
    const { readings, blocks, rows } = found;
    return {
      edit: {
        range: {
          start: { line: lines.length - 1, character: lines.at(-1)!.length },
          end: { line: last, character: document.line(last).length },
        },
        newText: whole.slice(kept),
      },
      readings,
      blocks,
      rows,
      left: counted(found.left),
      duplicates: counted(found.duplicates),
    };
  } catch (error) {
    if (error instanceof table.Cancelled) return { problems: ['Stopped; nothing was written.'] };
    throw error;
  }
}

export function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (each) => each.charCodeAt(0));
}

function counted(all: readonly AboutRow[]): Counted {
  return { count: all.length, first: all.slice(0, mostListed) };
}
