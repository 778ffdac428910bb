/** `results`: the results table, for a terminal, a page, or another program. */
import { type Command, Option } from 'commander';
import type { LinkResult } from '../evaluate/index.ts';
import { type Verdict, verdicts } from '../evaluate/result.ts';
import type { Instant } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';
import { plainDisplay } from '../report/figures.ts';
import {
  type FleetPlan,
  fleetTable,
  saidOf,
  type TableFormat,
  type TableName,
  tableFormats,
  tableNames,
  writtenTable,
} from '../report/fleet/index.ts';
import { fingerprintOf } from '../report/json.ts';
import { filesOf } from '../report/record/recorded.ts';
import { toText } from '../report/text.ts';
import { placedFindings } from './check.ts';
import { answer, CommandError } from './console.ts';
import { json } from './formats/json.ts';
import { type Opened, openPaths, toPath } from './open.ts';
import { asOfOption, outOption, repeatedOption } from './options.ts';
import { deliver, endingOf } from './paper.ts';
import { toolName } from './version.ts';

const pageFormats = ['text', 'html', 'json'] as const;
const formats = [...pageFormats, ...tableFormats] as const;
type Format = (typeof formats)[number];

interface ResultsOptions {
  readonly format?: Format;
  readonly table?: TableName;
  readonly out?: string;
  readonly link?: readonly string[];
  readonly only?: readonly Verdict[];
  readonly asOf: Instant;
}

export function addResults(program: Command): void {
  program
    .command('results')
    .description('write the results of plans')
    .argument('[path...]', 'folders or files; the working folder if there are none')
    .addOption(
      new Option('--format <format>', 'form of the answer; text, or of a table csv').choices(
        formats,
      ),
    )
    .addOption(
      new Option(
        '--table <table>',
        'which table to write as csv, ndjson, xlsx or parquet; else the readings',
      ).choices(tableNames),
    )
    .addOption(outOption())
    .addOption(repeatedOption('--link <name>', 'only this link or channel'))
    .addOption(repeatedOption('--only <verdict>', 'only links with this verdict', verdicts))
    .addOption(asOfOption())
    .action(async (paths: readonly string[], options: ResultsOptions) => {
      await results(paths, options);
    });
}

async function results(paths: readonly string[], options: ResultsOptions): Promise<void> {
  const format = formatOf(options);
  const opened = await openPaths(paths, options.asOf);
  const { plans } = opened;
  const missing = options.link?.find((name) => !plans.some((plan) => plan.result.link(name)));
  if (missing !== undefined)
    throw new CommandError(`There is no link or channel ${missing} in these plans.`);
  const chosen = plans.map((plan) => ({ plan, links: linksOf(plan, options) }));
  if (!isTableFormat(format)) {
    await answer(await page(opened, chosen, format), options.out);
    return;
  }
  const fleet = chosen.map((each) => fleetPlan(opened, each));
  const table = fleetTable(options.table ?? 'readings', fleet);
  await deliver(await writtenTable(table, format, toolName), options.out);
}

/** As it is said; a table is written as its file ends, else as CSV. */
function formatOf({ format, table, out, link, only }: ResultsOptions): Format {
  if (table === undefined) return format ?? 'text';
  if (saidOf(table).whole && (link || only)) {
    throw new CommandError(
      `The table of ${table} is of a whole plan: leave --link and --only out.`,
    );
  }
  const chosen = format ?? tableFormats.find((each) => each === endingOf(out)) ?? 'csv';
  if (!isTableFormat(chosen)) {
    throw new CommandError(
      `The table of ${table} is written as ${tableFormats.join(', ')}, not as ${chosen}.`,
    );
  }
  return chosen;
}

function isTableFormat(format: Format): format is TableFormat {
  return tableFormats.some((each) => each === format);
}

interface Chosen {
  readonly plan: Plan;
  readonly links: readonly LinkResult[];
}

async function page(
  { project, files }: Opened,
  chosen: readonly Chosen[],
  format: (typeof pageFormats)[number],
): Promise<string> {
  switch (format) {
    case 'text':
      return chosen.map(({ plan, links }) => toText(plan.result, links, plainDisplay)).join('\n');
    case 'json':
      return json(project, chosen, placedFindings(project, files));
    case 'html': {
      // The page's components are not needed by any other command.
      const { printResults } = await import('../report/page/printed.tsx');
      return printResults(
        chosen.map(({ plan, links }) => ({ plan: narrowed(plan, links), display: plainDisplay })),
        toolName,
      );
    }
  }
}

function fleetPlan({ project }: Opened, { plan, links }: Chosen): FleetPlan {
  const files = filesOf(plan, (uri) => project.document(uri)?.text());
  return { plan, links, pathOf: toPath, fingerprint: fingerprintOf(files), tool: toolName };
}

function linksOf(plan: Plan, { link, only }: ResultsOptions): readonly LinkResult[] {
  return plan.result.order
    .flatMap((name) => plan.result.link(name) ?? [])
    .filter(
      (result) =>
        (!link || link.includes(result.link.name)) && (!only || only.includes(result.verdict)),
    );
}

/** The plan as it is, with some of its links; totals stay those of the whole. */
function narrowed(plan: Plan, links: readonly LinkResult[]) {
  const names = new Set(links.map((result) => result.link.name));
  const { result } = plan;
  return {
    root: plan.root,
    files: plan.files,
    settings: plan.settings,
    result: {
      title: result.title,
      totals: result.totals,
      order: result.order.filter((name) => names.has(name)),
      link: (name: string) => (names.has(name) ? result.link(name) : undefined),
    },
    allFindings: () => plan.allFindings(),
    locate: (place: Parameters<Plan['locate']>[0]) => plan.locate(place),
  };
}
