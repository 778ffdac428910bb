/** Files that are no table, each refused in a sentence. */
import { describe, expect, it, vi } from 'vitest';
import { heads, problems, rows } from './berth-table.ts';

// Readers of tables are loaded with the first of them.
vi.setConfig({ testTimeout: 30_000 });

describe('a file that is no table', () => {
  it.each([
    [Buffer.from(rows, 'utf16le'), /neither a text|encoding/u],
    [Buffer.from(`\uFEFF${rows}`, 'utf16le'), /UTF-16\. Save it as CSV in UTF-8/u],
    [Buffer.from(`${rows}KQ,é`, 'latin1'), /another encoding than UTF-8/u],
    [Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0, 0]), /older form/u],
    [Buffer.from('PK\u0003\u0004 and nothing'), /workbook cannot be read/u],
    [Buffer.from('a,"b\n1,2'), /no CSV as the mapping says/u],
    [Buffer.from(heads), /no rows below its headings/u],
    [Buffer.alloc(0), /no rows below its headings/u],
  ])('says so in a sentence (%#)', async (bytes, sentence) => {
    expect((await problems(new Uint8Array(bytes)))[0]).toMatch(sentence);
  });
});
