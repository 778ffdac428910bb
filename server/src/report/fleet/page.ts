/** The page that says what tables there are, what each column says, and how a database asks across many plans. */
import { saidOf, tableNames } from './index.ts';
import type { ColumnKind } from './table.ts';

const kinds: readonly (readonly [ColumnKind, string, string, string])[] = [
  ['text', 'text', 'string', 'UTF-8 string'],
  ['whole', 'number', 'number', '32-bit integer'],
  ['number', 'number', 'number', 'double'],
  ['flag', '`true`, `false`', 'boolean', 'boolean'],
  ['minute', '`2026-03-14T09:05`', 'the same as a string', 'timestamp in ms, no zone'],
];

/** Each with the question it answers; a test runs them over the tables of a hundred plans. */
const questions: readonly (readonly [question: string, sql: string])[] = [
  [
    'Which closures hold the worst joints?',
    `select lies_at, max(value_db) as worst_db, count(*) as joints
from 'joints/*.parquet'
where kind = 'splice' and quantity = 'loss' and lies_at is not null
group by lies_at
order by worst_db desc, lies_at`,
  ],
  [
    'Which meters drift, and by how much?',
    `select meter, round(max(abs(drift_db)), 6) as drift_db, count(*) as checks
from 'references/*.parquet'
where event = 'checked'
group by meter
order by drift_db desc, meter`,
  ],
  [
    'What margin is left, by age of the evidence?',
    `select age_days, count(*) as readings, min(margin_db) as least_db
from 'readings/*.parquet'
where "current" and margin_db is not null
group by age_days
order by age_days`,
  ],
];

export function tablesPage(): string {
  return `# Tables of results

Made by \`npm run generate\` from \`server/src/report/fleet\`; do not edit.

\`linkwright results --table NAME --format FORMAT --out FILE PATH…\` writes one of the tables below, over all plans that it is given, in one of four forms. Without \`--table\` the form alone writes the readings. All forms say the same, with the same names of columns. New columns may come at the end; those that are here keep their name, kind and meaning.

| form | what it is |
| --- | --- |
| \`csv\` | RFC 4180, UTF-8, a line of names first; nothing where a value is not known; a text that a spreadsheet would run as a formula is led by an apostrophe |
| \`ndjson\` | one JSON object a line, every column in each, \`null\` where a value is not known |
| \`xlsx\` | a sheet with numbers as numbers and a head that stays, and a sheet that says what each column means |
| \`parquet\` | Apache Parquet, each column of one type whatever its rows, compressed; tool and table stand in its metadata |

| kind of column | \`csv\` | \`ndjson\` | \`parquet\` |
| --- | --- | --- | --- |
${kinds.map((row) => `| ${row.join(' | ')} |`).join('\n')}

A time is that of the site's clock. Losses, limits and margins are in dB and never rounded. What is not known is null, never 0.

## Across many plans

A file a plan, or one over all of them; columns are the same either way:

\`\`\`sh
linkwright results --table joints --format parquet --out joints/kestrel-quay.parquet kestrel-quay
linkwright results --table references --format parquet --out references/kestrel-quay.parquet kestrel-quay
linkwright results --format parquet --out readings/kestrel-quay.parquet kestrel-quay
\`\`\`

In DuckDB, which reads the files where they lie:
${questions.map(([question, sql]) => `\n${question}\n\n\`\`\`sql\n${sql}\n\`\`\`\n`).join('')}
In Spark the same questions are asked of views (version 3.4 or later, which knows timestamps without a zone; that is from memory, and these lines are run by no test of ours):

\`\`\`python
for name in ["${tableNames.slice(0, 3).join('", "')}"]:
    spark.read.parquet(f"{name}/*.parquet").createOrReplaceTempView(name)

spark.sql("""
    select meter, round(max(abs(drift_db)), 6) as drift_db, count(*) as checks
    from references
    where event = 'checked'
    group by meter
    order by drift_db desc, meter
""").show()
\`\`\`
${tableNames.map(section).join('')}`;
}

function section(name: (typeof tableNames)[number]): string {
  const { row, columns, whole } = saidOf(name);
  return `
## ${name}

A row is ${row}.${whole ? ' It is of a whole plan: `--link` and `--only` are refused.' : ''}

| column | kind | what it says |
| --- | --- | --- |
${columns.map((each) => `| \`${each.name}\` | ${each.kind} | ${each.says} |`).join('\n')}
`;
}
