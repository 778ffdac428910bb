/** What an editor is told of a table before and after its columns are said. */
import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { lookAtTable, type TableLook } from '../../server/src/features/import/look.ts';
import { type ImportParams, importReadings } from '../../server/src/features/import/read.ts';
import { unwatched } from '../../server/src/import/index.ts';
import { answer, applyEdits, ask } from '../support/ask.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const plan = example.slice(0, example.indexOf('readings KQ'));

const asBase64 = (text: string) => Buffer.from(text).toString('base64');

async function look(table: string): Promise<Exclude<TableLook, { because: string }>> {
  const asked = ask(plan);
  const seen = await answer(lookAtTable, asked, { uri: asked.uri, base64: asBase64(table) });
  if ('because' in seen) throw new Error(seen.because);
  return seen;
}

describe('a first look at a table', () => {
  it('guesses a column for each wavelength and direction, below a title', async () => {
    const seen = await look(
      'Berth 3; 14 March\n\nCable;Fibre no.;850 nm A to B;850nm (B-A);Date;Tester;Notes\nKQ-OPS-B3;1;-0,97;-0,99;14.03.2026 09:05;R. Vale;\n',
    );
    expect(seen.mapping).toEqual({
      separator: ';',
      heading: 3,
      decimal: ',',
      dates: 'day-month-year',
      values: { what: 'loss', unit: 'dB', sign: 'negative' },
      columns: {
        link: 'Cable',
        fibre: 'Fibre no.',
        setup: { always: 'MM-1' },
        tested: 'Date',
        by: 'Tester',
        remark: 'Notes',
        readings: [
          { column: '850 nm A to B', wavelength: 850, direction: 'A>B' },
          { column: '850nm (B-A)', wavelength: 850, direction: 'B>A' },
        ],
      },
    });
    expect(seen).toMatchObject({ rows: 1, sheets: [], objects: ['KQ-OPS-B3'], setups: ['MM-1'] });
    expect(seen.examples[1]).toEqual(['1']);
  });

  it('takes a column of lengths where its heading says the unit, and the port light came out at', async () => {
    const table = (heading: string) =>
      `Fibre,850 nm,${heading},Seen at,Date\n1,0.97,181,B3/R1/A:01,2026-03-14\n`;
    const { mapping } = await look(table('Length (m)'));
    expect(mapping).toMatchObject({
      lengths: 'm',
      columns: { length: 'Length (m)', seen: 'Seen at' },
    });
    expect((await look(table('length in ft'))).mapping.lengths).toBe('ft');
    const unsaid = await look(table('Length'));
    expect(unsaid.mapping.columns).not.toHaveProperty('length');
    expect(unsaid.mapping).not.toHaveProperty('lengths');
  });

  it('guesses one reading a row, and the link where the plan has one', async () => {
    const { mapping } = await look(
      'Core\tWavelength\tDirection\tPower (dBm)\tMeasured\n1\t850\tout\t-21.02\t2026-03-14\n',
    );
    expect(mapping).toEqual({
      separator: 'tab',
      values: { what: 'power', unit: 'dBm', sign: 'positive' },
      columns: {
        link: { always: 'KQ-OPS-B3' },
        fibre: 'Core',
        setup: { always: 'MM-1' },
        tested: 'Measured',
        wavelength: 'Wavelength',
        direction: 'Direction',
        value: 'Power (dBm)',
      },
    });
  });

  it.each([
    ['Core;850 nm A>B\n1;0,97\n', ';'],
    ['Core,850 nm A>B\n1,0.97\n', undefined],
    ['Core|Notes\n1|"a, b"\n2|c, d\n', '|'],
    ['Core\n1\n', undefined],
  ])('sees what parts the cells of %j', async (table, separator) => {
    const { mapping, headings } = await look(table);
    expect([mapping.separator, headings[0]]).toEqual([separator, 'Core']);
  });

  it('says what is no table', async () => {
    const asked = ask(plan);
    const bytes = Buffer.from([0xd0, 0xcf, 0x11, 0xe0]).toString('base64');
    expect(await answer(lookAtTable, asked, { uri: asked.uri, base64: bytes })).toEqual({
      because: expect.stringMatching(/older form/u),
    });
  });
});

describe('reading all of it', () => {
  const table = 'Fibre,850 A>B,Date\n1,0.97,2026-03-14\n9,0.97,2026-03-14\n';

  it('gives an edit behind the open text, with the lines that it has', async () => {
    const text = `${plan.trimEnd()}\n\n\n`.replaceAll('\n', '\r\n');
    const asked = ask(text);
    const { mapping } = await look(table);
    const params: ImportParams = {
      uri: asked.uri,
      name: 'berths.csv',
      base64: asBase64(table),
      mapping: JSON.stringify(mapping),
    };
    const found = await answer(importReadings, asked, params);
    if ('problems' in found) throw new Error(found.problems.join('\n'));
    expect(found).toMatchObject({
      readings: 1,
      blocks: 1,
      rows: 2,
      left: { count: 1, first: [{ row: 3, what: 'KQ-OPS-B3 has no fibre "9".' }] },
      duplicates: { count: 0, first: [] },
    });
    const whole = applyEdits(text, [found.edit]);
    expect(whole).toMatch(/\}\r\n\r\nreadings KQ-OPS-B3 \{\r\n/u);
    expect(whole).toMatch(/ {2}1 +0\.97\r\n\}\r\n$/u);
  });

  it('stops where the editor says so', async () => {
    const asked = ask(plan);
    const { mapping } = await look(table);
    const params = {
      uri: asked.uri,
      name: 'berths.csv',
      base64: asBase64(table),
      mapping: JSON.stringify(mapping),
    };
    const stopped = { ...unwatched, signal: AbortSignal.abort() };
    expect(await importReadings.answer(asked.session, params, stopped)).toEqual({
      problems: ['Stopped; nothing was written.'],
    });
  });
});
