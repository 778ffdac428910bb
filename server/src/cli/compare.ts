/** `compare`: what changed between two states of plans, in the terms of the trade, and what that does. */
import { type Command, Option } from 'commander';
import type { Instant } from '../project/instant.ts';
import { plainDisplay } from '../report/figures.ts';
import { comparedSides } from './compare-plans.ts';
import { breaking, comparedWithRecord, recordAt } from './compare-record.ts';
import { revisions, type Sides, twoPaths } from './compare-sides.ts';
import { answer, CommandError } from './console.ts';
import { type Compared, toldPlans, withPaths } from './formats/changes/compared.ts';
import { json } from './formats/changes/json.ts';
import { junit } from './formats/changes/junit.ts';
import { markdown } from './formats/changes/markdown.ts';
import { type RecordCompared, recordFormats } from './formats/changes/since-record.ts';
import { text } from './formats/changes/text.ts';
import { alteredIn, titlesOf, toldOf } from './formats/changes/told.ts';
import { github } from './formats/github.ts';
import { gitlab } from './formats/gitlab.ts';
import { sarif } from './formats/sarif.ts';
import { asOfOption, formatOption, outOption, repeatedOption } from './options.ts';
import { toolName } from './version.ts';

const formats = {
  text,
  markdown,
  html: async (compared: Compared) => {
    // The page's components are not needed by any other form.
    const { printChanges } = await import('../report/page/changes-printed.tsx');
    return printChanges(
      toldPlans(compared).map((plan) => ({ comparison: withPaths(plan), display: plainDisplay })),
      toolName,
    );
  },
  json,
  sarif: (compared: Compared) => sarif({ findings: toldOf(compared) }, titlesOf(compared)),
  junit,
  github: (compared: Compared) => github({ findings: toldOf(compared) }),
  gitlab: (compared: Compared) => gitlab({ findings: toldOf(compared) }),
} as const;

const failLevels = ['change', 'rule', 'evidence'] as const;
type FailLevel = (typeof failLevels)[number];

interface CompareOptions {
  readonly git?: readonly string[];
  readonly format: keyof typeof formats;
  readonly out?: string;
  readonly failOn?: readonly FailLevel[];
  readonly asOf: Instant;
}

export function addCompare(program: Command): void {
  program
    .command('compare')
    .description('say what changed between two states of plans, and what that does')
    .argument(
      '[path...]',
      'OLD and NEW: folders or files, or a record written as JSON and its plan; with --git the paths to look at',
    )
    .addOption(
      new Option(
        '--git <revision...>',
        'compare a revision with the working copy, or two revisions with each other',
      ),
    )
    .addOption(formatOption(Object.keys(formats)))
    .addOption(outOption())
    .addOption(
      repeatedOption(
        '--fail-on <what>',
        'what makes the command end with 1; else an engineering change, a broken rule of the plan, and evidence altered without an answer',
        failLevels,
      ),
    )
    .addOption(asOfOption())
    .action(async (paths: readonly string[], options: CompareOptions) => {
      if (!options.git && (await compareRecord(paths, options))) return;
      const compared = comparedSides(await sidesOf(paths, options), options.asOf);
      await answer(await formats[options.format](compared, options.out), options.out);
      process.exitCode = fails(compared, new Set(options.failOn ?? failLevels)) ? 1 : 0;
    });
}

/** An issued record as the old side; false where the first path is none. */
async function compareRecord(
  [old = '', now, ...others]: readonly string[],
  options: CompareOptions,
): Promise<boolean> {
  const { format, out, asOf } = options;
  const record = await recordAt(old);
  if (!record) return false;
  if (now === undefined || others.length > 0) {
    throw new CommandError(`Name the plan that ${old} is the record of: compare ${old} PATH.`);
  }
  const compared = await comparedWithRecord(record, old, now, asOf);
  await answer(saidOfRecord(compared, format), out);
  const on = new Set(options.failOn ?? failLevels);
  const failing = compared.differences.some(({ difference }) =>
    on.has(breaking.has(difference) ? 'evidence' : 'change'),
  );
  process.exitCode = failing ? 1 : 0;
  return true;
}

function saidOfRecord(compared: RecordCompared, format: keyof typeof formats): string {
  const findings = recordFormats.told(compared);
  switch (format) {
    case 'text':
    case 'markdown':
    case 'json':
    case 'junit':
      return recordFormats[format](compared);
    case 'sarif':
      return sarif({ findings }, recordFormats.titles);
    case 'github':
      return github({ findings });
    case 'gitlab':
      return gitlab({ findings });
    case 'html':
      throw new CommandError(
        'A comparison with a record is written as text, markdown, json, sarif, junit, github or gitlab.',
      );
  }
}

async function sidesOf(
  paths: readonly string[],
  { git, asOf }: Pick<CompareOptions, 'git' | 'asOf'>,
): Promise<Sides> {
  if (git) return revisions({ git, paths }, asOf);
  const [old, now, ...others] = paths;
  if (old === undefined || now === undefined || others.length > 0) {
    throw new CommandError(
      'Name two states: "compare OLD NEW" for folders or files, "compare --git REVISION" for a revision and the working copy.',
    );
  }
  return twoPaths(old, now, asOf);
}

function fails({ plans }: Compared, on: ReadonlySet<FailLevel>): boolean {
  return plans.some(
    (plan) =>
      (on.has('change') && plan.comparison.engineering > 0) ||
      (on.has('rule') && plan.comparison.breaches.length > 0) ||
      (on.has('evidence') && alteredIn(plan).length > 0),
  );
}
