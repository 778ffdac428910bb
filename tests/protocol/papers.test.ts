/** A sheet or a record asked of the running server: the same documents that the command line writes. */
import { readFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ProtocolClient } from './harness/client.ts';

const uri = 'untitled:first-link';
const text = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const whole = text.replace(
  '  limits      TIA-568.3-E\n',
  '  site        "Ferry terminal"\n  revision    "A" on 2026-03-20\n  limits      TIA-568.3-E\n',
);

let client: ProtocolClient;

beforeEach(async () => {
  client = await ProtocolClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

const ask = (document: object) =>
  client.ask<Record<string, unknown>>('linkwright/paper', {
    uri,
    document,
    page: 'A4',
    tool: 'linkwright 0',
  });

const bytes = (answer: Record<string, unknown>) => Buffer.from(String(answer.base64), 'base64');

describe('a document asked of the server', () => {
  it('is a sheet or a record in every form that it can have', async () => {
    await client.open(uri, whole);
    const sheet = await ask({ kind: 'sheet', format: 'html' });
    expect(sheet.text).toContain('Field sheet');
    const record = { kind: 'record', issue: false };
    expect((await ask({ ...record, format: 'html' })).text).toContain('<strong>Draft</strong>');
    expect((await ask({ ...record, format: 'csv' })).text).toContain('KQ-OPS-B3,');
    expect(JSON.parse(String((await ask({ ...record, format: 'json' })).text))).toMatchObject({
      state: 'draft',
      date: expect.stringMatching(/^\d{4}-\d\d-\d\d$/u),
    });
    expect(
      bytes(await ask({ ...record, format: 'xlsx' }))
        .subarray(0, 2)
        .toString(),
    ).toBe('PK');
    expect(
      bytes(await ask({ ...record, format: 'pdf' }))
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
    expect(
      bytes(await ask({ kind: 'sheet', format: 'pdf' }))
        .subarray(0, 5)
        .toString(),
    ).toBe('%PDF-');
  });

  it('is issued where nothing is missing, by the text as it stands in the editor', async () => {
    await client.open(uri, text);
    const order = { kind: 'record', format: 'html', issue: true };
    expect(await ask(order)).toEqual({
      missing: [
        { of: 'the plan', what: 'no site: write site "…" in it' },
        { of: 'the plan', what: 'no revision: write revision "…" on a date in it' },
      ],
    });
    await client.change(uri, { text: whole });
    expect((await ask(order)).text).toContain('<strong>Issued</strong>');
  });

  it('needs a plan', async () => {
    expect(await ask({ kind: 'sheet', format: 'html' })).toEqual({
      because: 'This file belongs to no plan.',
    });
  });
});
