/** A large plan: work in slices, shown as it goes on, and never in the way of a newer key. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { head, links, planText } from '../bench/plan.ts';
import { ProtocolClient } from './harness/client.ts';

const uri = 'untitled:large';
const text = `${head}\n${planText(links(500))}`;
const position = (offset: number) => {
  const lines = text.slice(0, offset).split('\n');
  return { line: lines.length - 1, character: lines.at(-1)!.length };
};

let client: ProtocolClient;
let bars: { readonly kind: string; readonly percentage?: number }[];
let changed: { readonly root: string; readonly objects: readonly string[] }[];

beforeEach(async () => {
  bars = [];
  changed = [];
  client = await ProtocolClient.start();
  client.connection.onUnhandledProgress(({ value }) => bars.push(value as (typeof bars)[number]));
  client.connection.onNotification(
    'linkwright/resultsChanged',
    (each: (typeof changed)[number]) => {
      changed.push(each);
    },
  );
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

describe('a plan of 500 links', () => {
  it('shows how far its first judgement has come', async () => {
    await client.open(uri, text);
    await client.findings(uri, 1);
    await expect.poll(() => bars.at(-1)?.kind).toBe('end');
    expect(bars[0]?.kind).toBe('begin');
    const shares = bars.flatMap(({ percentage }) => percentage ?? []);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });

  it('answers a question while the rest of it waits, and takes the newest text', async () => {
    await client.open(uri, text);
    const at = position(text.indexOf('max 2.7') + 'max 2.'.length);
    const range = { start: at, end: { line: at.line, character: at.character + 1 } };
    let version = 1;
    for (const digit of '123456789') version = await client.change(uri, { range, text: digit });
    // The question is about the last of the texts, and is not kept waiting by the others.
    const lenses = client.ask<unknown[]>('textDocument/codeLens', { textDocument: { uri } });
    const findings = client.findings(uri, version);
    expect(await lenses).not.toHaveLength(0);
    await findings;
    expect(client.publications.at(-1)?.version).toBe(version);
  });

  it('asks to be asked again for what it answered before all was judged', async () => {
    let asked = 0;
    client.connection.onRequest('workspace/codeLens/refresh', () => {
      asked += 1;
      return null;
    });
    await client.open(uri, text);
    const textDocument = { uri };
    const top = { start: { line: 0, character: 0 }, end: { line: 40, character: 0 } };
    await client.ask('textDocument/inlayHint', { textDocument, range: top });
    await client.findings(uri, 1);
    await expect.poll(() => asked).toBe(1);
    // One link is judged before anybody asks.
    const at = position(text.indexOf('  1   ', text.indexOf('readings KQ-00123')) + 19);
    const range = { start: at, end: { line: at.line, character: at.character + 1 } };
    const version = await client.change(uri, { range, text: '9' });
    await client.ask('textDocument/codeLens', { textDocument });
    await client.findings(uri, version);
    await client.ask('textDocument/codeLens', { textDocument });
    expect(asked).toBe(1);
  });

  it('tells views which results are others now, and no more', async () => {
    await client.open(uri, text);
    await client.findings(uri, 1);
    await expect.poll(() => changed.flatMap(({ objects }) => objects).length).toBe(500);
    changed.length = 0;
    const at = position(text.indexOf('  1   ', text.indexOf('readings KQ-00123')) + 19);
    await client.change(uri, {
      range: { start: at, end: { line: at.line, character: at.character + 1 } },
      text: '9',
    });
    await expect.poll(() => changed).toEqual([{ root: uri, objects: ['KQ-00123'] }]);
  });
});

describe('a file with thousands of findings', () => {
  it('shows a thousand, the worst first, and counts the rest', async () => {
    const bad = Array.from(
      { length: 1500 },
      (_, index) =>
        `link L-${index} {\n  fibres      1\n  connector   LC\n  segment     9 m OM4\n  cnnector    LC\n}\n`,
    );
    await client.open(uri, bad.join('\n'));
    const shown = await client.findings(uri, 1);
    expect(shown).toHaveLength(1000);
    const severities = shown.map(({ severity }) => severity ?? 4);
    expect(severities).toEqual([...severities].sort((a, b) => a - b));
    expect(shown.at(-1)).toMatchObject({ code: 'more-findings' });
  });
});
