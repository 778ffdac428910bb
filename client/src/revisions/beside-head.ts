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
  const watched = new Map<GitRepository, vscode.Disposable>();
  const taken = new Map<GitRepository, string>();
  const left = new Set<GitRepository>();
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
      if (!repository || left.has(repository)) continue;
      if (!watched.has(repository)) {
        watched.set(
          repository,
          repository.state.onDidChange(() => later()),
        );
      }
      const commit = repository.state.HEAD?.commit;
      const place = `${commit} ${vscode.workspace.getWorkspaceFolder(uri)?.uri ?? uri}`;
      if (commit === undefined || taken.get(repository) === place) continue;
      taken.set(repository, place);
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
    chosen(repository, revision) {
      if (revision === 'HEAD') left.delete(repository);
      else left.add(repository);
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
