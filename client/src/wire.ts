/** Joins the client's parts to a language client, whichever kind it is. */
import type * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { registerCommands } from './commands/index.ts';
import { showCoverage } from './coverage.ts';
import { serveLibrary } from './library.ts';
import { resultsPanels } from './preview/panel.ts';
import { startServer } from './server.ts';
import { showReadingTests } from './tests-view.ts';

export async function wire(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient,
): Promise<void> {
  const server = startServer(client);
  const panels = resultsPanels(context, server);
  context.subscriptions.push(
    server,
    panels,
    serveLibrary(server),
    showCoverage(server),
    showReadingTests(server),
    ...registerCommands({ context, server, panels }),
  );
  await server.ready;
}
