/** What became of the evidence since a record was written, in each form in which a comparison is said. */
import type { Severity } from '../../../../../grammar/src/tree.ts';
import type { Range } from '../../../project/types.ts';
import { counted } from '../../../report/figures.ts';
import { breaking, type Difference, type SinceRecord } from '../../compare-record.ts';
import type { RecordJson } from '../../record-json.ts';
import { toolName } from '../../version.ts';
import { suite, suites } from '../junit.ts';
import type { Told } from '../told.ts';
import { words } from './markdown.ts';
import type { SinceRecordJson } from './schema.ts';
import { shownWords } from './text.ts';

export interface PlacedSince extends SinceRecord {
  /** Where it stands now, or the plan’s own file. */
  readonly path: string;
  readonly range: Range;
}

export interface RecordCompared {
  readonly record: RecordJson;
  /** As the file of the record and the plan were named. */
  readonly recordPath: string;
  readonly planPath: string;
  /** Every file of the plan is as it was. */
  readonly same: boolean;
  readonly differences: readonly PlacedSince[];
}

const titles: Readonly<Record<Difference, string>> = {
  altered: 'Evidence of the record says something else now',
  removed: 'Evidence of the record is gone',
  added: 'Evidence is dated before the record and not in it',
  withdrawn: 'A reading of the record was withdrawn since',
  judged: 'A reading of the record is judged otherwise now',
};

export const recordFormats = {
  text,
  markdown,
  json,
  told: (compared: RecordCompared): readonly Told[] => folded(compared).map(told),
  titles: new Map(Object.entries(titles).map(([name, title]) => [nameOf(name), title])),
  junit,
};

/** Readings of one object that are judged otherwise alike are told as one, at the first of them; JSON holds each. */
function folded({ differences }: RecordCompared): readonly PlacedSince[] {
  const groups = new Map<string, PlacedSince[]>();
  for (const [index, each] of differences.entries()) {
    const { difference, object, verdicts } = each;
    const key = JSON.stringify(difference === 'judged' ? [object, verdicts] : index);
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()].flatMap(([first, ...others]): PlacedSince[] => {
    if (!first) return [];
    if (others.length === 0) return [first];
    return [
      { ...first, subject: `${first.subject}, and ${counted(others.length, 'more reading')}` },
    ];
  });
}

function nameOf(difference: string): string {
  return `record-evidence-${difference}`;
}

function severityOf(difference: Difference): Severity {
  if (breaking.has(difference)) return 'error';
  return difference === 'withdrawn' ? 'warning' : 'note';
}

function text(compared: RecordCompared): string {
  return `${[headOf(compared), countOf(compared), ...folded(compared).map(line)]
    .map(shownWords)
    .join('\n')}\n`;
}

function headOf({ record, recordPath, planPath, same }: RecordCompared): string {
  const kind = record.state === 'issued' ? 'issued' : 'a draft of';
  const files = same ? 'every file is as it was' : 'its files are others now';
  return `${recordPath}, ${kind} ${record.date}, compared with ${planPath}: ${files}.`;
}

function countOf({ differences }: RecordCompared): string {
  const broken = differences.filter(({ difference }) => breaking.has(difference)).length;
  const rest = differences.length - broken;
  if (differences.length === 0) return 'All its evidence stands as it was, judged as it was.';
  return [
    broken === 0
      ? 'All its evidence stands as it was'
      : `${counted(broken, 'piece')} of evidence altered, removed or added`,
    rest === 0 ? '' : `${counted(rest, 'reading')} withdrawn or judged otherwise`,
  ]
    .filter(Boolean)
    .join('; ')
    .concat('.');
}

function line(since: PlacedSince): string {
  const { path, range, difference } = since;
  return `${path}:${range.start.line + 1}: ${messageOf(since)} [${nameOf(difference)}]`;
}

function messageOf({ difference, object, subject, was, now }: SinceRecord): string {
  const values = [
    was === undefined ? '' : `was ${was}`,
    now === undefined ? '' : `now ${now}`,
  ].filter(Boolean);
  return `${titles[difference]}: ${object} ${subject}: ${values.join('; ')}.`;
}

function told(since: PlacedSince): Told {
  const { difference, object, subject, path, range } = since;
  return {
    finding: {
      name: nameOf(difference),
      severity: severityOf(difference),
      message: messageOf(since),
      about: `${object} ${subject}`,
    },
    path,
    range,
  };
}

function markdown(compared: RecordCompared): string {
  const differences = folded(compared);
  const lines = [
    '## Evidence since the record',
    '',
    words(headOf(compared)),
    '',
    words(countOf(compared)),
  ];
  if (differences.length > 0) {
    lines.push('', '| | what | was | now |', '| --- | --- | --- | --- |');
    for (const { difference, object, subject, was = '', now = '' } of differences) {
      lines.push(`| ${[difference, `${object} ${subject}`, was, now].map(words).join(' | ')} |`);
    }
  }
  return `${lines.join('\n')}\n`;
}

function json({ record, recordPath, planPath, same, differences }: RecordCompared): string {
  const form: SinceRecordJson = {
    version: 1,
    document: 'comparison with a record',
    tool: toolName,
    record: { file: recordPath, state: record.state, date: record.date },
    plan: planPath,
    same_files: same,
    differences: differences.map(({ difference, object, subject, was, now, path, range }) => ({
      difference,
      object,
      subject,
      was: was ?? null,
      now: now ?? null,
      at: { file: path, range },
    })),
  };
  return `${JSON.stringify(form, null, 2)}\n`;
}

function junit(compared: RecordCompared): string {
  return suites([
    suite(
      compared.planPath,
      folded(compared).map((since) => {
        const { finding } = told(since);
        const failing = finding.severity === 'error';
        return {
          name: finding.about ?? finding.name,
          kind: finding.name,
          failure: failing ? finding.message : undefined,
          skipped: false,
          said: failing ? undefined : finding.message,
        };
      }),
    ),
  ]);
}
