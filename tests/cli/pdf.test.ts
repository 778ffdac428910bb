/** Sheets and records as PDF, read back with a reader library: real text in any of three scripts, the font inside, draft on every page. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { extractText, getDocumentProxy } from 'unpdf';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root } from '../../client/build/paths.ts';
import { Folder } from './run.ts';

const plan = `plan "Πύλη 3, причал é" {
  site        "埠頭 quay"
  revision    "A" on 2026-03-01
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20
}

link KQ-1 "Quay" {
  from        OPS/R2/A:01..60
  to          B1/R1/A:01..60
  connector   LC
  segment     180 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
${Array.from({ length: 60 }, (_, index) => `  ${index + 1}                ${(0.9 + ((index * 31) % 61) / 250).toFixed(2)}`).join('\n')}
}
`;

const folder = new Folder({ 'plan.lwl': plan });
const asOf = ['--as-of', '2026-04-01'];

async function read(name: string) {
  const bytes = new Uint8Array(readFileSync(join(folder.path, name)));
  const raw = Buffer.from(bytes).toString('latin1');
  const document = await getDocumentProxy(bytes);
  const { text: pages } = await extractText(document, { mergePages: false });
  const { width = 0, height = 0 } = (await document.getPage(1)).getViewport({ scale: 1 });
  return { raw, pages, all: pages.join('\n'), size: [Math.round(width), Math.round(height)] };
}

beforeAll(() => {
  for (const [command, ...words] of [
    ['sheet', '--link', 'KQ-1', '--out', 'sheet.pdf'],
    ['sheet', '--link', 'KQ-1', '--page', 'Letter', '--out', 'letter.pdf'],
    ['record', '--out', 'draft.pdf'],
    ['record', '--issue', '--out', 'issued.pdf'],
  ] as const) {
    expect(folder.run(command, '.', ...asOf, ...words)).toEqual({ code: 0, out: '', error: '' });
  }
}, 120_000);

afterAll(() => folder.remove());

describe('a PDF', () => {
  it('holds words and figures as text, in Latin, Greek and Cyrillic', async () => {
    const { all } = await read('issued.pdf');
    for (const words of [
      'Πύλη 3, причал é',
      'KQ-1',
      '0.97',
      '2.04',
      'OPS/R2/A:17',
      'R. Vale',
      'S-3, LED',
    ]) {
      expect(all).toContain(words);
    }
  });

  it('carries its font, and runs and opens nothing', async () => {
    const { raw } = await read('draft.pdf');
    expect(raw).toContain('DejaVuSansCondensed');
    expect(raw.match(/\/FontFile2/gu)?.length).toBeGreaterThanOrEqual(2);
    expect(raw).not.toMatch(/\/JavaScript|\/JS |\/OpenAction|\/Launch|\/URI/u);
  });

  it('says what its font cannot draw, in place of dropping it', async () => {
    const { all } = await read('issued.pdf');
    expect(all).toContain('□□ quay');
    expect(all).toContain('U+57E0 U+982D');
  });

  it('says draft on every page of a draft, and on none of an issued record', async () => {
    const draft = await read('draft.pdf');
    expect(draft.pages.length).toBeGreaterThan(2);
    for (const page of draft.pages) expect(page).toMatch(/Draft/u);
    const issued = await read('issued.pdf');
    expect(issued.all).toContain('Issued');
    expect(issued.all).not.toContain('Draft');
    for (const [index, page] of issued.pages.entries()) {
      expect(page).toContain(`page ${index + 1} of ${issued.pages.length}`);
    }
  });

  it('repeats the head of a table on the page where it goes on', async () => {
    const { pages } = await read('issued.pdf');
    const told = pages.filter((page) => /OPS\/R2\/A:\d\d/u.test(page) && page.includes('verdict'));
    expect(told.length).toBeGreaterThanOrEqual(2);
  });

  it('is set for A4 or for Letter', async () => {
    expect((await read('sheet.pdf')).size).toEqual([595, 842]);
    const letter = await read('letter.pdf');
    expect(letter.size).toEqual([612, 792]);
    expect(letter.all).toContain('Never look into a fibre');
  });

  it.each(['ring', 'splitter-network'])('draws the %s', async (example) => {
    const source = join(root, 'examples', example);
    const out = `${example}.pdf`;
    expect(folder.run('record', source, ...asOf, '--out', out)).toEqual({
      code: 0,
      out: '',
      error: '',
    });
    const { all } = await read(out);
    expect(all).toContain(example === 'ring' ? 'Ways round the ring' : 'Ends of the tree');
  });

  it('is held against its plan like any other record', () => {
    expect(folder.run('record', '.', '--verify', 'issued.pdf')).toMatchObject({ code: 0 });
    expect(folder.run('record', '.', '--verify', 'draft.pdf')).toMatchObject({ code: 1 });
  });
});
