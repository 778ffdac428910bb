/** `results`: the results table, for a terminal, a page, or another program. */
import type { Command } from 'commander';
import type { LinkResult } from '../evaluate/index.ts';
import { type Verdict, verdicts } from '../evaluate/result.ts';
import type { Instant } from '../project/instant.ts';
import type { Plan } from '../project/types.ts';
import { toCsv } from '../report/csv.ts';
import { plainDisplay } from '../report/figures.ts';
import { toText } from '../report/text.ts';
import { placedFindings } from './check.ts';
import { answer, CommandError } from './console.ts';
import { json } from './formats/json.ts';
import { openPaths } from './open.ts';
import { asOfOption, formatOption, outOption, repeatedOption } from './options.ts';
import { toolName } from './version.ts';

const formats = ['text', 'html', 'json', 'csv'] as const;

interface ResultsOptions {
  readonly format: (typeof formats)[number];
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
    .addOption(formatOption(formats))
    .addOption(outOption())
    .addOption(repeatedOption('--link <name>', 'only this link or channel'))
    .addOption(repeatedOption('--only <verdict>', 'only links with this verdict', verdicts))
    .addOption(asOfOption())
    .action(async (paths: readonly string[], options: ResultsOptions) => {
      await answer(await results(paths, options), options.out);
    });
}

async function results(paths: readonly string[], options: ResultsOptions): Promise<string> {
  const { project, plans, files } = await openPaths(paths, options.asOf);
  const chosen = plans.map((plan) => ({ plan, links: linksOf(plan, options) }));
  const missing = options.link?.find((name) => !plans.some((plan) => plan.result.link(name)));
  if (missing !== undefined)
    throw new CommandError(`There is no link or channel ${missing} in these plans.`);
  switch (options.format) {
    case 'text':
      return chosen.map(({ plan, links }) => toText(plan.result, links, plainDisplay)).join('\n');
    case 'csv':
      return toCsv(chosen.flatMap(({ links }) => links));
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
