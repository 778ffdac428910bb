import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type Diagnostic,
  type TextEdit,
} from 'vscode-languageserver-protocol';
import type { Finding } from '../checks/finding.ts';
import type { Plan, Range } from '../project/types.ts';
import { feature, subject } from './feature.ts';

/** Fixes of the findings in a range, each as the check that found it wrote it. */
export const codeActions = feature<CodeActionParams, CodeAction[]>({
  method: 'textDocument/codeAction',
  capabilities: {
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix], resolveProvider: false },
  },
  answer(session, { textDocument, range, context }) {
    const found = subject(session, textDocument.uri);
    const { document, plan } = found ?? {};
    if (!document || !plan) return [];
    if (context.only && !context.only.includes(CodeActionKind.QuickFix)) return [];
    const blocks = document.blocks(range.start.line, range.end.line);
    return plan.findingsIn(blocks).flatMap((finding) => {
      const located = finding.fix && plan.locate(finding.place);
      if (!finding.fix || !located || !meet(located.range, range)) return [];
      const changes = editsOf(plan, finding);
      if (!changes) return [];
      return [
        {
          title: finding.fix.title,
          kind: CodeActionKind.QuickFix,
          diagnostics: context.diagnostics.filter((shown) =>
            isShown(shown, finding, located.range),
          ),
          isPreferred: true,
          edit: { changes },
        },
      ];
    });
  },
});

function editsOf(plan: Plan, finding: Finding): Record<string, TextEdit[]> | undefined {
  const changes: Record<string, TextEdit[]> = {};
  for (const { place, text } of finding.fix?.edits ?? []) {
    const located = plan.locate(place);
    if (!located) return undefined;
    const edits = changes[located.uri] ?? [];
    edits.push({ range: located.range, newText: text });
    changes[located.uri] = edits;
  }
  return changes;
}

function meet(a: Range, b: Range): boolean {
  return !(isBefore(a.end, b.start) || isBefore(b.end, a.start));
}

function isBefore(a: Range['start'], b: Range['start']): boolean {
  return a.line < b.line || (a.line === b.line && a.character < b.character);
}

function isShown(shown: Diagnostic, finding: Finding, range: Range): boolean {
  return (
    shown.code === finding.name &&
    shown.range.start.line === range.start.line &&
    shown.range.start.character === range.start.character
  );
}
