/** Activation in a browser without a machine behind it: the server is a web worker. */
import { type ExtensionContext, Uri } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
} from 'vscode-languageclient/browser';
import { lendFiles } from './lend-files.ts';
import { clientOptions } from './server.ts';
import { wire } from './wire.ts';

export function activate(context: ExtensionContext): Promise<void> {
  const script = Uri.joinPath(context.extensionUri, 'dist/server.browser.js');
  let worker: Worker | undefined;
  const end = () => worker?.terminate();
  const start = async () => {
    end();
    worker = new Worker(script.toString(true));
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  const client = new LanguageClient('linkwright', 'Linkwright', start, clientOptions);
  context.subscriptions.push({ dispose: end }, ...lendFiles(client));
  return wire(context, client);
}
