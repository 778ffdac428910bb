/**
 * Workbooks read in a thread of their own, so that a session hears its editor
 * meanwhile: somebody who types goes on, and somebody who stops it is heard at
 * once. The thread has a memory of its own too: a workbook that does not fit
 * it ends the thread, not the session.
 */
import {
  type Sheet,
  type SheetWanted,
  type TableRow,
  UnreadableTable,
  type Workbooks,
} from './table.ts';
import { Cancelled, pause, type Work } from './work.ts';

/** What the thread is begun with. */
export type Asked =
  | { readonly want: 'sheets'; readonly bytes: Uint8Array; readonly first: number }
  | { readonly want: 'rows'; readonly bytes: Uint8Array; readonly wanted: SheetWanted };

/** What it says. Rows come in pieces, each when somebody asks for the next. */
export type Told =
  | { readonly is: 'progress'; readonly done: number; readonly all: number }
  | { readonly is: 'sheets'; readonly sheets: readonly Sheet[] }
  | { readonly is: 'rows'; readonly rows: readonly TableRow[]; readonly last: boolean }
  | {
      readonly is: 'unreadable';
      readonly message: string;
      readonly path?: readonly string[] | undefined;
    };

/** A thread as the place that we run in begins it. */
export type BeginThread = (
  asked: Asked,
  hear: {
    told(message: Told): void;
    /** A fault; the thread has ended or will at once. */
    failed(error: Error): void;
    ended(): void;
  },
) => {
  next(): void;
  end(): void;
};

export function workbooksApart(begin: BeginThread): Workbooks {
  return {
    async sheets(bytes, first, work) {
      let found: readonly Sheet[] = [];
      await ask(begin, { want: 'sheets', bytes, first }, work, (told) => {
        if (told.is === 'sheets') found = told.sheets;
      });
      return found;
    },

    async rows(bytes, wanted, work) {
      const all: TableRow[] = [];
      await ask(begin, { want: 'rows', bytes, wanted }, work, (told) => {
        if (told.is === 'rows') all.push(...told.rows);
      });
      return all;
    },
  };
}

/** Settles when the thread has ended. Throws {@link UnreadableTable}, {@link Cancelled}, or the thread's fault. */
function ask(
  begin: BeginThread,
  asked: Asked,
  work: Work,
  hear: (told: Told) => void,
): Promise<void> {
  return new Promise((done, fail) => {
    if (work.signal.aborted) {
      fail(new Cancelled('stopped'));
      return;
    }
    const stop = () => {
      fail(new Cancelled('stopped'));
      thread.end();
    };
    const thread = begin(asked, {
      told(message) {
        hear(message);
        if (message.is === 'progress') work.report(message.done, message.all);
        if (message.is === 'unreadable') fail(new UnreadableTable(message.message, message.path));
        if (message.is !== 'rows') return;
        // What else waits has its turn between two pieces; who stops it ends the thread.
        pause(work).then(
          () => thread.next(),
          () => undefined,
        );
      },
      failed: fail,
      ended() {
        work.signal.removeEventListener('abort', stop);
        done();
      },
    });
    work.signal.addEventListener('abort', stop);
  });
}
