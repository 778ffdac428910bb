/** Activation on a desktop or a remote machine: the server is a process of its own. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { lendFiles } from './lend-files.ts';
import { clientOptions } from './server.ts';
import { wire } from './wire.ts';

export function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/server.cjs');
  // What the server has written before goes out again as bytes over a stream; over ipc each object would be made anew.
  const run = { module, transport: TransportKind.stdio };
  const debug = { ...run, options: { execArgv: ['--inspect=0'] } };
  const client = new LanguageClient('linkwright', 'Linkwright', { run, debug }, clientOptions);
  context.subscriptions.push(...lendFiles(client));
  return wire(context, client);
}
