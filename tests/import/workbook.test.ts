/** Workbooks as tables of readings: what their cells say, and which are refused. */
import { zipSync } from 'fflate';
import { describe, expect, it, vi } from 'vitest';
import writeWorkbook from 'write-excel-file/universal';
import { Cancelled } from '../../server/src/import/index.ts';
import { longWorkbook } from '../support/long-workbook.ts';
import { imported, plan, problems, run, single } from './berth-table.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

describe('a workbook', () => {
  const sheetOf = async () => {
    const data = [
      ['Berths, 2026'],
      ['Link', 'Fibre', 'Wavelength', 'Direction', 'Loss', 'Tested', 'Tester', 'Remark'],
      [
        'KQ-OPS-B3',
        1,
        850,
        'A>B',
        0.1 + 0.2,
        new Date(Date.UTC(2026, 2, 14, 9, 5)),
        'R. Vale',
        '=1+1',
      ],
      ['KQ-OPS-B3', '02', '850 nm', 'A - B', '0.98', '2026-03-14 09:05', 'R. Vale', null],
    ].map((row) =>
      row.map((value) =>
        value instanceof Date
          ? { value, format: 'yyyy-mm-dd hh:mm' }
          : { value: value ?? undefined },
      ),
    );
    const blob = await writeWorkbook([
      { sheet: 'Notes', data: [[{ value: 'nothing' }]] },
      { sheet: 'Loss', data },
    ]).toBlob();
    return new Uint8Array(await blob.arrayBuffer());
  };

  it('gives numbers as they are shown, dates to the minute, formulas as texts', async () => {
    const { text, left } = await imported(await sheetOf(), {
      ...single,
      sheet: 'Loss',
      heading: 2,
    });
    expect(left).toEqual([]);
    expect(text).toContain('tested      2026-03-14 09:05 by "R. Vale"');
    expect(text).toMatch(/^ {2}1 +0\.3 +"=1\+1"$/mu);
    expect(text).toMatch(/^ {2}2 +0\.98 +-$/mu);
  });

  it('is left before its rows are matched, where somebody stops it', async () => {
    const told: number[] = [];
    const stop = new AbortController();
    const report = (done: number) => {
      told.push(done);
      stop.abort();
    };
    const work = { signal: stop.signal, report };
    const bytes = await sheetOf();
    await expect(run(bytes, { ...single, sheet: 'Loss', heading: 2 }, plan, work)).rejects.toThrow(
      Cancelled,
    );
    // Three of a hundred: unpacked, not read.
    expect(told).toEqual([3]);
  });

  it('whose parser gives up on its many rows is refused with what to do', async () => {
    // The parser takes smaller steps, each a call deeper, while the clock says that they take long.
    let late = Date.now();
    const clock = vi.spyOn(Date, 'now').mockImplementation(() => {
      late += 20;
      return late;
    });
    try {
      expect(await problems(longWorkbook(30_000))).toEqual([
        'The workbook has more rows than can be read at once: split it, or save it as CSV.',
      ]);
    } finally {
      clock.mockRestore();
    }
  });

  it('with decimal commas in its texts is read with its numbers', async () => {
    const data = [
      ['Link', 'Fibre', 'Wavelength', 'Direction', 'Loss', 'Tested'],
      ['KQ-OPS-B3', 1, 850, 'A>B', 0.97, '2026-03-14'],
      ['KQ-OPS-B3', 2, 850, 'A>B', '0,98', '2026-03-14'],
      ['KQ-OPS-B3', 3, 850, 'A>B', '0.99', '2026-03-14'],
    ].map((row) => row.map((value) => ({ value })));
    const blob = await writeWorkbook([{ sheet: 'Loss', data }]).toBlob();
    const { by: _, remark: __, ...columns } = single.columns;
    const { text, left } = await imported(new Uint8Array(await blob.arrayBuffer()), {
      ...single,
      decimal: ',',
      columns,
    });
    expect(left).toEqual([{ row: 4, what: '"0.99" is no reading.' }]);
    expect(text).toMatch(/^ {2}1 +0\.97\n {2}2 +0\.98$/mu);
  });

  it('that would unpack without end is refused', async () => {
    const bomb = Buffer.from(zipSync({ 'xl/workbook.xml': new Uint8Array(1000) }));
    // What the directory at its end says of the size once unpacked.
    bomb.writeUInt32LE(300 << 20, bomb.indexOf('PK\u0001\u0002') + 24);
    expect((await problems(bomb))[0]).toMatch(/holds more than 256 MB unpacked/u);
  });

  it('says which sheets there are', async () => {
    const mapping = JSON.stringify({ ...single, sheet: 'Los' }, null, 2);
    expect(await problems(await sheetOf(), mapping)).toEqual([
      'line 20, column 12, sheet: there is no sheet Los in this workbook; it has Notes, Loss.',
    ]);
  });
});
