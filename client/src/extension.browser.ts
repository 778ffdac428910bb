/** Activation in a browser without a machine behind it: the server is a web worker. */
import { type ExtensionContext, Uri } from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser';
import { lendFiles } from './lend-files.ts';
import { clientOptions } from './server.ts';
import { wire } from './wire.ts';

export function activate(context: ExtensionContext): Promise<void> {
  const script = Uri.joinPath(context.extensionUri, 'dist/server.browser.js');
  const worker = new Worker(script.toString(true));
  const client = new LanguageClient('linkwright', 'Linkwright', worker, clientOptions);
  context.subscriptions.push(...lendFiles(client));
  return wire(context, client);
}
