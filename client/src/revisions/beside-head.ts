/**
 * The text beside the last commit: once plans are open and the editor has come to
 * rest, the server is told of HEAD, and again whenever that is another commit.
 * A revision that somebody chose stays until the window is closed.
 */
import * as vscode from 'vscode';
import type { Server } from '../server.ts';
import { type GitRepository, gitOfEditor } from './git.ts';
import { takeRevision } from './take.ts';

const setting = 'sinceLastCommit';
/** After the start, ms: what people wait for comes first. */
const rest = 1500;

export interface BesideHead extends vscode.Disposable {
  /** Somebody chose what the plans of this repository are looked at beside. */
  chosen(repository: GitRepository, revision: string): void;
}

export function keepBesideHead(server: Server): BesideHead {
  // By address: the extension hands out another object for the same repository each time.
  const watched = new Map<string, vscode.Disposable>();
  const taken = new Map<string, string>();
  const left = new Set<string>();
  let waiting: ReturnType<typeof setTimeout> | undefined;

  const later = (wait = rest) => {
    clearTimeout(waiting);
    waiting = setTimeout(() => void look().catch(() => undefined), wait);
  };

  async function look(): Promise<void> {
    if (!isOn()) return;
    const plans = vscode.workspace.textDocuments.filter(
      ({ languageId, uri }) => languageId === 'linkwright' && uri.scheme === 'file',
    );
    if (plans.length === 0) return;
    const git = await gitOfEditor();
    if (!git) return;
    for (const { uri } of plans) {
      const repository = git.getRepository(uri);
      if (!repository) continue;
      const top = repository.rootUri.toString();
      if (left.has(top)) continue;
      if (!watched.has(top)) {
        watched.set(
          top,
          repository.state.onDidChange(() => later()),
        );
      }
      const commit = repository.state.HEAD?.commit;
      const place = `${commit} ${vscode.workspace.getWorkspaceFolder(uri)?.uri ?? uri}`;
      if (commit === undefined || taken.get(top) === place) continue;
      taken.set(top, place);
      await takeRevision(server, uri.toString(), 'HEAD', true);
    }
  }

  const listeners = vscode.Disposable.from(
    vscode.workspace.onDidOpenTextDocument(({ languageId }) => {
      if (languageId === 'linkwright') later();
    }),
    vscode.workspace.onDidChangeConfiguration((change) => {
      if (!change.affectsConfiguration(`linkwright.${setting}`)) return;
      taken.clear();
      if (isOn()) later(0);
      else void server.ask('linkwright/leaveRevision', {}).catch(() => undefined);
    }),
    server.watch((running) => {
      if (!running) return;
      taken.clear();
      later();
    }),
  );
  void gitOfEditor().then(
    (git) => git?.onDidOpenRepository(() => later()),
    () => undefined,
  );
  later();
  return {
    chosen({ rootUri }, revision) {
      if (revision === 'HEAD') left.delete(rootUri.toString());
      else left.add(rootUri.toString());
    },
    dispose() {
      clearTimeout(waiting);
      listeners.dispose();
      for (const each of watched.values()) each.dispose();
    },
  };
}

function isOn(): boolean {
  return vscode.workspace.getConfiguration('linkwright').get(setting, true);
}
