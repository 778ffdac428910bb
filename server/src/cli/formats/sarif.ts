/** Findings as SARIF 2.1.0 (OASIS standard), for code hosts and viewers. */
import { findCheck } from '../../checks/index.ts';
import { otherFindings } from '../../project/finding-pages.ts';
import type { Told } from './told.ts';

const levels = { error: 'error', warning: 'warning', note: 'note' } as const;

const pages: ReadonlyMap<string, string> = new Map(
  otherFindings.map(({ name, says }) => [name, says]),
);

/** `titles` says what names mean that are no findings. */
export function sarif(
  { findings }: { readonly findings: readonly Told[] },
  titles: ReadonlyMap<string, string> = new Map(),
): string {
  const names = [...new Set(findings.map(({ finding }) => finding.name))].sort();
  const rules = names.map((name) => {
    const check = findCheck(name);
    const says = titles.get(name) ?? pages.get(name);
    return {
      id: name,
      ...(check
        ? {
            shortDescription: { text: check.title },
            fullDescription: { text: check.explanation },
          }
        : {}),
      ...(!check && says ? { shortDescription: { text: says } } : {}),
    };
  });
  const results = findings.map(({ finding, path, range: { start, end } }) => ({
    ruleId: finding.name,
    ruleIndex: names.indexOf(finding.name),
    level: levels[finding.severity],
    message: { text: finding.message },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: path.split('/').map(encodeURIComponent).join('/') },
          region: {
            startLine: start.line + 1,
            startColumn: start.character + 1,
            endLine: end.line + 1,
            endColumn: end.character + 1,
          },
        },
      },
    ],
  }));
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Linkwright', rules } },
        columnKind: 'utf16CodeUnits',
        results,
      },
    ],
  };
  return `${JSON.stringify(log, null, 2)}\n`;
}
