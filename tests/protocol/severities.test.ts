/** The shipped server shows findings as severely as the user set, offers the fixes that come with them, and hides none that makes readings invalid. */
import { afterEach, expect, test } from 'vitest';
import type { CodeAction, Diagnostic } from 'vscode-languageserver-protocol';
import { DiagnosticSeverity } from 'vscode-languageserver-protocol';
import { checks } from '../../server/src/checks/index.ts';
import { ProtocolClient } from './harness/client.ts';

const uri = 'untitled:plan';
const badOf = (name: string) => checks.find((check) => check.name === name)!.bad;

let client: ProtocolClient | undefined;

afterEach(async () => {
  await client?.stop();
  client = undefined;
});

async function opened(text: string, severities: Readonly<Record<string, string>>): Promise<void> {
  client = await ProtocolClient.start({ settings: { linkwright: { severities } } });
  await client.open(uri, text);
  await client.findings(uri, 1);
}

/** As published last: settings are asked for, and may come after the first findings. */
const shown = (): readonly Diagnostic[] => client?.published.get(uri)?.diagnostics ?? [];
const severities = () => shown().map(({ code, severity }) => [code, severity]);

test.each([
  ['error', DiagnosticSeverity.Error],
  ['note', DiagnosticSeverity.Information],
] as const)('a doubt is shown as %s where the user says so', async (chosen, severity) => {
  const name = 'core-size-mismatch';
  await opened(badOf(name), { [name]: chosen });
  await expect.poll(severities).toEqual([[name, severity]]);
});

test('and not at all where it is off', async () => {
  const name = 'core-size-mismatch';
  await opened(badOf(name), { [name]: 'off' });
  await expect.poll(shown).toEqual([]);
});

test('a contradiction stays an error', async () => {
  await opened(badOf('loss-negative'), { 'loss-negative': 'off', 'reference-suspect': 'off' });
  await expect.poll(severities).toContainEqual(['loss-negative', DiagnosticSeverity.Error]);
});

test('a fix of a check is offered as a quick fix at its finding', async () => {
  await opened(badOf('mixed-units'), {});
  const [finding] = shown();
  expect(finding?.code).toBe('mixed-units');
  const actions = await client!.ask<readonly CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: finding!.range,
    context: { diagnostics: [finding], only: ['quickfix'] },
  });
  expect(actions.map(({ title, kind }) => [title, kind])).toContainEqual([
    'Write 91.44 m',
    'quickfix',
  ]);
});
