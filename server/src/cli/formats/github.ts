/** Findings as workflow commands that a code host shows beside the changed lines. */
import type { Told } from './told.ts';

const levels = { error: 'error', warning: 'warning', note: 'notice' } as const;

export function github({ findings }: { readonly findings: readonly Told[] }): string {
  return findings
    .map(({ finding, path, range: { start, end } }) => {
      const properties = [
        `file=${property(path)}`,
        `line=${start.line + 1}`,
        `endLine=${end.line + 1}`,
        `col=${start.character + 1}`,
        `endColumn=${end.character + 1}`,
        `title=${property(finding.name)}`,
      ];
      return `::${levels[finding.severity]} ${properties.join(',')}::${data(finding.message)}\n`;
    })
    .join('');
}

function data(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
