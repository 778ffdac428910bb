/** `record`: the acceptance record of a plan, as a draft or issued; and whether a plan is still that of a record. */
import { readFile } from 'node:fs/promises';
import { type Command, Option } from 'commander';
import type { Instant } from '../project/instant.ts';
import type { PageSize } from '../report/paper/pdf.ts';
import { type RecordFormat, recordedPlan, recordFormats, writtenRecord } from '../report/papers.ts';
import { type Recorded, stateOf } from '../report/record/recorded.ts';
import { checkSeal } from '../report/record/seal.ts';
import { CommandError, reason, say } from './console.ts';
import { openPaths } from './open.ts';
import { asOfOption, outOption } from './options.ts';
import { deliver, endingOf, onlyPlan, pageOption } from './paper.ts';
import { type ReadRecord, recordIn } from './read-record.ts';
import { toolName } from './version.ts';

interface RecordOptions {
  readonly issue?: boolean;
  readonly format?: RecordFormat;
  readonly page: PageSize;
  readonly out?: string;
  readonly verify?: string;
  readonly asOf: Instant;
}

export function addRecord(program: Command): void {
  program
    .command('record')
    .description('write the acceptance record of a plan, a draft unless it is issued')
    .argument('<path>', 'a plan: its folder or a file of it')
    .option('--issue', 'issue it; refused while something is missing, which is then listed')
    .addOption(
      new Option('--format <format>', 'form of the record; else as --out ends, else html').choices(
        recordFormats,
      ),
    )
    .addOption(pageOption())
    .addOption(outOption())
    .option('--verify <file>', 'say whether the plan is still that of this record')
    .addOption(asOfOption())
    .action(async (path: string, options: RecordOptions) => {
      const { project, plans } = await openPaths([path], options.asOf);
      const recorded = recordedPlan(onlyPlan(plans), (uri) => project.document(uri)?.text(), {
        tool: toolName,
        issue: options.issue === true,
      });
      if (options.verify !== undefined) await verify(recorded, options.verify);
      else await write(recorded, options);
    });
}

async function write(recorded: Recorded, options: RecordOptions): Promise<void> {
  const state = stateOf(recorded);
  if (options.issue && state.state !== 'issued') {
    const lines = state.missing.map(({ of, what }) => `${of}: ${what}\n`);
    await deliver(lines.join(''), undefined);
    say(
      `The record is not issued: ${lines.length} ${lines.length === 1 ? 'thing is' : 'things are'} missing. Nothing was written.`,
    );
    process.exitCode = 1;
    return;
  }
  const { page, out } = options;
  await deliver(await writtenRecord(recorded, state, { format: formatOf(options), page }), out);
}

function formatOf({ format, out }: RecordOptions): RecordFormat {
  return format ?? recordFormats.find((each) => each === endingOf(out)) ?? 'html';
}

/** Says what has become of the plan since a record; exit code 1 unless it is an issued one of this very plan. */
async function verify(recorded: Recorded, file: string): Promise<void> {
  const record = recordIn(await bytesOf(file));
  if (!record) {
    throw new CommandError(`${file} is no record that this tool wrote, or its seal was lost.`);
  }
  const { same, lines } = sinceThen(recorded, record);
  const kind =
    record.state === 'issued' ? `It was issued on ${record.on}` : `It is a draft of ${record.on}`;
  await deliver(
    [
      `${kind}${record.title ? ` of ${record.title}` : ''}${record.revision ? `, revision ${record.revision}` : ''}.`,
      same
        ? 'Plan and evidence are those of this record.'
        : 'Plan and evidence are no longer those of this record.',
      ...lines,
      ...(record.state === 'issued' ? [] : ['A draft accepts nothing.']),
    ]
      .map((line) => `${line}\n`)
      .join(''),
    undefined,
  );
  if (!same || record.state !== 'issued') process.exitCode = 1;
}

function sinceThen(
  recorded: Recorded,
  record: ReadRecord,
): { readonly same: boolean; readonly lines: readonly string[] } {
  if (!record.seal)
    return { same: record.fingerprint === stateOf(recorded).fingerprint, lines: [] };
  const { same, changed, gone, added } = checkSeal(record.seal, recorded.files);
  return {
    same,
    lines: [
      ...changed.map((path) => `changed: ${path}`),
      ...gone.map((path) => `no longer part of the plan: ${path}`),
      ...added.map((path) => `new in the plan: ${path}`),
    ],
  };
}

async function bytesOf(file: string): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch (error) {
    throw new CommandError(`Cannot read ${file}: ${reason(error)}.`);
  }
}
