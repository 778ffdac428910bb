/** Mappings of columns: what is wrong with one is told at its place, and its published schema says the same. */
import { Ajv } from 'ajv';
import { describe, expect, it, vi } from 'vitest';
import { mappingJsonSchema } from '../../server/src/import/mapping.ts';
import { problems, rows, single } from './berth-table.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

describe('a mapping that is wrong', () => {
  it.each([
    ['{ "values": ', /^line 1, column 13: this is no JSON/u],
    [
      { ...single, colour: 'red' },
      /^line 20, column 13, colour: nothing is called so here; known are/u,
    ],
    [{ ...single, decimal: ';' }, /^line 20, column 14, decimal: one of "\.", "," is wanted/u],
    [
      { ...single, values: { ...single.values, unit: 'dBm' } },
      /^line 4, column 13, values\.unit: loss is said in dB/u,
    ],
    [
      { ...single, columns: { ...single.columns, fibre: undefined } },
      /^line 7, column 14, columns: either fibre or end/u,
    ],
    [
      { ...single, columns: { ...single.columns, setup: undefined } },
      /^line 7, column 14, columns\.setup: .*is (?:wanted|missing)/u,
    ],
    [
      { ...single, columns: { ...single.columns, value: 'loss at 850' } },
      /^line \d+, column \d+, columns\.value: no column is headed "loss at 850"; there are "Link", "Fibre"/u,
    ],
    [
      { ...single, columns: { ...single.columns, value: { at: 12 } } },
      /^line \d+, column \d+, columns\.value: the table has 8 columns/u,
    ],
    [
      { ...single, columns: { ...single.columns, by: { row: 1 } } },
      /^line \d+, column \d+, columns\.by: the heading of a column, \{ "at"/u,
    ],
  ])('is told at its place: %j', async (mapping, sentence) => {
    expect((await problems(rows, mapping))[0]).toMatch(sentence);
  });
});

describe('the published schema of mappings', () => {
  const valid = new Ajv({ strict: false }).compile(mappingJsonSchema());

  it('takes what the tool takes', () => {
    expect(valid(JSON.parse(JSON.stringify(single)))).toBe(true);
  });

  it.each([
    { ...single, colour: 'red' },
    { ...single, decimal: ';' },
    { ...single, values: { what: 'loss' } },
    { ...single, columns: { ...single.columns, by: { row: 1 } } },
    { ...single, columns: { ...single.columns, tested: undefined } },
  ])('refuses what the tool refuses: %j', async (mapping) => {
    expect(valid(JSON.parse(JSON.stringify(mapping)))).toBe(false);
    expect(await problems(rows, mapping)).not.toEqual(['none']);
  });
});
