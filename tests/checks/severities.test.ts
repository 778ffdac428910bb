/** How severe a finding is for a user: their settings, except for what makes readings invalid or a line unreadable. */
import { expect, test } from 'vitest';
import { DiagnosticSeverity } from 'vscode-languageserver-protocol';
import { checks } from '../../server/src/checks/index.ts';
import { Publishing, type SeverityChoice } from '../../server/src/session/publish.ts';
import { judge, planUri } from '../support/judge.ts';

function shown(text: string, chosen: Readonly<Record<string, SeverityChoice>>) {
  const { project } = judge(text);
  const diagnostics = new Publishing(project).diagnostics(project.findings(planUri), chosen);
  return diagnostics.map(({ code, severity }) => [code, severity]);
}

const bad = (name: string) => checks.find((check) => check.name === name)!.bad;

test.each(['tester-unnamed', 'too-many-retests'])('%s, a note, is as severe as chosen', (name) => {
  expect(shown(bad(name), {})).toEqual([[name, DiagnosticSeverity.Information]]);
  expect(shown(bad(name), { [name]: 'error' })).toEqual([[name, DiagnosticSeverity.Error]]);
  expect(shown(bad(name), { [name]: 'off' })).toEqual([]);
});

test('a doubt as well', () => {
  const name = 'retest-worse';
  expect(shown(bad(name), {})).toEqual([[name, DiagnosticSeverity.Warning]]);
  expect(shown(bad(name), { [name]: 'note' })).toEqual([[name, DiagnosticSeverity.Information]]);
  expect(shown(bad(name), { [name]: 'off' })).toEqual([]);
});

test.each(['off', 'note', 'warning'] as const)(
  'a contradiction stays an error for %s',
  (choice) => {
    for (const check of checks.filter(({ kind }) => kind === 'contradiction')) {
      const told = shown(check.bad, { [check.name]: choice });
      expect(told.filter(([code]) => code === check.name)).toContainEqual([
        check.name,
        DiagnosticSeverity.Error,
      ]);
    }
  },
);

test('so does a line that cannot be read', () => {
  const text =
    'link KQ-1 {\n  fibres      1\n  connector   LC\n  segment     80 OM4\n  connector   LC\n}\n';
  const told = shown(text, { 'missing-unit': 'off' });
  expect(told).toContainEqual(['missing-unit', DiagnosticSeverity.Error]);
});
