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

  private constructor(client: ProtocolClient, peer: Peer, uri: string) {
    this.client = client;
    this.peer = peer;
    this.uri = uri;
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
    await desk.#published(0);
    return { desk, started: performance.now() - begin };
  }

  /** Replaces characters on one line, as a key does. */
  async key(at: Position, length: number, text: string): Promise<Timing> {
    const before = this.#publications();
    const begin = performance.now();
    this.#version += 1;
    await this.client.tell('textDocument/didChange', {
      textDocument: { uri: this.uri, version: this.#version },
      contentChanges: [
        { range: { start: at, end: { line: at.line, character: at.character + length } }, text },
      ],
    });
    const burst = Promise.all(this.#burst(at)).then(() => performance.now() - begin);
    const findings = await this.#published(before).then(() => performance.now() - begin);
    return { findings, burst: Math.max(await burst, findings) };
  }

  /** The findings alone, with nothing else asked. */
  async keyAlone(at: Position, length: number, text: string): Promise<number> {
    const before = this.#publications();
    const begin = performance.now();
    this.#version += 1;
    await this.client.tell('textDocument/didChange', {
      textDocument: { uri: this.uri, version: this.#version },
      contentChanges: [
        { range: { start: at, end: { line: at.line, character: at.character + length } }, text },
      ],
    });
    await this.#published(before);
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

  #publications(): number {
    return this.client.publications.filter(({ uri }) => uri === this.uri).length;
  }

  async #published(more: number): Promise<void> {
    await this.client.until(() => (this.#publications() > more ? true : undefined));
  }
}
