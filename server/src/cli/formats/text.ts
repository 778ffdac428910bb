/** A check for people: one line a finding, one line a link, one line for each plan. */
import { compareDb, toMetres } from '../../../../grammar/src/quantity/index.ts';
import type { Severity } from '../../../../grammar/src/tree.ts';
import type { LinkResult, Verdict } from '../../evaluate/index.ts';
import type { WavelengthResult } from '../../evaluate/result.ts';
import { limitWords, margin, plainDisplay, wavelength } from '../../report/figures.ts';
import { type Checked, type CheckedPlan, failingVerdicts, type PlacedFinding } from '../check.ts';
import { paint, wantsColour } from '../console.ts';

const places = plainDisplay.precision;

export function text({ findings, plans, note }: Checked, out: string | undefined): string {
  const colour = wantsColour(out);
  const lines = findings.map((finding) => findingLine(finding, colour));
  for (const plan of plans) {
    if (plan.links.length === 0) continue;
    if (lines.length > 0) lines.push('');
    lines.push(...linkLines(plan, colour), '', totalsLine(plan));
  }
  if (note) lines.push(...(lines.length > 0 ? [''] : []), note);
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
    ...limitAndMargin(link),
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

/** Limit and margin of the worst reading; where nothing is measured, those of the design at one wavelength. */
function limitAndMargin(link: LinkResult): readonly [string, string] {
  if (link.worstMargin) {
    const { reading, margin: least } = link.worstMargin;
    return [limitWords(reading.limit, places), `margin ${margin(least, places)} dB`];
  }
  const blind = link.wavelengths.find(({ governing }) => governing?.value === undefined);
  if (blind) return [`no limit at ${lightOf(blind)}`, 'no margin'];
  const [tightest] = [...link.wavelengths].sort(byDesignMargin);
  if (!tightest) return ['no limit', 'no margin'];
  const limit = `${limitWords(tightest.governing, places)} at ${lightOf(tightest)}`;
  const { designMargin } = tightest;
  return [
    limit,
    designMargin === undefined ? 'no margin' : `design margin ${margin(designMargin, places)} dB`,
  ];
}

/** The smallest design margin first; where it is not known, last and by the limit. */
function byDesignMargin(a: WavelengthResult, b: WavelengthResult): number {
  if (a.designMargin !== undefined && b.designMargin !== undefined)
    return compareDb(a.designMargin, b.designMargin);
  if (a.designMargin !== undefined) return -1;
  if (b.designMargin !== undefined) return 1;
  return compareDb(a.governing!.value!, b.governing!.value!);
}

/** `850 nm`, `1310 nm A>B`. */
function lightOf(at: WavelengthResult): string {
  return [wavelength(at.wavelength), at.direction].filter(Boolean).join(' ');
}

function totalsLine({ plan }: CheckedPlan): string {
  const { totals } = plan.result;
  const worst = totals.worst
    ? `; worst margin ${margin(totals.worst.margin, places)} dB at ${totals.worst.link}`
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
