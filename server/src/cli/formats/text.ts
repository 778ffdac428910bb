/** A check for people: one line a finding, one line a link, one line for each plan. */
import {
  compareDb,
  printRounded,
  subtractDb,
  toMetres,
} from '../../../../grammar/src/quantity/index.ts';
import type { Severity } from '../../../../grammar/src/tree.ts';
import type { Limit, LinkResult, Verdict } from '../../evaluate/index.ts';
import { type Checked, type CheckedPlan, failingVerdicts, type PlacedFinding } from '../check.ts';
import { paint, wantsColour } from '../console.ts';

export function text({ findings, plans }: Checked, out: string | undefined): string {
  const colour = wantsColour(out);
  const lines = findings.map((finding) => findingLine(finding, colour));
  for (const plan of plans) {
    if (plan.links.length === 0) continue;
    if (lines.length > 0) lines.push('');
    lines.push(...linkLines(plan, colour), '', totalsLine(plan));
  }
  return lines.length === 0 ? 'Nothing found.\n' : `${lines.join('\n')}\n`;
}

function findingLine({ finding, path, range }: PlacedFinding, colour: boolean): string {
  const place = `${path}:${range.start.line + 1}:${range.start.character + 1}`;
  const severity = paint(finding.severity, severityStyle[finding.severity], colour);
  return `${place}: ${severity}: ${finding.message} [${finding.name}]`;
}

const severityStyle: Readonly<Record<Severity, 'red' | 'yellow' | 'faint'>> = {
  error: 'red',
  warning: 'yellow',
  note: 'faint',
};

function linkLines({ plan, links }: CheckedPlan, colour: boolean): readonly string[] {
  const rows = links.map((link) => [
    link.link.name,
    link.verdict,
    link.length === undefined ? 'no length' : `${toMetres(link.length)} m`,
    limitWords(link),
    marginWords(link),
    `${link.present} of ${link.expected} readings`,
  ]);
  const widths = rows.reduce<readonly number[]>(
    (widest, row) => row.map((cell, index) => Math.max(cell.length, widest[index] ?? 0)),
    [],
  );
  const title = plan.result.title;
  return [
    ...(title ? [paint(title, 'bold', colour)] : []),
    ...rows.map((row, index) =>
      row
        .map((cell, column) => {
          const padded = column === row.length - 1 ? cell : cell.padEnd(widths[column]!);
          return column === 1 ? paintVerdict(padded, links[index]!.verdict, colour) : padded;
        })
        .join('  '),
    ),
  ];
}

/** The limit that the worst margin belongs to; where nothing is measured, the tightest that governs. */
function limitWords(link: LinkResult): string {
  let least: Limit | undefined = link.worstMargin?.reading.limit;
  const unbuilt = ({ beside, because }: Limit) => !beside && because !== undefined;
  if (!least && link.wavelengths.some(({ limits }) => limits.some(unbuilt))) return 'no limit';
  if (least?.value !== undefined) {
    return `limit ${printRounded(least.value, 2)} dB (${least.kind})`;
  }
  for (const { governing } of link.wavelengths) {
    if (governing?.value === undefined) continue;
    if (least?.value === undefined || compareDb(governing.value, least.value) < 0)
      least = governing;
  }
  return least?.value === undefined
    ? 'no limit'
    : `limit ${printRounded(least.value, 2)} dB (${least.kind})`;
}

/** Margin of the worst reading; where nothing is measured, of the design. */
function marginWords(link: LinkResult): string {
  if (link.worstMargin) return `margin ${printRounded(link.worstMargin.margin, 2)} dB`;
  const margins = link.wavelengths.flatMap(({ governing, worst }) =>
    governing?.value !== undefined && worst !== undefined
      ? [subtractDb(governing.value, worst)]
      : [],
  );
  const least = margins.sort(compareDb)[0];
  return least === undefined ? 'no margin' : `design margin ${printRounded(least, 2)} dB`;
}

function totalsLine({ plan }: CheckedPlan): string {
  const { totals } = plan.result;
  const worst = totals.worst
    ? `; worst margin ${printRounded(totals.worst.margin, 2)} dB at ${totals.worst.link}`
    : '';
  return `${totals.links} ${totals.links === 1 ? 'link' : 'links'}, ${totals.present} of ${totals.expected} readings${worst}; ${
    totals.accepted ? 'accepted' : 'not accepted yet'
  }`;
}

function paintVerdict(cell: string, verdict: Verdict, colour: boolean): string {
  if (failingVerdicts.has(verdict)) return paint(cell, 'red', colour);
  // What passes asks for no attention, and so for no colour.
  return verdict === 'pass' ? cell : paint(cell, 'yellow', colour);
}
