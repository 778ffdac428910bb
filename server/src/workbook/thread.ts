/** The thread that reads one workbook, and ends. Loaded without a parent it only hands on what reads workbooks. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Asked, Told } from '../import/apart.ts';
import { rowsAtOnce, UnreadableTable } from '../import/table.ts';
import { unwatched, type Work } from '../import/work.ts';
import { workbooksHere } from '../import/workbook.ts';

export { workbooksHere } from '../import/workbook.ts';

if (parentPort) {
  // What parses a sheet goes one call deeper with each step, and takes ever smaller ones while the
  // clock says that they take long: a sheet of many rows would end it. Nobody waits here.
  const now = Date.now();
  Date.now = () => now;
  void answer(workerData as Asked, parentPort);
}

async function answer(asked: Asked, port: NonNullable<typeof parentPort>): Promise<void> {
  const tell = (told: Told) => port.postMessage(told);
  const work: Work = { ...unwatched, report: (done, all) => tell({ is: 'progress', done, all }) };
  try {
    if (asked.want === 'sheets') {
      const sheets = await workbooksHere.sheets(asked.bytes, asked.first, work);
      tell({ is: 'sheets', sheets });
      return;
    }
    const rows = await workbooksHere.rows(asked.bytes, asked.wanted, work);
    for (let at = 0; at === 0 || at < rows.length; at += rowsAtOnce) {
      const until = at + rowsAtOnce;
      const taken = new Promise((next) => port.once('message', next));
      tell({ is: 'rows', rows: rows.slice(at, until), last: until >= rows.length });
      await taken;
    }
  } catch (error) {
    if (!(error instanceof UnreadableTable)) throw error;
    tell({ is: 'unreadable', message: error.message, path: error.path });
  }
}
