/** A check as test results: each link is a case, each file's findings are a suite. */
import { type Checked, failingVerdicts, type PlacedFinding } from '../check.ts';

export function junit({ findings, plans }: Checked): string {
  return suites([
    ...plans
      .filter(({ links }) => links.length > 0)
      .map(({ plan, links }) =>
        suite(
          plan.result.title ?? plan.root,
          links.map(({ link, verdict, fibres }) => ({
            name: link.name,
            kind: 'verdict',
            failure: failingVerdicts.has(verdict)
              ? `${link.name}: ${verdict} (${fibres.filter((each) => each.verdict === verdict).length} of ${fibres.length} fibres)`
              : undefined,
            skipped: verdict === 'untested' || verdict === 'not-judged',
          })),
        ),
      ),
    ...[...byFile(findings)].map(([path, placed]) =>
      suite(
        path,
        placed.map(({ finding, range }) => ({
          name: `${finding.name} at ${range.start.line + 1}:${range.start.character + 1}`,
          kind: 'finding',
          failure: finding.severity === 'error' ? finding.message : undefined,
          skipped: false,
        })),
      ),
    ),
  ]);
}

export function suites(each: readonly string[]): string {
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites>\n${each.join('')}</testsuites>\n`;
}

export interface Case {
  readonly name: string;
  readonly kind: string;
  readonly failure: string | undefined;
  readonly skipped: boolean;
  /** What is told of a case that does not fail. */
  readonly said?: string | undefined;
}

export function suite(name: string, cases: readonly Case[]): string {
  const failures = cases.filter(({ failure }) => failure !== undefined).length;
  const skipped = cases.filter((each) => each.skipped).length;
  const lines = cases.map(({ name: title, kind, failure, skipped: left, said }) => {
    const open = `    <testcase name="${xml(title)}" classname="${xml(kind)}"`;
    if (failure !== undefined) {
      return `${open}><failure message="${xml(failure)}"/></testcase>\n`;
    }
    if (said !== undefined) {
      return `${open}><system-out>${xml(said)}</system-out></testcase>\n`;
    }
    return left ? `${open}><skipped/></testcase>\n` : `${open}/>\n`;
  });
  return `  <testsuite name="${xml(name)}" tests="${cases.length}" failures="${failures}" skipped="${skipped}">\n${lines.join('')}  </testsuite>\n`;
}

function byFile(findings: readonly PlacedFinding[]): Map<string, PlacedFinding[]> {
  const files = new Map<string, PlacedFinding[]>();
  for (const placed of findings) {
    const there = files.get(placed.path);
    if (there) there.push(placed);
    else files.set(placed.path, [placed]);
  }
  return files;
}

/** Characters that XML 1.0 does not know are left out. */
function xml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll(/[\n\r\t]/gu, ' ')
    .replaceAll(/[^\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu, '');
}
