/** Readings of the example plans, written out as a table, are known again one by one, and come back into a plan that lacks them. */
import { globSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { expect, it, vi } from 'vitest';
import { microToNumber } from '../../grammar/src/quantity/index.ts';
import { appended, importReadings, unwatched } from '../../server/src/import/index.ts';
import type { ReadingCell } from '../../server/src/model/types.ts';
import type { Plan } from '../../server/src/project/types.ts';
import { judge } from '../support/judge.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

function filesOf(example: string): Record<string, string> {
  const paths = globSync(`examples/${example}/*.lwl`);
  return Object.fromEntries(
    paths.map((path) => {
      const text = readFileSync(path, 'utf8');
      return [/^plan "/mu.test(text) ? 'plan.lwl' : basename(path), text];
    }),
  );
}

const objectsOf = ({ result }: Plan) => result.order.map((name) => result.link(name)!.link.name);

const readingsOf = (plan: Plan, kind: 'fibre' | 'end') =>
  objectsOf(plan)
    .flatMap((name) => plan.evidence(name).readings)
    .filter((cell) => cell.quantity === 'loss' && (cell.end === undefined) === (kind === 'fibre'));

const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

function tableOf(readings: readonly ReadingCell[]): string {
  const lines = readings.map(
    ({ object, fibre, end, wavelength, direction, loss, setup, at, by, typed }) =>
      [
        quoted(object),
        end === undefined ? fibre : quoted(end),
        wavelength / 1000,
        direction,
        typed === 'dark' ? 'dark' : microToNumber(loss!),
        setup,
        at.from === at.to ? at.text.slice(0, 16) : at.text.slice(0, 10),
        quoted(by ?? ''),
      ].join(','),
  );
  return `link,place,wavelength,direction,loss,setup,tested,by\n${lines.join('\n')}\n`;
}

const mappingFor = (kind: 'fibre' | 'end') =>
  JSON.stringify({
    values: { what: 'loss', unit: 'dB', sign: 'positive' },
    columns: {
      link: 'link',
      [kind]: 'place',
      wavelength: 'wavelength',
      direction: 'direction',
      value: 'loss',
      setup: 'setup',
      tested: 'tested',
      by: 'by',
    },
  });

const read = (plan: Plan, table: string, kind: 'fibre' | 'end') =>
  importReadings(
    { plan, name: 'all.csv', bytes: new TextEncoder().encode(table), mapping: mappingFor(kind) },
    unwatched,
  );

it.each([
  ['first-link', 'fibre'],
  ['kestrel-quay-terminal', 'fibre'],
  ['shipboard', 'fibre'],
  ['splitter-network', 'end'],
] as const)('%s knows its own readings again', async (example, kind) => {
  const { plan } = judge(filesOf(example));
  const readings = readingsOf(plan, kind);
  expect(readings.length).toBeGreaterThan(10);
  const found = await read(plan, tableOf(readings), kind);
  expect(found).toMatchObject({ readings: 0, text: '', left: [] });
  expect('duplicates' in found && found.duplicates).toHaveLength(readings.length);
});

it.each([
  ['first-link', 'fibre'],
  ['splitter-network', 'end'],
] as const)('%s is judged as before when its readings come from a table', async (example, kind) => {
  const files = filesOf(example);
  const { plan } = judge(files);
  const table = tableOf(readingsOf(plan, kind));
  const bare = Object.fromEntries(
    Object.entries(files).map(([name, text]) => [
      name,
      text.replaceAll(/^readings .*?^\}$/gmsu, ''),
    ]),
  );
  const found = await read(judge(bare).plan, table, kind);
  if ('problems' in found) throw new Error(found.problems.join('\n'));
  expect(found.left).toEqual([]);
  const again = judge({ ...bare, 'plan.lwl': appended(bare['plan.lwl']!, found.text) }).plan;
  const said = (each: Plan) =>
    readingsOf(each, kind)
      .map(({ object, fibre, wavelength, direction, loss, setup, by }) =>
        JSON.stringify([object, fibre, wavelength, direction, loss, setup, by]),
      )
      .toSorted();
  expect(said(again)).toEqual(said(plan));
});
