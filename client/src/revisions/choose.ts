/** Which revision to compare with: the last commit, a branch, a tag, an earlier commit, or whatever is typed. */
import * as vscode from 'vscode';
import type { GitCommit, GitRef, GitRepository } from './git.ts';

interface RevisionItem extends vscode.QuickPickItem {
  readonly revision?: string;
}

const mostCommits = 30;

/** Undefined where nothing was chosen. */
export async function chooseRevision(repository: GitRepository): Promise<string | undefined> {
  const pick = vscode.window.createQuickPick<RevisionItem>();
  pick.title = 'Compare with a revision';
  pick.placeholder = 'A branch, a tag, a commit, or anything that git takes for one';
  pick.matchOnDescription = true;
  pick.matchOnDetail = true;
  pick.busy = true;
  let known: readonly RevisionItem[] = [];
  const offer = () => {
    const typed = pick.value.trim();
    const named = known.some(({ revision }) => revision === typed);
    pick.items =
      typed === '' || named
        ? known
        : [...known, { label: typed, description: 'as typed', revision: typed, alwaysShow: true }];
  };
  const chosen = new Promise<string | undefined>((done) => {
    pick.onDidAccept(() => {
      done(pick.selectedItems[0]?.revision ?? (pick.value.trim() || undefined));
      pick.hide();
    });
    pick.onDidHide(() => done(undefined));
    pick.onDidChangeValue(offer);
  });
  pick.show();
  known = await itemsOf(repository);
  pick.busy = false;
  offer();
  const revision = await chosen;
  pick.dispose();
  return revision;
}

async function itemsOf(repository: GitRepository): Promise<readonly RevisionItem[]> {
  const [refs, commits] = await Promise.all([
    repository.getRefs({ sort: 'committerdate' }).catch((): readonly GitRef[] => []),
    repository.log({ maxEntries: mostCommits }).catch((): readonly GitCommit[] => []),
  ]);
  const of = (type: GitRef['type']) =>
    refs.flatMap(({ type: own, name }): RevisionItem[] =>
      own === type && name ? [{ label: name, revision: name }] : [],
    );
  const [newest] = commits;
  const head: RevisionItem[] = newest
    ? [{ label: 'HEAD', description: 'last commit', detail: said(newest), revision: 'HEAD' }]
    : [];
  return [
    ...head,
    ...under('branches', of(0)),
    ...under('tags', of(2)),
    ...under('branches of remotes', of(1)),
    ...under(
      'commits',
      commits.map((commit) => ({
        label: commit.hash.slice(0, 8),
        description: said(commit),
        revision: commit.hash.slice(0, 12),
      })),
    ),
  ];
}

function under(label: string, items: readonly RevisionItem[]): readonly RevisionItem[] {
  return items.length === 0 ? [] : [{ label, kind: vscode.QuickPickItemKind.Separator }, ...items];
}

function said({ message, authorName, commitDate }: GitCommit): string {
  const day = commitDate?.toISOString().slice(0, 10);
  return [message.split('\n')[0], authorName, day].filter(Boolean).join(' · ');
}
