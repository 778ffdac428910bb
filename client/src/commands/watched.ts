/** A question that takes the server a while, with how far it is and a way to stop it. */
import * as vscode from 'vscode';
import type { Server } from '../server.ts';

interface Told {
  readonly method: string;
  readonly done: number;
  readonly all: number;
}

/** Milliseconds that nobody needs to be told of. */
const patience = 300;

/** The answer; undefined where somebody stopped it. */
export async function watched<Answer>(
  server: Server,
  title: string,
  method: string,
  params: object,
): Promise<Answer | undefined> {
  const stop = new vscode.CancellationTokenSource();
  const { token } = stop;
  let percent = 0;
  let shown = (_: number): void => undefined;
  const listener = server.hear<Told>('linkwright/progress', (told) => {
    if (told.method !== method) return;
    percent = Math.max(percent, Math.floor((told.done / told.all) * 100));
    shown(percent);
  });
  const answer = server.ask<Answer>(method, params, token).then(
    (found) => (token.isCancellationRequested ? undefined : found),
    (error: unknown) => {
      if (token.isCancellationRequested) return undefined;
      throw error;
    },
  );
  try {
    const quick = await Promise.race([
      answer.then(
        () => true,
        () => true,
      ),
      new Promise<false>((done) => setTimeout(() => done(false), patience)),
    ]);
    if (quick) return await answer;
    const location = vscode.ProgressLocation.Notification;
    return await vscode.window.withProgress(
      { location, title, cancellable: true },
      (progress, pressed) => {
        pressed.onCancellationRequested(() => stop.cancel());
        let before = 0;
        shown = (now) => {
          progress.report({ increment: now - before, message: `${now} %` });
          before = now;
        };
        shown(percent);
        return answer;
      },
    );
  } finally {
    listener.dispose();
    stop.dispose();
  }
}
