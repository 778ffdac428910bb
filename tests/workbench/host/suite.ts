/**
 * Runs inside the extension host, beside the packaged extension. It opens a door
 * on 127.0.0.1 through which a test hands in a function; the function gets the
 * real `vscode` module, and its answer goes back as JSON.
 */
import { renameSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import * as vscode from 'vscode';

interface Call {
  /** Source of `(vscode, argument) => answer`, or null: the run is over. */
  readonly source: string | null;
  readonly argument: unknown;
}

/** Resolves when the tests are done; VS Code then ends with code 0. */
export function run(): Promise<void> {
  const file = process.env.LINKWRIGHT_DOOR;
  const key = process.env.LINKWRIGHT_DOOR_KEY;
  if (!file || !key) throw new Error('LINKWRIGHT_DOOR and LINKWRIGHT_DOOR_KEY are not set');
  return new Promise((resolve) => {
    const door = createServer(async (request, response) => {
      if (request.headers.authorization !== key) {
        response.writeHead(403).end();
        return;
      }
      const call = JSON.parse(await bodyOf(request)) as Call;
      if (call.source === null) {
        response.end('{}');
        door.close();
        resolve();
        return;
      }
      try {
        const work = new Function(`return (${call.source});`)() as (
          api: typeof vscode,
          argument: unknown,
        ) => unknown;
        const answer = await work(vscode, call.argument);
        response.end(JSON.stringify({ answer }));
      } catch (error) {
        response.end(JSON.stringify({ error: error instanceof Error ? error.stack : `${error}` }));
      }
    });
    door.listen(0, '127.0.0.1', () => {
      // Whole at once: whoever waits for the file reads it as soon as it is there.
      writeFileSync(`${file}.new`, String((door.address() as AddressInfo).port));
      renameSync(`${file}.new`, file);
    });
  });
}

async function bodyOf(request: IncomingMessage): Promise<string> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  return Buffer.concat(parts).toString('utf8');
}
