/** The language server as the client's other parts see it: requests and notifications. */
import type * as vscode from 'vscode';
import { type BaseLanguageClient, type LanguageClientOptions, State } from 'vscode-languageclient';

export interface Server extends vscode.Disposable {
  /** Settles when the server has answered `initialize`; a new one after each restart. */
  readonly ready: Promise<void>;
  ask<Answer>(method: string, params: object, token?: vscode.CancellationToken): Promise<Answer>;
  /** Listens to a notification from the server, beside whoever else does; may be called before it runs. */
  hear<Params>(method: string, listener: (params: Params) => void): vscode.Disposable;
  /** Says when the server has stopped, and when it answers again. */
  watch(listener: (running: boolean) => void): vscode.Disposable;
  /** Ends the server where it still runs, and starts it anew. */
  restart(): Promise<void>;
}

/** What the client offers is the same in Node and in a web worker; files are watched at the server's wish. */
export const clientOptions: LanguageClientOptions = {
  // Plans anywhere: on disk, untitled, in a repository's history, in a virtual workspace.
  documentSelector: [{ language: 'linkwright' }],
  diagnosticCollectionName: 'linkwright',
};

export function startServer(client: BaseLanguageClient): Server {
  let ready = client.start();
  /** By method; the client itself keeps one listener of each, and the last would take the place of the others. */
  const listeners = new Map<string, Set<(params: never) => void>>();
  return {
    get ready() {
      return ready;
    },
    async ask<Answer>(method: string, params: object, token?: vscode.CancellationToken) {
      await ready;
      // An undefined token would be sent along as a second parameter.
      return token
        ? client.sendRequest<Answer>(method, params, token)
        : client.sendRequest<Answer>(method, params);
    },
    hear(method, listener) {
      const known = listeners.get(method);
      const all = known ?? new Set();
      all.add(listener);
      if (!known) {
        listeners.set(method, all);
        client.onNotification(method, (params: unknown) => {
          for (const each of [...all]) each(params as never);
        });
      }
      return { dispose: () => void all.delete(listener) };
    },
    watch: (listener) =>
      client.onDidChangeState(({ newState }) => {
        if (newState === State.Running) listener(true);
        else if (newState !== State.Starting) listener(false);
      }),
    async restart() {
      // One that answers no more is left behind.
      if (client.needsStop()) await client.stop().catch(() => undefined);
      ready = client.start();
      await ready;
    },
    dispose() {
      void client.stop();
    },
  };
}
