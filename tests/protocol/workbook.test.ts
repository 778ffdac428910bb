/** A large workbook, asked of the running server: it answers other questions meanwhile, and stops at once. */
import { readFileSync } from 'node:fs';
import { afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc';
import { longWorkbook } from '../support/long-workbook.ts';
import { ProtocolClient } from './harness/client.ts';

const uri = 'untitled:first-link';
const text = readFileSync('examples/first-link/first-link.lwl', 'utf8');
/** More than half of what a sheet may have. */
const rows = 600_000;

let base64: string;
let client: ProtocolClient;

beforeAll(() => {
  base64 = Buffer.from(longWorkbook(rows)).toString('base64');
});

beforeEach(async () => {
  client = await ProtocolClient.start();
  await client.open(uri, text);
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

/** What the server says of how far it is, of a hundred. */
function progress(): { readonly told: number[]; readonly begun: Promise<void> } {
  const told: number[] = [];
  const begun = new Promise<void>((done) => {
    client.connection.onNotification('linkwright/progress', (so: { done: number; all: number }) => {
      told.push((so.done / so.all) * 100);
      done();
    });
  });
  return { told, begun };
}

it('is read while other questions are answered', async () => {
  const { begun } = progress();
  const order: string[] = [];
  const look = client.ask('linkwright/lookAtTable', { uri, base64 }).then((answer) => {
    order.push('look');
    return answer;
  });
  await begun;
  const position = { line: 1, character: 0 };
  await client.ask('textDocument/hover', { textDocument: { uri }, position });
  order.push('hover');
  expect(await look).toMatchObject({ rows });
  expect(order).toEqual(['hover', 'look']);
}, 120_000);

it.each(['linkwright/lookAtTable', 'linkwright/importReadings'])(
  'is left in the midst of it where %s is cancelled',
  async (method) => {
    const { told, begun } = progress();
    const stop = new CancellationTokenSource();
    const mapping = JSON.stringify({
      values: { what: 'loss', unit: 'dB', sign: 'positive' },
      columns: {
        ...{ link: { always: 'KQ-OPS-B3' }, fibre: 'Fibre', setup: { always: 'MM-1' } },
        ...{ tested: 'Tested', wavelength: { always: '850' }, direction: { always: 'A>B' } },
        value: '850 nm A>B',
      },
    });
    const params = { uri, base64, name: 'berths.xlsx', mapping };
    const answer = client.connection.sendRequest<object>(method, params, stop.token);
    await begun;
    stop.cancel();
    expect(JSON.stringify(await answer)).toContain('Stopped; nothing was written.');
    // Unpacked, and not a row of it read.
    expect(told.length).toBe(1);
  },
);
