/**
 * Tables of many plans, read by a database that is not ours: the same rows,
 * types and answers. What every answer should be is worked out beside it from
 * the plans' texts or results.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBInstance } from '@duckdb/node-api';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  fleetTable,
  type TableName,
  tableNames,
  writtenTable,
} from '../../server/src/report/fleet/index.ts';
import { tablesPage } from '../../server/src/report/fleet/page.ts';
import { cleanPlan } from '../support/clean-plans.ts';
import { fleetOf } from '../support/fleet.ts';
import { judge } from '../support/judge.ts';

const plans = 100;
const asOf = '2026-06-01 12:00';

/** Instruments and closures differ from plan to plan; one meter in ten loses light during the day. */
function textOf(seed: number): string {
  const drift = seed % 10 === 3 ? 0.06 : 0.01;
  return cleanPlan(seed)
    .replaceAll('2026-03-14', seed % 2 === 0 ? '2026-03-14' : '2026-05-14')
    .replaceAll('"M-1"', `"M-${seed % 10}"`)
    .replaceAll(/splice {6}fusion$/gmu, `splice      fusion at "closure ${seed % 7}"`)
    .replace(
      /(taken {7}(\S+) \d\d:\d\d (\d+ nm) (-?[\d.]+) dBm\n)\}/u,
      (_, line: string, day: string, light: string, power: string) =>
        `${line}  checked     ${day} 17:30 ${light} ${(Number(power) - drift).toFixed(2)} dBm\n}`,
    );
}

const fleet = Array.from({ length: plans }, (_, seed) =>
  fleetOf(judge(textOf(seed), asOf).plan, `plan-${seed}.lwl`),
);
const tables = new Map(tableNames.map((name) => [name, fleetTable(name, fleet)]));

/** Rows as objects, by name of column. */
function rowsOf(name: TableName): readonly Record<string, string | number | boolean | null>[] {
  const { columns, rows } = tables.get(name)!;
  return rows.map((row) =>
    Object.fromEntries(columns.map((each, index) => [each.name, row[index] ?? null])),
  );
}

const folder = mkdtempSync(join(tmpdir(), 'linkwright-fleet-'));
let ask: (sql: string) => Promise<readonly Record<string, unknown>[]>;

beforeAll(async () => {
  for (const [name, table] of tables) {
    const bytes = await writtenTable(table, 'parquet', 'linkwright test');
    writeFileSync(join(folder, `${name}.parquet`), bytes);
  }
  const instance = await DuckDBInstance.create(':memory:');
  const connection = await instance.connect();
  ask = async (sql) =>
    (
      await connection.runAndReadAll(sql.replaceAll(/\{(\w+)\}/gu, `'${folder}/$1.parquet'`))
    ).getRowObjectsJson() as Record<string, unknown>[];
});

/** The answer to a question as the page of tables asks it. */
async function asked(about: string) {
  const [, sql = ''] =
    new RegExp(`^[^\\n]*${about}[^\\n]*\\?\\n\\n\`\`\`sql\\n([^\`]+)\`\`\``, 'mu').exec(
      tablesPage(),
    ) ?? [];
  return ask(sql.replace(/'(\w+)\/\*\.parquet'/u, '{$1}'));
}

afterAll(() => rmSync(folder, { recursive: true }));

describe('Parquet of 100 plans, read by DuckDB', () => {
  test.each(tableNames)('holds every row of %s, each column of its kind', async (name) => {
    const { columns, rows } = tables.get(name)!;
    expect(rows.length).toBeGreaterThan(100);
    expect(await ask(`select count(*)::int as n from {${name}}`)).toEqual([{ n: rows.length }]);
    const kinds = {
      text: 'VARCHAR',
      whole: 'INTEGER',
      number: 'DOUBLE',
      flag: 'BOOLEAN',
      minute: 'TIMESTAMP',
    };
    const described = await ask(`describe select * from {${name}}`);
    expect(described.map((each) => [each.column_name, each.column_type])).toEqual(
      columns.map((each) => [each.name, kinds[each.kind]]),
    );
  });

  test('holds what is not known as null, and a time as it was on the site’s clock', async () => {
    const [row] = await ask(
      `select reflectance_db, direction, latest::varchar as latest, as_of::varchar as as_of
       from {readings} where plan_file = 'plan-0.lwl' limit 1`,
    );
    expect(row).toMatchObject({ reflectance_db: null, as_of: '2026-06-01 12:00:00' });
    expect(row?.latest).toMatch(/^2026-03-14 1\d:\d\d:00$/u);
  });

  test('says which closures hold the worst joints', async () => {
    const found = await asked('closures');
    const expected = new Map<string, { worst_db: number; joints: string }>();
    for (const { lies_at: at, kind, quantity, value_db } of rowsOf('joints')) {
      if (kind !== 'splice' || quantity !== 'loss' || typeof at !== 'string') continue;
      const known = expected.get(at) ?? { worst_db: -1, joints: '0' };
      known.worst_db = Math.max(known.worst_db, Number(value_db));
      known.joints = String(Number(known.joints) + 1);
      expected.set(at, known);
    }
    expect(found.length).toBeGreaterThan(3);
    expect(found).toEqual(
      [...expected]
        .map(([lies_at, each]) => ({ lies_at, ...each }))
        .sort((a, b) => b.worst_db - a.worst_db || (a.lies_at < b.lies_at ? -1 : 1)),
    );
  });

  test('says which instruments drift: those that were made to', async () => {
    const found = await asked('meters');
    expect(found).toHaveLength(10);
    expect(found[0]).toMatchObject({ meter: 'M-3', drift_db: 0.06 });
    expect(found.slice(1).every(({ drift_db }) => drift_db === 0.01)).toBe(true);
  });

  test('says what margin is left by age', async () => {
    const found = await asked('age');
    // From the afternoon and the morning of 2026-05-14, and of 2026-03-14, to noon of 2026-06-01.
    expect(found.map(({ age_days }) => age_days)).toEqual([17, 18, 78, 79]);
    for (const { age_days, readings, least_db } of found) {
      const margins = rowsOf('readings').flatMap((row) =>
        row.age_days === age_days && row.current && typeof row.margin_db === 'number'
          ? [row.margin_db]
          : [],
      );
      expect({ readings, least_db }).toEqual({
        readings: String(margins.length),
        least_db: Math.min(...margins),
      });
    }
  });

  test('has its columns where there is no row', async () => {
    const none = fleetTable('joints', []);
    const bytes = await writtenTable(none, 'parquet', 'linkwright test');
    writeFileSync(join(folder, 'none.parquet'), bytes);
    expect(await ask('select count(*)::int as n from {none}')).toEqual([{ n: 0 }]);
    expect(await ask('describe select * from {none}')).toEqual(
      await ask('describe select * from {joints}'),
    );
  });

  test('reads NDJSON as the same rows', async () => {
    const text = await writtenTable(tables.get('readings')!, 'ndjson', 'linkwright test');
    writeFileSync(join(folder, 'readings.ndjson'), text);
    expect(
      await ask(
        `select count(*)::int as n, round(sum(loss_db), 6) as loss
         from read_json('${folder}/readings.ndjson')`,
      ),
    ).toEqual(
      await ask('select count(*)::int as n, round(sum(loss_db), 6) as loss from {readings}'),
    );
  });

  test('reads CSV as the same rows', async () => {
    const text = await writtenTable(tables.get('readings')!, 'csv', 'linkwright test');
    writeFileSync(join(folder, 'readings.csv'), text);
    expect(
      await ask(
        `select count(*)::int as n, round(sum(loss_db), 6) as loss, min(age_days)::int as age
         from read_csv('${folder}/readings.csv')`,
      ),
    ).toEqual(
      await ask(
        'select count(*)::int as n, round(sum(loss_db), 6) as loss, min(age_days) as age from {readings}',
      ),
    );
  });
});

describe('names that a spreadsheet would run', () => {
  const evil = cleanPlan(4)
    .replace('"Clean plan 4"', '"=cmd(1)"')
    .replaceAll('"R. Vale"', '" @SUM(A1)"')
    .replaceAll('"M-1"', '"+M"');
  const table = fleetTable('readings', [fleetOf(judge(evil, asOf).plan, '-1.lwl')]);

  test('are led by an apostrophe in CSV', async () => {
    const text = String(await writtenTable(table, 'csv', 'linkwright test'));
    for (const each of ["'=cmd(1)", "' @SUM(A1)", "'+M", "'-1.lwl"]) {
      expect(text).toContain(`,${each},`);
    }
    expect(text).not.toMatch(/,\s*[=+@]|,-[^\d]/u);
  });

  test('are texts in a workbook, whose numbers are numbers and whose head stays', async () => {
    const bytes = (await writtenTable(table, 'xlsx', 'linkwright test')) as Uint8Array;
    const parts = new Map(
      Object.entries(unzipSync(bytes)).map(([name, part]) => [name, strFromU8(part)]),
    );
    for (const [name, text] of parts) {
      expect(text, name).not.toMatch(/<f[ >]|<hyperlink|externalLink/u);
    }
    expect(parts.get('xl/sharedStrings.xml')).toContain('=cmd(1)');
    const sheet = parts.get('xl/worksheets/sheet1.xml') ?? '';
    expect(sheet).toMatch(/<pane [^>]*ySplit="1"[^>]*state="frozen"/u);
    const loss = table.columns.findIndex(({ name }) => name === 'loss_db');
    expect(sheet).toMatch(new RegExp(`<c r="[A-Z]+2"[^>]*><v>${table.rows[0]?.[loss]}</v>`, 'u'));
  });
});
