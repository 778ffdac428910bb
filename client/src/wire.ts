/** Joins the client's parts to a language client, whichever kind it is. */
import type * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { registerCommands } from './commands/index.ts';
import { showCoverage } from './coverage.ts';
import { serveLibrary } from './library.ts';
import { changesPanels } from './preview/changes-panel.ts';
import { resultsPanels } from './preview/panel.ts';
import { keepBesideHead } from './revisions/beside-head.ts';
import { serveEarlierTexts } from './revisions/was.ts';
import { startServer } from './server.ts';
import { showReadingTests } from './tests-view.ts';

export async function wire(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient,
): Promise<void> {
  const server = startServer(client);
  const panels = resultsPanels(context, server);
  const changes = changesPanels(context, server);
  const besideHead = keepBesideHead(server);
  context.subscriptions.push(
    server,
    panels,
    changes,
    besideHead,
    serveLibrary(server),
    serveEarlierTexts(server),
    showCoverage(server),
    showReadingTests(server),
    ...registerCommands({ context, server, panels, changes, besideHead }),
  );
  await server.ready;
}
