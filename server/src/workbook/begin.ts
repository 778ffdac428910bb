/** Begins the thread that reads a workbook, in a process of Node. */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { BeginThread } from '../import/apart.ts';

export const beginThread: BeginThread = (asked, { told, failed, ended }) => {
  // What runs is a bundle always, and has that of the thread as a neighbour.
  const bundle = join(__dirname, 'workbook.cjs');
  const thread = new Worker(bundle, { workerData: asked });
  thread.on('message', told);
  thread.on('error', (error: Error & { readonly code?: string }) => {
    if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') told({ is: 'unreadable', message: tooMuch });
    else failed(error);
  });
  thread.on('exit', ended);
  return {
    next: () => thread.postMessage(undefined),
    end: () => void thread.terminate(),
  };
};

const tooMuch =
  'The workbook takes more memory than there is to read it at once: split it, or save it as CSV.';
