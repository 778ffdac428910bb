/** Findings as the protocol shows them: worst first, at most a thousand a file, the rest counted. */
import type { Diagnostic } from 'vscode-languageserver-protocol';
import { DiagnosticSeverity } from 'vscode-languageserver-protocol';
import type { Severity } from '../../../grammar/src/tree.ts';
import type { Finding } from '../checks/finding.ts';
import type { BlockId } from '../model/types.ts';
import type { BlockView, Located } from '../project/types.ts';

/** Editors show a thousand a file and drop the rest without a word. */
const mostFindings = 1000;

/** How severe a finding is for this user: their settings may mute it. */
export type SeverityChoice = Severity | 'off';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  note: DiagnosticSeverity.Information,
};

const worstFirst: readonly Severity[] = ['error', 'warning', 'note'];

/** Of a block that is gone. */
const nowhere = { edition: -1, line: -1 } as const;

/** Where blocks stand now. */
export interface Standing {
  locate(place: Finding['place']): Located | undefined;
  /** Undefined: it is gone. */
  block(id: BlockId): Pick<BlockView, 'edition' | 'line'> | undefined;
}

interface Kept {
  readonly severity: Severity;
  /** Edition and line of each block it points into. */
  readonly stands: readonly number[];
  readonly diagnostics: readonly Diagnostic[];
}

/** A finding gives the very diagnostic it gave before, as long as nothing it points to has changed or moved. */
export class Publishing {
  readonly #standing: Standing;
  readonly #kept = new WeakMap<Finding, Kept>();

  constructor(standing: Standing) {
    this.#standing = standing;
  }

  /**
   * Diagnostics of one file. `chosen` are severities the user set by name of
   * finding; findings answered in words (`silence`) are not shown.
   */
  diagnostics(
    findings: readonly Finding[],
    chosen: Readonly<Record<string, SeverityChoice>>,
  ): Diagnostic[] {
    const shown: Record<Severity, Finding[]> = { error: [], warning: [], note: [] };
    let count = 0;
    for (const finding of findings) {
      const severity = severityOf(finding, chosen);
      if (severity === 'off' || finding.silenced !== undefined) continue;
      shown[severity].push(finding);
      count += 1;
    }
    let room = count > mostFindings ? mostFindings - 1 : count;
    const rest = count - room;
    const diagnostics: Diagnostic[] = [];
    for (const severity of worstFirst) {
      const first = shown[severity].slice(0, room);
      room -= first.length;
      for (const finding of first) diagnostics.push(...this.#diagnosticsOf(finding, severity));
    }
    if (rest > 0) diagnostics.push(restOf(rest));
    return diagnostics;
  }

  /** None where its place is gone. */
  #diagnosticsOf(finding: Finding, severity: Severity): readonly Diagnostic[] {
    const kept = this.#kept.get(finding);
    if (kept && kept.severity === severity && this.#stillStands(finding, kept.stands)) {
      return kept.diagnostics;
    }
    const diagnostics = this.#makeOf(finding, severity);
    const stands = [finding, ...finding.related].flatMap(({ place }) => {
      const { edition, line } = this.#standing.block(place.block) ?? nowhere;
      return [edition, line];
    });
    this.#kept.set(finding, { severity, stands, diagnostics });
    return diagnostics;
  }

  #stillStands({ place, related }: Finding, stands: readonly number[]): boolean {
    return (
      this.#standsAs(place.block, stands, 0) &&
      related.every((each, index) => this.#standsAs(each.place.block, stands, 2 * index + 2))
    );
  }

  #standsAs(id: BlockId, stands: readonly number[], at: number): boolean {
    const { edition, line } = this.#standing.block(id) ?? nowhere;
    return edition === stands[at] && line === stands[at + 1];
  }

  #makeOf(finding: Finding, severity: Severity): readonly Diagnostic[] {
    const located = this.#standing.locate(finding.place);
    if (!located) return [];
    const related = finding.related.flatMap(({ place, message }) => {
      const location = this.#standing.locate(place);
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
}

/**
 * As the user chose for findings of its name, if they may. What makes readings
 * invalid or lines unread stays as severe as it is, whoever would rather not see it.
 */
function severityOf(
  { name, kind, severity }: Finding,
  chosen: Readonly<Record<string, SeverityChoice>>,
): SeverityChoice {
  const fixed = kind === 'contradiction' || (kind === 'notation' && severity === 'error');
  return fixed ? severity : (chosen[name] ?? severity);
}

/** Whether two publications say the same. */
export function sameDiagnostics(a: readonly Diagnostic[], b: readonly Diagnostic[]): boolean {
  return (
    a.length === b.length &&
    a.every((each, index) => each === b[index] || JSON.stringify(each) === JSON.stringify(b[index]))
  );
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
