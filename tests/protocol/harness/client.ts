/**
 * A language client of the plainest kind: it starts the shipped server as a
 * process, talks to it over stdio, and keeps what the server says, so that a
 * test can ask for a state and wait until it holds.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import type {
  ClientCapabilities,
  Diagnostic,
  InitializeResult,
  Position,
  PublishDiagnosticsParams,
  TextDocumentContentChangeEvent,
} from 'vscode-languageserver-protocol';
import { dist } from '../../../client/build/paths.ts';

export interface ClientOptions {
  readonly folders?: readonly { readonly uri: string; readonly name: string }[];
  readonly capabilities?: ClientCapabilities;
  /** Answers to `workspace/configuration`, by section. */
  readonly settings?: Readonly<Record<string, unknown>>;
  /** Program and arguments in place of the bundled server, for instance the command line's. */
  readonly program?: readonly string[];
  /** False: the test speaks `initialize` itself. */
  readonly initialize?: boolean;
}

const everything: ClientCapabilities = {
  general: { positionEncodings: ['utf-16'] },
  workspace: {
    applyEdit: true,
    configuration: true,
    workspaceFolders: true,
    didChangeWatchedFiles: { dynamicRegistration: false },
    didChangeConfiguration: { dynamicRegistration: false },
    inlayHint: { refreshSupport: true },
    semanticTokens: { refreshSupport: true },
    codeLens: { refreshSupport: true },
  },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    completion: { completionItem: { snippetSupport: true } },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    rename: { prepareSupport: true },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor'] } },
    },
  },
  window: { workDoneProgress: true },
};

export class ProtocolClient {
  readonly connection: MessageConnection;
  readonly process: ChildProcess;
  /** What the server said of itself; empty before `initialize`. */
  initialized: InitializeResult = { capabilities: {} };
  /** Findings as last published, by document. */
  readonly published = new Map<string, PublishDiagnosticsParams>();
  /** Every publication in the order it came. */
  readonly publications: PublishDiagnosticsParams[] = [];
  /** Words the server wrote to its log or to the person. */
  readonly said: string[] = [];
  /** The process's exit code once it has ended. */
  readonly exit: Promise<number | null>;
  readonly #versions = new Map<string, number>();
  readonly #waiting = new Set<() => void>();

  private constructor(process: ChildProcess, settings: Readonly<Record<string, unknown>>) {
    this.process = process;
    if (!process.stdout || !process.stdin) throw new Error('The server has no stdio.');
    this.exit = new Promise((resolve) => process.on('exit', resolve));
    this.connection = createMessageConnection(
      new StreamMessageReader(process.stdout),
      new StreamMessageWriter(process.stdin),
    );
    process.stderr?.on('data', (part) => this.said.push(String(part)));
    this.connection.onNotification(
      'textDocument/publishDiagnostics',
      (params: PublishDiagnosticsParams) => {
        this.published.set(params.uri, params);
        this.publications.push(params);
        for (const look of [...this.#waiting]) look();
      },
    );
    for (const method of ['window/logMessage', 'window/showMessage']) {
      this.connection.onNotification(method, ({ message }: { message: string }) => {
        this.said.push(message);
      });
    }
    this.connection.onRequest(
      'workspace/configuration',
      ({ items }: { items: readonly { section?: string }[] }) =>
        items.map(({ section }) => settings[section ?? ''] ?? null),
    );
    for (const method of [
      'client/registerCapability',
      'client/unregisterCapability',
      'window/workDoneProgress/create',
      'workspace/inlayHint/refresh',
      'workspace/semanticTokens/refresh',
      'workspace/codeLens/refresh',
    ]) {
      this.connection.onRequest(method, () => null);
    }
    this.connection.listen();
  }

  /** Starts the server and, unless told otherwise, has it initialised. */
  static async start(options: ClientOptions = {}): Promise<ProtocolClient> {
    const [program = '', ...words] = options.program ?? [
      process.execPath,
      join(dist, 'server.cjs'),
      '--stdio',
    ];
    const client = new ProtocolClient(
      spawn(program, words, { stdio: ['pipe', 'pipe', 'pipe'] }),
      options.settings ?? {},
    );
    if (options.initialize === false) return client;
    client.initialized = await client.ask<InitializeResult>('initialize', {
      processId: process.pid,
      rootUri: options.folders?.[0]?.uri ?? null,
      workspaceFolders: options.folders ?? null,
      capabilities: options.capabilities ?? everything,
    });
    await client.tell('initialized', {});
    return client;
  }

  ask<Answer>(method: string, params?: unknown): Promise<Answer> {
    return this.connection.sendRequest<Answer>(method, params);
  }

  tell(method: string, params?: unknown): Promise<void> {
    return this.connection.sendNotification(method, params);
  }

  async open(uri: string, text: string, version = 1): Promise<void> {
    this.#versions.set(uri, version);
    await this.tell('textDocument/didOpen', {
      textDocument: { uri, languageId: 'linkwright', version, text },
    });
  }

  /** One version later; answers which. */
  async change(uri: string, ...changes: TextDocumentContentChangeEvent[]): Promise<number> {
    const version = (this.#versions.get(uri) ?? 0) + 1;
    this.#versions.set(uri, version);
    await this.tell('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: changes,
    });
    return version;
  }

  /** Types text at a position, replacing nothing. */
  type(uri: string, at: Position, text: string): Promise<number> {
    return this.change(uri, { range: { start: at, end: at }, text });
  }

  async close(uri: string): Promise<void> {
    this.#versions.delete(uri);
    await this.tell('textDocument/didClose', { textDocument: { uri } });
  }

  /**
   * Findings of a document once they belong to `version` or a later one (to any
   * publication where none is given). Fails when the server ends meanwhile.
   */
  async findings(uri: string, version?: number): Promise<readonly Diagnostic[]> {
    const enough = () => {
      const last = this.published.get(uri);
      return last && (version === undefined || (last.version ?? 0) >= version) ? last : undefined;
    };
    return (await this.until(enough)).diagnostics;
  }

  /** Waits until a look at what the server has published finds something. */
  async until<Found>(look: () => Found | undefined): Promise<Found> {
    const now = look();
    if (now !== undefined) return now;
    return new Promise((resolve, reject) => {
      const again = () => {
        const found = look();
        if (found === undefined) return;
        this.#waiting.delete(again);
        resolve(found);
      };
      this.#waiting.add(again);
      void this.exit.then((code) => {
        reject(new Error(`The server ended with ${code}:\n${this.said.join('\n')}`));
      });
    });
  }

  /** Ends the server as the protocol wants it; answers its exit code. */
  async stop(): Promise<number | null> {
    await this.ask('shutdown');
    await this.tell('exit');
    const code = await this.exit;
    this.connection.dispose();
    return code;
  }
}
