/** Findings as the protocol shows them: worst first, at most a thousand a file, the rest counted. */
import type { Diagnostic } from 'vscode-languageserver-protocol';
import { DiagnosticSeverity } from 'vscode-languageserver-protocol';
import type { Severity } from '../../../grammar/src/tree.ts';
import type { Finding } from '../checks/finding.ts';
import type { Located } from '../project/types.ts';

/** Editors show a thousand a file and drop the rest without a word. */
const mostFindings = 1000;

/** How severe a finding is for this user: their settings may mute it. */
export type SeverityChoice = Severity | 'off';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  note: DiagnosticSeverity.Information,
};

const weights: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/**
 * Diagnostics of one file. `chosen` are severities the user set by name of
 * finding; findings answered in words (`silence`) are not shown.
 */
export function toDiagnostics(
  findings: readonly Finding[],
  locate: (place: Finding['place']) => Located | undefined,
  chosen: Readonly<Record<string, SeverityChoice>>,
): Diagnostic[] {
  const shown: { readonly finding: Finding; readonly severity: Severity }[] = [];
  for (const finding of findings) {
    const severity = chosen[finding.name] ?? finding.severity;
    if (severity !== 'off' && finding.silenced === undefined) shown.push({ finding, severity });
  }
  shown.sort((a, b) => weights[a.severity] - weights[b.severity]);
  const first = shown.length > mostFindings ? shown.slice(0, mostFindings - 1) : shown;
  const diagnostics = first.flatMap(({ finding, severity }) =>
    toDiagnostic(finding, severity, locate),
  );
  if (first.length < shown.length) diagnostics.push(restOf(shown.length - first.length));
  return diagnostics;
}

function toDiagnostic(
  finding: Finding,
  severity: Severity,
  locate: (place: Finding['place']) => Located | undefined,
): Diagnostic[] {
  const located = locate(finding.place);
  if (!located) return [];
  const related = finding.related.flatMap(({ place, message }) => {
    const location = locate(place);
    return location ? [{ location, message }] : [];
  });
  return [
    {
      range: located.range,
      severity: severities[severity],
      code: finding.name,
      source: 'Linkwright',
      message: finding.message,
      ...(related.length > 0 ? { relatedInformation: related } : {}),
    },
  ];
}

function restOf(count: number): Diagnostic {
  const start = { line: 0, character: 0 };
  return {
    range: { start, end: start },
    severity: DiagnosticSeverity.Information,
    code: 'more-findings',
    source: 'Linkwright',
    message: `${count} more findings in this file are not shown here; the least severe wait. Put some of these right, or run the check on the command line to see them all.`,
  };
}
