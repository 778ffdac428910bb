/** Findings as a code-quality report: one object each, with a fingerprint that survives moved lines. */
import { createHash } from 'node:crypto';
import type { Told } from './told.ts';

const levels = { error: 'major', warning: 'minor', note: 'info' } as const;

export function gitlab({ findings }: { readonly findings: readonly Told[] }): string {
  const seen = new Map<string, number>();
  const report = findings.map(({ finding, path, range }) => {
    const key = [finding.name, path, finding.about ?? '', finding.message].join('\0');
    const count = seen.get(key) ?? 0;
    seen.set(key, count + 1);
    return {
      description: finding.message,
      check_name: finding.name,
      fingerprint: createHash('sha256').update(`${key}\0${count}`).digest('hex'),
      severity: levels[finding.severity],
      location: { path, lines: { begin: range.start.line + 1, end: range.end.line + 1 } },
    };
  });
  return `${JSON.stringify(report, null, 2)}\n`;
}
