/** Plans of a revision, taken in by the shipped server from a real repository: compared, and said beside the text. */
import { readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CodeLens, InlayHint } from 'vscode-languageserver-protocol';
import type { ChangesView } from '../../server/src/report/changes/view.ts';
import { emptyFolder, MadeRepository, removeAll } from '../git/made.ts';
import { ProtocolClient } from './harness/client.ts';

const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const name = 'plans/berth 3.lwl';

let repository: MadeRepository;
let client: ProtocolClient;
let uri: string;
let refreshed: number;

async function start(folder: string): Promise<void> {
  client = await ProtocolClient.start({
    folders: [{ uri: pathToFileURL(folder).href, name: 'site' }],
  });
  refreshed = 0;
  client.connection.onRequest('workspace/codeLens/refresh', () => {
    refreshed += 1;
    return null;
  });
  uri = pathToFileURL(join(folder, name)).href;
}

beforeEach(async () => {
  repository = new MadeRepository();
  repository.write({ [name]: example }).commit('First readings');
  await start(repository.path);
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

afterAll(removeAll);

const failing = example.replace('1.02 ', '4.02 ');

function take(revision: string, beside = true): Promise<{ commit?: string; because?: string }> {
  return client.ask('linkwright/takeRevision', { uri, revision, beside });
}

function compare(revision: string): Promise<ChangesView | null> {
  return client.ask('linkwright/compare', { uri, revision });
}

async function lenses(): Promise<readonly string[]> {
  const all = await client.ask<CodeLens[]>('textDocument/codeLens', { textDocument: { uri } });
  return all.flatMap(({ command }) => command?.title ?? []);
}

async function hints(): Promise<readonly string[]> {
  const range = { start: { line: 0, character: 0 }, end: { line: 200, character: 0 } };
  const all = await client.ask<InlayHint[]>('textDocument/inlayHint', {
    textDocument: { uri },
    range,
  });
  return all.map(({ label }) => String(label));
}

describe('a plan and a revision of it', () => {
  it('are compared, and again as somebody types', async () => {
    await client.open(uri, failing);
    expect(await compare('HEAD')).toBeNull();
    expect(await take('HEAD')).toEqual({ commit: repository.git('rev-parse', 'HEAD') });
    const view = await compare('HEAD');
    expect(view?.title).toBe('Changes since HEAD');
    expect(view?.changes[0]).toMatchObject({
      kind: 'evidence',
      was: '1.02 dB',
      now: '4.02 dB',
      alarming: true,
    });
    expect(view?.changes[0]?.effects[0]).toMatchObject({
      object: 'KQ-OPS-B3',
      before: 'pass',
      after: 'fail',
    });
    const at = view?.changes[0]?.places[0]?.at;
    expect(at?.uri).toBe(uri);
    const line = failing.split('\n').findIndex((each) => each.includes('4.02 '));
    expect(at?.range.start.line).toBe(line);
    await client.change(uri, { text: example });
    expect((await compare('HEAD'))?.counted).toBe('no engineering change');
  });

  it('are told apart beside the text, once nobody waits for anything else', async () => {
    await client.open(uri, example);
    await take('HEAD');
    const version = await client.change(uri, { text: failing });
    await client.findings(uri, version);
    await expect.poll(() => refreshed).toBeGreaterThan(0);
    const said = (await lenses()).find((each) => each.startsWith('changed since HEAD'));
    expect(said).toMatch(/^changed since HEAD: fail was pass, margin −\d\.\d\d was \+\d\.\d\d$/u);
    expect((await hints()).some((each) => each.includes('· was pass'))).toBe(true);
    await client.ask('linkwright/leaveRevision', {});
    expect((await lenses()).filter((each) => each.includes('since'))).toEqual([]);
  });

  it('are told apart again in a file that is closed and opened', async () => {
    repository.write({ [name]: failing });
    await client.open(uri, failing);
    await take('HEAD');
    await expect.poll(lenses).toContainEqual(expect.stringMatching(/^changed since HEAD/u));
    await client.tell('textDocument/didClose', { textDocument: { uri } });
    await client.open(uri, failing);
    await expect.poll(lenses).toContainEqual(expect.stringMatching(/^changed since HEAD/u));
  });

  it('say nothing of each other where they are the same', async () => {
    await client.open(uri, example);
    await take('HEAD');
    await client.findings(uri, 1);
    const version = await client.change(uri, { text: `# A comment more.\n${example}` });
    await client.findings(uri, version);
    // Three times the rest after which a revision has its turn: that nothing comes has no event.
    await new Promise((done) => setTimeout(done, 800));
    expect((await lenses()).filter((each) => each.includes('since'))).toEqual([]);
    expect(refreshed).toBe(0);
  });

  it('are found where the plan stands in another file', async () => {
    const other = pathToFileURL(join(repository.path, 'plans/other.lwl')).href;
    await client.open(other, example.replaceAll('KQ-OPS-B3', 'KQ-OPS-B9'));
    await take('HEAD');
    const all = await client.ask<ChangesView | null>('linkwright/compare', {
      uri: other,
      revision: 'HEAD',
    });
    expect(all?.changes.length).toBeGreaterThan(0);
  });

  it('show a file as it was', async () => {
    await client.open(uri, failing);
    await take('HEAD');
    expect(await client.ask('linkwright/earlierText', { uri, revision: 'HEAD' })).toEqual({
      text: example,
    });
    expect(await client.ask('linkwright/earlierText', { uri, revision: 'main' })).toBeNull();
  });

  it('follow a name that means another commit', async () => {
    await client.open(uri, failing);
    await take('HEAD');
    repository.write({ [name]: failing }).commit('A worse reading');
    await take('HEAD');
    expect((await compare('HEAD'))?.counted).toBe('no engineering change');
  });

  it('say why a revision cannot be had', async () => {
    await client.open(uri, example);
    expect((await take('no-such-branch')).because).toMatch(/no revision "no-such-branch"/u);
    expect((await take('--output=x')).because).toMatch(/is no revision/u);
  });

  it('need a repository', async () => {
    const folder = emptyFolder();
    expect(await client.stop()).toBe(0);
    await start(folder);
    await client.open(uri, example);
    expect((await take('HEAD')).because).toMatch(/no git repository/u);
  });

  it('may be reached through a link', async () => {
    const folder = join(emptyFolder(), 'site');
    symlinkSync(repository.path, folder);
    expect(await client.stop()).toBe(0);
    await start(folder);
    await client.open(uri, failing);
    await take('HEAD');
    expect((await compare('HEAD'))?.changes[0]).toMatchObject({ was: '1.02 dB' });
  });
});
