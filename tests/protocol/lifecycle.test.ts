/** The shipped server and the protocol itself: how a session begins, what order holds, how it ends. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ProtocolClient } from './harness/client.ts';

const plan = `plan "Example" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
}

link KQ-1 {
  fibres      1..2
  connector   LC
  segment     180 m OM4
  connector   LC
}
`;

const wrong = plan.replace('OM4', 'OM44');

let client: ProtocolClient;

beforeEach(async () => {
  client = await ProtocolClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

describe('a session', () => {
  it('declares UTF-16 and incremental changes', () => {
    expect(client.initialized.capabilities).toMatchObject({
      positionEncoding: 'utf-16',
      textDocumentSync: { openClose: true, change: 2 },
    });
  });

  it('publishes findings with the version they belong to, and takes them back', async () => {
    await client.open('untitled:plan', wrong);
    const [finding] = await client.findings('untitled:plan', 1);
    expect(finding).toMatchObject({
      code: 'unknown-reference',
      range: { start: { line: 10, character: 20 }, end: { line: 10, character: 24 } },
    });
    const version = await client.change('untitled:plan', {
      range: { start: { line: 10, character: 23 }, end: { line: 10, character: 24 } },
      text: '',
    });
    const codes = (await client.findings('untitled:plan', version)).map(({ code }) => code);
    expect(codes).toEqual([]);
  });

  it('counts positions in UTF-16 units, behind an emoji and a micro sign', async () => {
    const text = `${wrong}  # 🚢 µm\n`.replace('link KQ-1 {', 'link KQ-1 "🚢🚢 µ" {');
    await client.open('untitled:plan', text);
    await client.findings('untitled:plan', 1);
    const title = text.split('\n').findIndex((line) => line.includes('🚢🚢'));
    // Behind both ships: 11 units of the word and name, then two pairs.
    const version = await client.change('untitled:plan', {
      range: { start: { line: title, character: 15 }, end: { line: title, character: 17 } },
      text: '"',
    });
    const codes = (await client.findings('untitled:plan', version)).map(({ code }) => code);
    expect(codes).toContain('unknown-reference');
  });

  it('never publishes an older version after a newer one', async () => {
    await client.open('untitled:plan', plan);
    let version = 1;
    for (const letter of 'a note, typed quickly') {
      version = await client.type('untitled:plan', { line: 0, character: 0 }, `# ${letter}\n`);
    }
    await client.findings('untitled:plan', version);
    const versions = client.publications.map((each) => each.version ?? 0);
    expect(versions).toEqual([...versions].sort((a, b) => a - b));
    expect(versions.at(-1)).toBe(version);
  });

  it('ignores a change to a document that was never opened', async () => {
    await client.change('untitled:other', { text: plan });
    await client.open('untitled:plan', wrong);
    expect(await client.findings('untitled:plan', 1)).toHaveLength(1);
    expect(client.published.has('untitled:other')).toBe(false);
  });

  it('refuses an unknown question and goes on', async () => {
    await expect(client.ask('textDocument/prophecy', {})).rejects.toMatchObject({ code: -32601 });
    await client.tell('textDocument/whisper', {});
    await client.open('untitled:plan', wrong);
    expect(await client.findings('untitled:plan', 1)).toHaveLength(1);
  });

  it('takes a question back when it is withdrawn', async () => {
    await client.open('untitled:plan', plan);
    const { connection } = client;
    const { CancellationTokenSource } = await import('vscode-jsonrpc/node');
    const source = new CancellationTokenSource();
    const answer = connection.sendRequest(
      'textDocument/hover',
      { textDocument: { uri: 'untitled:plan' }, position: { line: 7, character: 6 } },
      source.token,
    );
    source.cancel();
    // Either it was quick enough, or it says that it was withdrawn; it never hangs.
    await answer.catch((error: { code: number }) => expect(error.code).toBe(-32800));
    await expect(
      client.ask('textDocument/hover', {
        textDocument: { uri: 'untitled:plan' },
        position: { line: 7, character: 6 },
      }),
    ).resolves.toBeDefined();
  });

  it('answers a question that makes no sense with an error, and the next one rightly', async () => {
    await client.open('untitled:plan', wrong);
    await expect(client.ask('textDocument/hover', { nonsense: true })).rejects.toBeDefined();
    expect(await client.findings('untitled:plan', 1)).toHaveLength(1);
  });

  it('hands out the text of the library, and of nothing else', async () => {
    const fibres = await client.ask<{ text: string }>('linkwright/libraryText', {
      uri: 'linkwright-library:/fibres.lwl',
    });
    expect(fibres.text).toContain('fibre OM4 {');
    expect(
      await client.ask('linkwright/libraryText', { uri: 'linkwright-library:/secrets.lwl' }),
    ).toBeNull();
  });
});

describe('files', () => {
  let folder: string;
  const at = (name: string) => pathToFileURL(join(folder, name)).href;

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'linkwright-'));
  });

  afterEach(() => rmSync(folder, { recursive: true }));

  it('judges unopened files of the workspace, and follows changes outside the editor', async () => {
    writeFileSync(join(folder, 'plan.lwl'), `include "more.lwl"\n\n${plan}`);
    writeFileSync(join(folder, 'more.lwl'), wrong.slice(wrong.indexOf('link')));
    const other = await ProtocolClient.start({
      folders: [{ uri: pathToFileURL(folder).href, name: 'plans' }],
    });
    const found = await other.findings(at('more.lwl'));
    expect(found.map(({ code }) => code).sort()).toEqual([
      'duplicate-definition',
      'unknown-reference',
    ]);
    writeFileSync(join(folder, 'more.lwl'), '# nothing here any more\n');
    await other.tell('workspace/didChangeWatchedFiles', {
      changes: [{ uri: at('more.lwl'), type: 2 }],
    });
    await other.until(() => {
      const last = other.published.get(at('more.lwl'));
      return last?.diagnostics.every(({ code }) => code === 'file-empty') ? last : undefined;
    });
    expect(await other.stop()).toBe(0);
  });

  it('says that an included file has gone, and keeps what the editor has open', async () => {
    writeFileSync(join(folder, 'plan.lwl'), `include "more.lwl"\n\n${plan}`);
    writeFileSync(join(folder, 'more.lwl'), '# more\n');
    const other = await ProtocolClient.start({
      folders: [{ uri: pathToFileURL(folder).href, name: 'plans' }],
    });
    await other.open(at('more.lwl'), wrong.slice(wrong.indexOf('link')));
    await other.until(() =>
      other.published.get(at('more.lwl'))?.diagnostics.length === 2 ? true : undefined,
    );
    rmSync(join(folder, 'more.lwl'));
    await other.tell('workspace/didChangeWatchedFiles', {
      changes: [{ uri: at('more.lwl'), type: 3 }],
    });
    const version = await other.type(at('more.lwl'), { line: 0, character: 0 }, '# kept\n');
    expect(await other.findings(at('more.lwl'), version)).toHaveLength(2);
    await other.close(at('more.lwl'));
    await other.until(() => {
      const codes = other.published.get(at('plan.lwl'))?.diagnostics.map(({ code }) => code);
      return codes?.includes('include-missing') ? true : undefined;
    });
    expect(await other.stop()).toBe(0);
  });

  it('lets go of all files of a folder that is gone, which is told as one', async () => {
    mkdirSync(join(folder, 'quay'));
    writeFileSync(join(folder, 'plan.lwl'), `include "quay/more.lwl"\n\n${plan}`);
    writeFileSync(join(folder, 'quay', 'more.lwl'), '# more\n');
    const other = await ProtocolClient.start({
      folders: [{ uri: pathToFileURL(folder).href, name: 'plans' }],
    });
    const codes = () =>
      other.published.get(at('plan.lwl'))?.diagnostics.map(({ code }) => code) ?? [];
    await other.until(() => other.published.has(at('quay/more.lwl')) || undefined);
    expect(codes()).not.toContain('include-missing');
    rmSync(join(folder, 'quay'), { recursive: true });
    await other.tell('workspace/didChangeWatchedFiles', {
      changes: [{ uri: at('quay'), type: 3 }],
    });
    await other.until(() => codes().includes('include-missing') || undefined);
    expect(await other.stop()).toBe(0);
  });

  it('reads a revision for itself and says nothing about it', async () => {
    await client.open('git:/plan.lwl?HEAD', wrong);
    await client.open('untitled:plan', wrong);
    expect(await client.findings('untitled:plan', 1)).toHaveLength(1);
    expect(client.published.has('git:/plan.lwl?HEAD')).toBe(false);
  });
});
