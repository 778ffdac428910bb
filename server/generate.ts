/** Writes what is generated from the server's sources: the JSON Schemas of results, of records and of mappings, the pages of findings and of tables. `--check` only says what is stale. */
import { readFileSync, writeFileSync } from 'node:fs';
import { comparisonJsonSchema } from './src/cli/formats/changes/schema.ts';
import { mappingJsonSchema } from './src/import/mapping.ts';
import { findingsPage } from './src/project/finding-pages.ts';
import { tablesPage } from './src/report/fleet/page.ts';
import { recordJsonSchema } from './src/report/record/schema.ts';
import { resultJsonSchema } from './src/report/schema.ts';

const outputs = [
  { path: 'server/result.schema.json', text: `${JSON.stringify(resultJsonSchema(), null, 2)}\n` },
  { path: 'server/record.schema.json', text: `${JSON.stringify(recordJsonSchema(), null, 2)}\n` },
  { path: 'server/mapping.schema.json', text: `${JSON.stringify(mappingJsonSchema(), null, 2)}\n` },
  {
    path: 'server/comparison.schema.json',
    text: `${JSON.stringify(comparisonJsonSchema(), null, 2)}\n`,
  },
  { path: 'server/findings.md', text: findingsPage() },
  { path: 'server/tables.md', text: tablesPage() },
];

let stale = false;
for (const { path, text } of outputs) {
  const now = read(path);
  if (now === text) continue;
  if (process.argv.includes('--check')) {
    stale = true;
    process.stdout.write(`${path} is stale: run npm run generate\n`);
  } else {
    writeFileSync(path, text);
    process.stdout.write(`wrote ${path}\n`);
  }
}
process.exit(stale ? 1 : 0);

function read(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}
