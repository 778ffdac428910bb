/** An editor's part of a measurement: a file open in a server, a key typed, the burst that follows. */
import type {
  ClientCapabilities,
  Position,
  ServerCapabilities,
} from 'vscode-languageserver-protocol';
import { ProtocolClient } from '../protocol/harness/client.ts';
import type { Peer } from './peers.ts';

export interface Timing {
  /** Until the findings of the new text have come; the peer's own fixed delay included. */
  readonly findings: number;
  /** Until everything that an editor asks after a key has been answered as well. */
  readonly burst: number;
}

/** What the editor in front of the servers can do; the same for all of them. */
const capabilities: ClientCapabilities = {
  general: { positionEncodings: ['utf-16'] },
  workspace: { configuration: true, workspaceFolders: true },
  textDocument: {
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    foldingRange: { rangeLimit: 5000 },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'refactor'] } },
    },
  },
};

export class Desk {
  readonly client: ProtocolClient;
  readonly peer: Peer;
  readonly uri: string;
  #version = 1;
  /** How often the server has said that everything has been looked at. */
  #settled = 0;
  #seen = 0;
  readonly #hearSettled = new Set<() => void>();

  private constructor(client: ProtocolClient, peer: Peer, uri: string) {
    this.client = client;
    this.peer = peer;
    this.uri = uri;
    if (peer.settled) {
      client.connection.onNotification(peer.settled, () => {
        this.#settled += 1;
        for (const hear of this.#hearSettled) hear();
        this.#hearSettled.clear();
      });
    }
  }

  /** Starts a server, opens a file in it, and waits for its first findings. */
  static async open(
    peer: Peer,
    folder: string,
    uri: string,
    text: string,
    schemaFile: string,
  ): Promise<{ readonly desk: Desk; readonly started: number }> {
    const begin = performance.now();
    const settings = peer.settings(schemaFile);
    const client = await ProtocolClient.start({
      program: peer.program,
      folders: [{ uri: folder, name: 'bench' }],
      settings,
      capabilities,
    });
    await client.tell('workspace/didChangeConfiguration', { settings });
    const desk = new Desk(client, peer, uri);
    await client.tell('textDocument/didOpen', {
      textDocument: { uri, languageId: peer.languageId, version: 1, text },
    });
    await desk.#published();
    const started = performance.now() - begin;
    await desk.#settledAfter(0);
    return { desk, started };
  }

  /** Replaces characters on one line, as a key does, and asks what an editor asks after it. */
  async key(at: Position, length: number, text: string): Promise<Timing> {
    const begin = performance.now();
    await this.#type(at, length, text);
    const burst = Promise.all(this.#burst(at)).then(() => performance.now() - begin);
    const findings = await this.#published().then(() => performance.now() - begin);
    return { findings, burst: Math.max(await burst, findings) };
  }

  /** The findings alone, with nothing else asked. */
  async keyAlone(at: Position, length: number, text: string): Promise<number> {
    const begin = performance.now();
    await this.#type(at, length, text);
    await this.#published();
    return performance.now() - begin;
  }

  /** Until everything that the key changes has been judged, in files that are not open too. */
  async keySettled(at: Position, length: number, text: string): Promise<number> {
    const before = this.#settled;
    const begin = performance.now();
    await this.#type(at, length, text);
    await this.#settledAfter(before);
    return performance.now() - begin;
  }

  async stop(): Promise<void> {
    await this.client.ask('shutdown');
    await this.client.tell('exit');
    await this.client.exit;
    this.client.connection.dispose();
  }

  /** What an editor asks after a key; of each server what it offers. */
  *#burst(at: Position): Iterable<Promise<unknown>> {
    const offers: ServerCapabilities = this.client.initialized.capabilities;
    const textDocument = { uri: this.uri };
    const visible = {
      start: { line: Math.max(0, at.line - 20), character: 0 },
      end: { line: at.line + 30, character: 0 },
    };
    const ask = (method: string, more: object = {}) =>
      this.client.ask(method, { textDocument, ...more });
    if (offers.documentSymbolProvider) {
      yield ask('textDocument/documentSymbol');
      yield ask('textDocument/documentSymbol');
    }
    if (offers.codeLensProvider) yield ask('textDocument/codeLens');
    if (offers.foldingRangeProvider) yield ask('textDocument/foldingRange');
    if (offers.documentLinkProvider) yield ask('textDocument/documentLink');
    if (offers.semanticTokensProvider) {
      yield ask('textDocument/semanticTokens/range', { range: visible });
    }
    if (offers.inlayHintProvider) yield ask('textDocument/inlayHint', { range: visible });
    if (offers.codeActionProvider) {
      yield ask('textDocument/codeAction', {
        range: { start: at, end: at },
        context: { diagnostics: [], triggerKind: 2 },
      });
    }
  }

  async #type(at: Position, length: number, text: string): Promise<void> {
    this.#version += 1;
    this.#seen = this.#publications();
    await this.client.tell('textDocument/didChange', {
      textDocument: { uri: this.uri, version: this.#version },
      contentChanges: [
        { range: { start: at, end: { line: at.line, character: at.character + length } }, text },
      ],
    });
  }

  #publications(): number {
    return this.client.publications.filter(({ uri }) => uri === this.uri).length;
  }

  /** Findings of the newest text; of a server that does not say the version, the next ones. */
  async #published(): Promise<void> {
    await this.client.until(() => {
      const last = this.client.published.get(this.uri);
      if (!last) return undefined;
      const newest =
        last.version === undefined || last.version === null
          ? this.#publications() > this.#seen
          : last.version >= this.#version;
      return newest ? true : undefined;
    });
  }

  async #settledAfter(before: number): Promise<void> {
    if (!this.peer.settled || this.#settled > before) return;
    await new Promise<void>((hear) => this.#hearSettled.add(hear));
  }
}
