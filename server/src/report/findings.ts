/** Findings as lines: the worst first, equal ones folded, each with its place and its fix. */
import type { Finding } from '../checks/finding.ts';
import { placeOfObject } from '../model/ways.ts';
import { counted } from './figures.ts';
import type { ReportedPlan } from './subject.ts';
import type { FindingRow, FindingsView, Severity, TextPlace } from './view.ts';

interface Placed {
  readonly finding: Finding;
  readonly at: TextPlace | undefined;
  /** Place of its file in the plan, then of its line. */
  readonly file: number;
}

const severities: readonly Severity[] = ['error', 'warning', 'note'];

export function findingsOf(plan: ReportedPlan, from: number, to: number): FindingsView {
  const groups = grouped(placed(plan));
  const counts: Record<Severity, number> = { error: 0, warning: 0, note: 0 };
  for (const group of groups) counts[group[0]!.finding.severity] += group.length;
  return {
    counts,
    total: groups.length,
    rows: groups.slice(from, to).map((group) => rowOf(plan, group)),
  };
}

/** Names of links and channels that some finding is about. */
export function namesWithFindings(plan: ReportedPlan): ReadonlySet<string> {
  const names = new Set<string>();
  for (const findings of plan.allFindings().values()) {
    for (const { about, silenced } of findings) {
      if (about !== undefined && silenced === undefined) names.add(about);
    }
  }
  return names;
}

function placed(plan: ReportedPlan): readonly Placed[] {
  const files = new Map(plan.files.map((uri, index) => [uri, index]));
  const all: Placed[] = [];
  for (const [uri, findings] of plan.allFindings()) {
    for (const finding of findings) {
      if (finding.silenced !== undefined) continue;
      all.push({ finding, at: plan.locate(finding.place), file: files.get(uri) ?? files.size });
    }
  }
  const line = ({ at }: Placed) => at?.range.start.line ?? 0;
  return all.sort(
    (a, b) =>
      severities.indexOf(a.finding.severity) - severities.indexOf(b.finding.severity) ||
      a.file - b.file ||
      line(a) - line(b),
  );
}

/** Findings that say the same of one thing but for its fibre or the numbers in it, in order of the first. */
function grouped(all: readonly Placed[]): readonly (readonly Placed[])[] {
  const groups = new Map<string, Placed[]>();
  for (const each of all) {
    const { name, severity, about, message, details } = each.finding;
    const same =
      details.fibre === undefined
        ? [message, each.at?.uri, each.at?.range.start.line, each.at?.range.start.character]
        : [];
    const key = JSON.stringify([name, severity, about, ...same]);
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return [...groups.values()];
}

function rowOf(plan: ReportedPlan, group: readonly Placed[]): FindingRow {
  const [{ finding, at }] = group as [Placed, ...Placed[]];
  const { fibre } = finding.details;
  const link = finding.about === undefined ? undefined : plan.result.link(finding.about)?.link;
  const fix = fixOf(plan, finding);
  return {
    severity: finding.severity,
    name: finding.name,
    about: [
      finding.about,
      typeof fibre === 'number' ? placeOfObject(link, fibre) : fibre && `fibre ${fibre}`,
    ]
      .filter(Boolean)
      .join(' '),
    message: finding.message,
    more: moreOf(group),
    ...(at ? { at } : {}),
    where: at ? whereOf(plan, at) : '',
    ...(fix ? { fix } : {}),
  };
}

/** How many more say the same: of other fibres, else of other readings of the same one. */
function moreOf(group: readonly Placed[]): string {
  if (group.length === 1) return '';
  const fibres = new Set(group.map(({ finding }) => finding.details.fibre)).size;
  if (fibres > 1) return `and ${counted(fibres - 1, 'more fibre')}`;
  return `and ${counted(group.length - 1, 'more reading')}`;
}

function whereOf(plan: ReportedPlan, at: TextPlace): string {
  const line = `line ${at.range.start.line + 1}`;
  return plan.files.length > 1 ? `${fileName(at.uri)} ${line}` : line;
}

function fileName(uri: string): string {
  return decodeURIComponent(uri.slice(uri.lastIndexOf('/') + 1));
}

function fixOf(plan: ReportedPlan, { fix }: Finding): FindingRow['fix'] {
  if (!fix) return undefined;
  const edits = fix.edits.flatMap(({ place, text }) => {
    const at = plan.locate(place);
    return at ? [{ uri: at.uri, range: at.range, text }] : [];
  });
  return edits.length === fix.edits.length ? { title: fix.title, edits } : undefined;
}
