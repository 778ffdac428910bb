/**
 * One session with an editor: documents come in, findings go out, questions are
 * answered from what stands now. An edit marks what it touches; the work is
 * done in slices, so that a newer key is never kept waiting by an older one.
 */
import {
  type CancellationToken,
  type Diagnostic,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  FileChangeType,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  PositionEncodingKind,
  ResponseError,
  type ServerCapabilities,
  TextDocumentSyncKind,
  TextDocuments,
  WatchKind,
} from 'vscode-languageserver';
import { codeLens } from '../features/code-lens.ts';
import { defaultSettings, type Session } from '../features/feature.ts';
import { features } from '../features/index.ts';
import { inlayHints } from '../features/inlay-hints.ts';
import type { Work } from '../import/index.ts';
import { planEnding } from '../project/files.ts';
import {
  isWithin,
  type LiveDocument,
  LiveProject,
  loadFolders,
  loadWanted,
  sameAddress,
  standsAlone,
} from '../project/index.ts';
import { parseInstant } from '../project/instant.ts';
import type { Edge } from './edge.ts';
import { Progress } from './progress.ts';
import { Publishing, sameDiagnostics } from './publish.ts';
import { Revisions } from './revisions.ts';
import { readOptions, readSettings, type SessionSettings, settingsSection } from './settings.ts';

/** Milliseconds after which work lets messages through. */
const slice = 8;

/** Questions whose answers stand in the text until the editor asks again. */
const showsResults: ReadonlySet<string> = new Set([codeLens.method, inlayHints.method]);

const watched = `**/*${planEnding}`;

export function startSession(edge: Edge): void {
  new EditorSession(edge).listen();
}

class EditorSession {
  readonly #edge: Edge;
  readonly #project: LiveProject;
  readonly #documents: TextDocuments<LiveDocument>;
  /** As the editor spells them; published back in the same spelling. */
  readonly #spelling = new Map<string, string>();
  /** What was published last, so that only changed files are published again. */
  readonly #published = new Map<string, readonly Diagnostic[]>();
  readonly #publishing: Publishing;
  readonly #revisions: Revisions;
  #settings: SessionSettings = { features: defaultSettings, severities: {} };
  #folders: readonly string[] = [];
  #can: InitializeParams['capabilities'] = {};
  /** Fixed by the client, or undefined: the clock's. */
  #asOf: number | undefined;
  /** Settles when the files of the workspace have been read. */
  #loaded: Promise<void> = Promise.resolve();
  readonly #progress: Progress;
  #waiting = false;
  /** A message came since the last slice of work. */
  #heard = false;
  #edited: string | undefined;
  /** Of something that results are shown in and that was answered before all was judged: what had changed by then. */
  #early: number | undefined;
  #down = false;

  constructor(edge: Edge) {
    this.#edge = edge;
    this.#project = new LiveProject({ asOf: edge.clock() });
    this.#progress = new Progress(
      edge.connection,
      () => this.#can.window?.workDoneProgress ?? false,
    );
    const project = this.#project;
    this.#publishing = new Publishing(project);
    this.#revisions = new Revisions({
      edge,
      project,
      asOf: () => this.#asOf ?? edge.clock(),
      folders: () => this.#folders,
      view: () => this.#view(),
      refresh: () => this.#refresh(),
      // What is being worked on comes back to it when it is done.
      busy: () => this.#waiting || project.waiting > 0,
    });
    this.#documents = new TextDocuments<LiveDocument>({
      create: (uri, _language, version, text) => {
        this.#spelling.set(sameAddress(uri), uri);
        return project.open(uri, version, text);
      },
      update: (document, changes, version) => project.change(document.uri, version, changes),
    });
  }

  listen(): void {
    const { connection } = this.#edge;
    connection.onInitialize((params) => this.#initialize(params));
    connection.onInitialized(() => this.#initialized());
    connection.onShutdown(() => {
      this.#down = true;
      this.#revisions.stop();
    });
    connection.onDidChangeConfiguration(({ settings }) => this.#configure(settings));
    connection.onDidChangeWatchedFiles(({ changes }) =>
      this.#later(() => this.#filesChanged(changes)),
    );
    this.#documents.onDidChangeContent(({ document }) => {
      this.#edited = document.uri;
      if (this.#asOf === undefined) this.#project.asOf = this.#edge.clock();
      if (this.#project.wanted.length > 0) this.#later(() => this.#loadWanted());
      this.#schedule();
    });
    this.#documents.onDidClose(({ document }) => {
      this.#project.close(document.uri);
      this.#later(() => this.#reread(document.uri));
      this.#schedule();
    });
    this.#documents.listen(connection);
    this.#answer();
    connection.listen();
  }

  #initialize(params: InitializeParams): InitializeResult {
    this.#can = params.capabilities;
    const options = readOptions(params.initializationOptions);
    this.#asOf = options.asOf === undefined ? undefined : parseInstant(options.asOf);
    if (this.#asOf !== undefined) this.#project.asOf = this.#asOf;
    if (options.settings !== undefined) this.#settings = readSettings(options.settings);
    const single = params.rootUri ? [{ uri: params.rootUri }] : [];
    this.#setFolders((params.workspaceFolders ?? single).map(({ uri }) => uri));
    const capabilities: ServerCapabilities = Object.assign(
      {
        positionEncoding: PositionEncodingKind.UTF16,
        textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      },
      ...features.map((feature) => feature.capabilities),
    );
    return { capabilities, serverInfo: { name: 'Linkwright' } };
  }

  #initialized(): void {
    const { connection } = this.#edge;
    if (this.#can.workspace?.didChangeWatchedFiles?.dynamicRegistration) {
      this.#ask(
        connection.client.register(DidChangeWatchedFilesNotification.type, {
          // A folder that goes is told as one, without the files in it.
          watchers: [{ globPattern: watched }, { globPattern: '**/*', kind: WatchKind.Delete }],
        }),
      );
    }
    if (this.#can.workspace?.didChangeConfiguration?.dynamicRegistration) {
      this.#ask(
        connection.client.register(DidChangeConfigurationNotification.type, {
          section: settingsSection,
        }),
      );
    }
    if (this.#can.workspace?.workspaceFolders) {
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        const gone = new Set(removed.map(({ uri }) => sameAddress(uri)));
        const left = this.#folders.filter((folder) => !gone.has(folder));
        this.#setFolders([...left, ...added.map(({ uri }) => uri)]);
        this.#later(() => this.#loadFolders());
      });
    }
    this.#configure(undefined);
    this.#later(() => this.#loadFolders());
  }

  #setFolders(uris: readonly string[]): void {
    this.#folders = [...new Set(uris.map(sameAddress))];
    this.#project.folders = this.#folders;
  }

  /** Does something that waits for files, after whatever waited before it; questions wait for it too. */
  #later(work: () => Promise<void>): void {
    this.#loaded = this.#loaded.then(work).then(
      () => this.#schedule(),
      (error) => this.#say(error),
    );
  }

  #loadFolders(): Promise<void> {
    return loadFolders(this.#project, this.#edge.files, this.#folders);
  }

  #loadWanted(): Promise<void> {
    return loadWanted(this.#project, this.#edge.files);
  }

  async #reread(uri: string): Promise<void> {
    const address = sameAddress(uri);
    this.#project.put(address, await this.#edge.files.read(address));
    await this.#loadWanted();
  }

  async #filesChanged(
    changes: readonly { readonly uri: string; readonly type: FileChangeType }[],
  ): Promise<void> {
    for (const { uri, type } of changes) {
      const address = sameAddress(uri);
      const gone = type === FileChangeType.Deleted;
      if (gone) {
        const within = [...this.#project.uris].filter((each) => isWithin(each, address));
        this.#project.putAll(within.map((each) => [each, undefined]));
      }
      if (!address.endsWith(planEnding) && !this.#project.has(address)) continue;
      this.#project.put(address, gone ? undefined : await this.#edge.files.read(address));
    }
    await this.#loadWanted();
  }

  #configure(sent: unknown): void {
    if (this.#can.workspace?.configuration) {
      this.#ask(
        this.#edge.connection.workspace.getConfiguration(settingsSection).then((settings) => {
          this.#settings = readSettings(settings);
          this.#publishAgain();
        }),
      );
    } else if (typeof sent === 'object' && sent !== null && settingsSection in sent) {
      this.#settings = readSettings((sent as Record<string, unknown>)[settingsSection]);
      this.#publishAgain();
    }
  }

  #publishAgain(): void {
    this.#project.changeAll();
    this.#schedule();
  }

  /** Each feature under its method; a fault in one is an answer, not the end of the session. */
  #answer(): void {
    for (const { method, answer } of features) {
      this.#edge.connection.onRequest(method, async (params: never, token: CancellationToken) => {
        this.#heard = true;
        this.#revisions.hear();
        await this.#loaded;
        if (token.isCancellationRequested) return cancelled();
        try {
          const answered = answer(this.#view(), params, this.#workOf(method, token));
          if (showsResults.has(method) && this.#project.waiting > 0)
            this.#early ??= this.#project.resultChanges;
          return answered;
        } catch (error) {
          this.#say(error);
          return new ResponseError(
            LSPErrorCodes.RequestFailed,
            `${method} could not be answered, through a fault in the tool.`,
          );
        }
      });
    }
    this.#revisions.answer(this.#edge.connection, () => this.#loaded);
    this.#edge.connection.onRequest(
      'linkwright/libraryText',
      ({ uri }: { readonly uri: string }) => {
        const text = this.#project.libraryText(uri);
        return text === undefined ? null : { text };
      },
    );
  }

  #workOf(method: string, token: CancellationToken): Work {
    const stop = new AbortController();
    token.onCancellationRequested(() => stop.abort());
    return {
      signal: stop.signal,
      report: (done, all) =>
        this.#ask(
          this.#edge.connection.sendNotification('linkwright/progress', { method, done, all }),
        ),
    };
  }

  #view(): Session {
    return {
      project: this.#project,
      settings: this.#settings.features,
      snippets: this.#can.textDocument?.completion?.completionItem?.snippetSupport ?? false,
      earlier: this.#revisions.earlier,
      ...(this.#edge.beginThread && { beginThread: this.#edge.beginThread }),
    };
  }

  #schedule(): void {
    if (this.#waiting || this.#down) return;
    this.#waiting = true;
    this.#edge.yielding(() => {
      this.#waiting = false;
      if (!this.#down) this.#work();
    });
  }

  #work(): void {
    // While an editor goes on asking, what nobody looks at waits: each message buys it a turn.
    if (this.#heard && !this.#project.urgent && this.#project.waiting > 0) {
      this.#heard = false;
      this.#schedule();
      return;
    }
    this.#heard = false;
    const end = this.#edge.now() + slice;
    const done = this.#project.work(() => this.#edge.now() >= end);
    this.#progress.show(this.#project.waiting);
    if (done) {
      this.#publish(this.#project.takeChangedFiles());
      this.#tellResults();
      this.#revisions.whenIdle();
      return;
    }
    if (!this.#project.urgent) {
      this.#publish(this.#project.takeChangedFiles((uri) => this.#project.isOpen(uri)));
    }
    this.#schedule();
  }

  #publish(uris: Iterable<string>): void {
    for (const uri of uris) {
      if (standsAlone(uri)) continue;
      const document = this.#project.document(uri);
      const diagnostics = this.#publishing.diagnostics(
        this.#project.findings(uri),
        this.#settings.severities,
      );
      const open = this.#project.isOpen(uri);
      const before = this.#published.get(uri) ?? [];
      // The editor is told of each version of what is open in it, of other files what is new.
      if (!open && sameDiagnostics(diagnostics, before)) continue;
      if (document && diagnostics.length > 0) this.#published.set(uri, diagnostics);
      else this.#published.delete(uri);
      const version = open ? document?.version : undefined;
      this.#ask(
        this.#edge.connection.sendDiagnostics({
          uri: this.#spelling.get(uri) ?? uri,
          diagnostics,
          ...(typeof version === 'number' ? { version } : {}),
        }),
      );
    }
  }

  /** Tells views what changed, and asks the editor to look again at what other files show, or showed too early. */
  #tellResults(): void {
    const changed = this.#project.takeChangedResults();
    let again = this.#early !== undefined && this.#early !== this.#project.resultChanges;
    this.#early = undefined;
    for (const { plan, objects, files } of changed) {
      again ||= files.some((uri) => uri !== this.#edited && this.#project.isOpen(uri));
      this.#ask(
        this.#edge.connection.sendNotification('linkwright/resultsChanged', {
          root: plan,
          objects,
        }),
      );
    }
    if (again) this.#refresh();
  }

  #refresh(): void {
    const { workspace } = this.#can;
    if (workspace?.inlayHint?.refreshSupport) {
      this.#ask(this.#edge.connection.languages.inlayHint.refresh());
    }
    if (workspace?.codeLens?.refreshSupport) {
      this.#ask(this.#edge.connection.sendRequest('workspace/codeLens/refresh'));
    }
  }

  /** Something asked of the client; that it cannot is its own affair. */
  #ask(answer: Promise<unknown>): void {
    answer.catch((error) => this.#say(error));
  }

  #say(error: unknown): void {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    if (!this.#down) this.#edge.connection.console.warn(text);
  }
}

function cancelled(): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'The question was withdrawn.');
}
