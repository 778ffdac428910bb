/**
 * Readings in the editor's own list of tests: plans, their links, their fibres.
 * Nothing is asked of the server until the list is shown; from then on it follows
 * edits, a moment after the last one, with what they changed.
 */
import * as vscode from 'vscode';
import { newestOnly } from './newest-only.ts';
import type { Server } from './server.ts';

interface Placed {
  readonly uri: string;
  readonly range: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
}

type Outcome = 'passed' | 'failed' | 'skipped';

interface LinkTest {
  readonly name: string;
  readonly at: Placed | null;
  readonly outcome: Outcome;
  readonly says: string;
}

interface FibreTest {
  readonly fibre: number;
  readonly label: string;
  readonly at: Placed | null;
  readonly outcome: Outcome;
  readonly says: string;
  readonly messages: readonly { readonly text: string; readonly at: Placed | null }[];
}

interface ReadingTests {
  readonly upTo: number;
  readonly plans: readonly {
    readonly root: string;
    readonly title: string | null;
    readonly names: readonly string[];
    readonly changed: readonly LinkTest[];
  }[];
}

interface Shown {
  readonly item: vscode.TestItem;
  readonly outcome: Outcome;
  readonly messages: readonly vscode.TestMessage[];
}

/** After the last edit. */
const pause = 600;

export function showReadingTests(server: Server): vscode.Disposable {
  const controller = vscode.tests.createTestController('linkwright', 'Linkwright');
  /** What a link's item stands for; a plan's is known by having none. */
  const links = new WeakMap<vscode.TestItem, { readonly root: string; readonly name: string }>();
  /** Links whose fibres somebody has looked at. */
  const opened = new WeakSet<vscode.TestItem>();
  let shown = false;
  let since = 0;

  /** Brings the list up to what the server says now; the answer is what changed in it. */
  async function followed(): Promise<readonly Shown[]> {
    const { upTo, plans } = await server.ask<ReadingTests>('linkwright/readingTests', { since });
    const whole = since === 0;
    since = upTo;
    const changed: Shown[] = [];
    keepOnly(controller.items, new Set(plans.map(({ root }) => root)));
    for (const { root, title, names, changed: tests } of plans) {
      const uri = vscode.Uri.parse(root);
      const label = title ?? nameOf(root);
      const isShared = plans.filter((each) => each.title === title).length > 1;
      const file = isShared ? `, ${vscode.workspace.asRelativePath(uri)}` : '';
      const plan = itemIn(controller.items, root, `${label}${file}`, uri);
      keepOnly(plan.children, new Set(names));
      const order = new Map(names.map((name, index) => [name, sorted(index)]));
      for (const test of tests) {
        const item = itemIn(plan.children, test.name, `${test.name}: ${test.says}`, uriOf(test.at));
        links.set(item, { root, name: test.name });
        item.canResolveChildren = true;
        item.sortText = order.get(test.name);
        item.range = rangeOf(test.at);
        changed.push({ item, outcome: test.outcome, messages: [] });
        if (opened.has(item)) changed.push(...(await openLink(item)));
      }
    }
    const lacks = plans.some(({ root, names }) =>
      names.some((name) => !controller.items.get(root)?.children.get(name)),
    );
    if (!lacks || whole) return changed;
    // One that was left out has come back as it was.
    since = 0;
    return followed();
  }

  async function openLink(item: vscode.TestItem): Promise<readonly Shown[]> {
    const link = links.get(item);
    if (!link) return [];
    const fibres =
      (await server.ask<readonly FibreTest[] | null>('linkwright/fibreTests', link)) ?? [];
    opened.add(item);
    keepOnly(item.children, new Set(fibres.map(({ fibre }) => String(fibre))));
    return fibres.map((test, index): Shown => {
      const label = `${test.label}: ${test.says}`;
      const child = itemIn(item.children, String(test.fibre), label, uriOf(test.at));
      child.sortText = sorted(index);
      child.range = rangeOf(test.at);
      const messages = test.messages.map(({ text, at }) => {
        const message = new vscode.TestMessage(text);
        const place = at ?? test.at;
        if (place)
          message.location = new vscode.Location(vscode.Uri.parse(place.uri), rangeOf(place)!);
        return message;
      });
      return { item: child, outcome: test.outcome, messages };
    });
  }

  /** All stands in the label: where there is a description, a screen reader is told that instead. */
  function itemIn(
    items: vscode.TestItemCollection,
    id: string,
    label: string,
    uri: vscode.Uri | undefined,
  ): vscode.TestItem {
    const known = items.get(id);
    if (known && known.uri?.toString() === uri?.toString()) {
      known.label = label;
      return known;
    }
    const made = controller.createTestItem(id, label, uri);
    items.add(made);
    return made;
  }

  /** Outcomes that nobody asked for are shown without opening anything over the text. */
  function tell(all: readonly Shown[], request = unasked(all)): void {
    if (all.length === 0) return;
    const run = controller.createTestRun(request, 'Readings', false);
    for (const { item, outcome, messages } of all) {
      if (outcome === 'failed') run.failed(item, [...messages]);
      else run[outcome](item);
    }
    run.end();
  }

  function unasked(all: readonly Shown[]): vscode.TestRunRequest {
    return new vscode.TestRunRequest(
      all.map(({ item }) => item),
      undefined,
      profile,
      true,
    );
  }

  const follow = newestOnly(async () => tell(await followed()));
  let waiting: ReturnType<typeof setTimeout> | undefined;
  function soon(): void {
    if (!shown) return;
    clearTimeout(waiting);
    waiting = setTimeout(() => void follow(), pause);
  }

  controller.resolveHandler = async (item) => {
    shown = true;
    if (item) tell(await openLink(item));
    else await follow();
  };
  controller.refreshHandler = follow;

  /** Asked for by a person: everything below what was chosen, whatever is known of it already. */
  async function judge(
    request: vscode.TestRunRequest,
    stop: vscode.CancellationToken,
  ): Promise<void> {
    shown = true;
    since = 0;
    const all = new Map((await followed()).map((each) => [each.item, each]));
    const chosen = request.include ?? [...controller.items].map(([, item]) => item);
    const told: Shown[] = [];
    for (const item of chosen) {
      const below = links.has(item) || !item.parent ? item : item.parent;
      for (const link of links.has(below) ? [below] : [...below.children].map(([, each]) => each)) {
        if (stop.isCancellationRequested) break;
        const own = all.get(link);
        const fibres = await openLink(link);
        if (below === item && own) told.push(own);
        told.push(...(below === item ? fibres : fibres.filter((each) => each.item === item)));
      }
    }
    const left = new Set(request.exclude);
    tell(
      told.filter(({ item }) => !left.has(item)),
      request,
    );
  }
  const profile = controller.createRunProfile('Judge', vscode.TestRunProfileKind.Run, judge, true);

  return vscode.Disposable.from(
    controller,
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (document.languageId === 'linkwright') soon();
    }),
    vscode.languages.onDidChangeDiagnostics(soon),
    server.watch((running) => {
      // A new server counts from the beginning.
      since = 0;
      if (running) soon();
    }),
    { dispose: () => clearTimeout(waiting) },
  );
}

function keepOnly(items: vscode.TestItemCollection, ids: ReadonlySet<string>): void {
  for (const [id] of [...items]) if (!ids.has(id)) items.delete(id);
}

function sorted(index: number): string {
  return String(index).padStart(7, '0');
}

function nameOf(root: string): string {
  return decodeURIComponent(root.slice(root.lastIndexOf('/') + 1));
}

function uriOf(at: Placed | null): vscode.Uri | undefined {
  return at ? vscode.Uri.parse(at.uri) : undefined;
}

function rangeOf(at: Placed | null): vscode.Range | undefined {
  if (!at) return undefined;
  const { start, end } = at.range;
  return new vscode.Range(start.line, start.character, end.line, end.character);
}
