/** `check`: findings, then one line for each link. */
import type { Command } from 'commander';
import { overLimit } from '../checks/over-limit.ts';
import type { LinkResult, Verdict } from '../evaluate/index.ts';
import type { LiveProject } from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';
import { checkedSince } from './check-since.ts';
import { answer } from './console.ts';
import { github } from './formats/github.ts';
import { gitlab } from './formats/gitlab.ts';
import { json } from './formats/json.ts';
import { junit } from './formats/junit.ts';
import { sarif } from './formats/sarif.ts';
import { text } from './formats/text.ts';
import type { Told } from './formats/told.ts';
import { openPaths, toPath } from './open.ts';
import { asOfOption, formatOption, outOption, repeatedOption } from './options.ts';

/** A finding where a person finds it. */
export interface PlacedFinding extends Told {
  readonly uri: string;
}

export interface CheckedPlan {
  readonly plan: Plan;
  readonly links: readonly LinkResult[];
}

/** All that a check has to say, whatever form it is said in. */
export interface Checked {
  readonly project: LiveProject;
  readonly findings: readonly PlacedFinding[];
  readonly plans: readonly CheckedPlan[];
  /** What it is a check of, where it is not of all: for people. */
  readonly note?: string;
}

const formats = {
  text,
  json: ({ project, plans, findings }: Checked) => json(project, plans, findings),
  sarif: (checked: Checked) => sarif(checked),
  junit,
  github,
  gitlab,
} as const;
type Format = keyof typeof formats;

const failLevels = ['error', 'warning', 'verdict'] as const;
type FailLevel = (typeof failLevels)[number];

/** Verdicts that fail a check: untested does not, a record is what asks for completeness. */
export const failingVerdicts: ReadonlySet<Verdict> = new Set(['fail', 'marginal-fail', 'invalid']);

interface CheckOptions {
  readonly format: Format;
  readonly out?: string;
  readonly failOn?: readonly FailLevel[];
  readonly since?: string;
  readonly asOf: Instant;
}

export function addCheck(program: Command): void {
  program
    .command('check')
    .description('say what is found in plans, and where each link stands')
    .argument('[path...]', 'folders or files; the working folder if there are none')
    .addOption(formatOption(Object.keys(formats)))
    .addOption(outOption())
    .addOption(
      repeatedOption(
        '--fail-on <level>',
        'what makes the command fail; else error and verdict',
        failLevels,
      ),
    )
    .option(
      '--since <revision>',
      'only what concerns changes since this revision of git, with evidence altered and rules of the plan broken by them',
    )
    .addOption(asOfOption())
    .action(async (paths: readonly string[], options: CheckOptions) => {
      const { since, asOf } = options;
      const whole = await check(paths, asOf);
      const checked = since === undefined ? whole : await checkedSince(whole, since, paths, asOf);
      await answer(formats[options.format](checked, options.out), options.out);
      process.exitCode = fails(checked, new Set(options.failOn ?? ['error', 'verdict'])) ? 1 : 0;
    });
}

async function check(paths: readonly string[], asOf: Instant): Promise<Checked> {
  const { project, plans, files } = await openPaths(paths, asOf);
  const links = plans.map((plan) => ({
    plan,
    links: plan.result.order.flatMap((name) => plan.result.link(name) ?? []),
  }));
  return { project, findings: placedFindings(project, files), plans: links };
}

/** Findings of files, unanswered ones only, by file and place. */
export function placedFindings(
  project: LiveProject,
  files: readonly string[],
): readonly PlacedFinding[] {
  project.work(() => false);
  return files
    .flatMap((uri) => project.findings(uri))
    .flatMap((finding): PlacedFinding[] => {
      const located = project.locate(finding.place);
      return located && finding.silenced === undefined
        ? [{ finding, uri: located.uri, path: toPath(located.uri), range: located.range }]
        : [];
    })
    .sort(
      (a, b) =>
        (a.path < b.path ? -1 : a.path > b.path ? 1 : 0) ||
        a.range.start.line - b.range.start.line ||
        a.range.start.character - b.range.start.character,
    );
}

/**
 * Findings that repeat a reading's verdict: there the verdict decides, which a
 * concession may have settled.
 */
const saidByVerdict: ReadonlySet<string> = new Set([overLimit.name]);

function fails(checked: Checked, on: ReadonlySet<FailLevel>): boolean {
  const severe = checked.findings.some(
    ({ finding: { name, severity } }) =>
      !saidByVerdict.has(name) &&
      ((severity === 'error' && (on.has('error') || on.has('warning'))) ||
        (severity === 'warning' && on.has('warning'))),
  );
  const judged =
    on.has('verdict') &&
    checked.plans.some(({ links }) => links.some(({ verdict }) => failingVerdicts.has(verdict)));
  return severe || judged;
}
