/** The field sheet: which readings it asks for, in which order, against which limits, with which set-up. */
import { describe, expect, test } from 'vitest';
import { plainDisplay } from '../../server/src/report/figures.ts';
import type { Block, Cell, Paper } from '../../server/src/report/paper/blocks.ts';
import { sheetPaper } from '../../server/src/report/sheet/paper.ts';
import { endInWords, partsOfPort } from '../../server/src/report/sheet/walk.ts';
import { openExample } from '../examples/open.ts';
import { judge } from '../support/judge.ts';

const site = `plan "Kestrel Quay: berths" {
  site        "Ferry terminal, Kestrel Quay"
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  both
  reference   one-cord
  uncertainty 0.15 dB
  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20
}

colours BLUE-FIRST {
  tubes       blue, orange
  fibres      blue, orange, green, brown, slate, white, red, black, yellow, violet, rose, aqua
}

cable C-1 {
  fibre       OM4
  count       12
  length      180 m
  colours     BLUE-FIRST
}

link KQ-B2 {
  from        OPS/R2/B:01..02
  to          B2/R1/A:01..02
  connector   LC
  segment     C-1 fibres 3..4
  connector   LC
}

link KQ-GATE {
  from        GATE/R1/A:01..02
  to          G1/R1/A:01..02
  connector   LC
  segment     90 m OM4
  connector   LC
}

link KQ-B1 {
  from        OPS/R2/A:10, OPS/R2/A:11
  to          B1/R1/A:01..02
  connector   LC
  segment     120 m OM4
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

readings KQ-B2 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
  1                0.97        0.99
  2                0.95        -
}
`;

function sheet(text = site): Paper {
  const { plan } = judge(text);
  return sheetPaper({ plan, display: plainDisplay, asOf: '2026-04-01', tool: 'linkwright' });
}

function textOf(cell: Cell): string {
  return typeof cell === 'string' ? cell : 'text' in cell ? cell.text : cell.says;
}

const tables = ({ blocks }: Paper) => blocks.filter((block) => block.kind === 'table');
const headings = ({ blocks }: Paper) =>
  blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));

function wordsOf(blocks: readonly Block[]): string {
  return blocks
    .flatMap((block) => {
      if (block.kind === 'text')
        return block.runs.map((run) => (typeof run === 'string' ? run : run.text));
      if (block.kind === 'facts') return block.rows.map(({ label, value }) => `${label}: ${value}`);
      return [];
    })
    .join('\n');
}

describe('the walk', () => {
  test('reads room, panel and position out of the names of ports', () => {
    expect(partsOfPort('OPS/R2/A:01')).toEqual({ room: 'OPS/R2', panel: 'A', position: '01' });
    expect(partsOfPort('CAM/14:02')).toEqual({ room: 'CAM', panel: '14', position: '02' });
    expect(partsOfPort('1531')).toEqual({ room: '1531', panel: '', position: '' });
    expect(endInWords(['OPS/R2/A:01', 'OPS/R2/A:02'])).toBe('OPS/R2, panel A, 01 to 02');
    expect(endInWords(['OPS/R2/A:01', 'B3/R1/A:02'])).toBe('OPS/R2/A:01 to B3/R1/A:02');
  });

  test('goes by rooms as the plan first names them, in a room by panels', () => {
    const [walk] = tables(sheet());
    expect(walk?.rows.map((row) => textOf(row[2]!))).toEqual(['KQ-B1', 'KQ-B2', 'KQ-GATE']);
    expect(walk?.rows.map((row) => textOf(row[4]!))).toEqual([
      '4 to test',
      '1 to test',
      '4 to test',
    ]);
  });

  test('ends where nothing is left to do', () => {
    const done = site
      .replace('0.95        -', '0.95        0.96')
      .replace(/link KQ-GATE \{[^}]*\}\n/u, '')
      .replace(/link KQ-B1 \{[^}]*\}\n/u, '');
    const paper = sheet(done);
    expect(wordsOf(paper.blocks)).toContain('has been made and still stands');
    expect(headings(paper)).toEqual(['Field sheet', 'Cautions']);
  });
});

describe('the page of a link', () => {
  test('shows what was read and leaves a blank for what was not', () => {
    const page = tables(sheet()).at(-2);
    expect(page?.columns.map(({ head }) => head)).toEqual([
      'fibre',
      'A',
      'B',
      'lies in',
      'A>B',
      'B>A',
      'remark',
    ]);
    const [first, second] = page?.rows ?? [];
    expect(first?.map(textOf)).toEqual([
      '1',
      'OPS/R2/B:01',
      'B2/R1/A:01',
      'C-1 3, green',
      '0.97',
      '0.99',
      '',
    ]);
    expect(second?.[5]).toEqual({ text: '', look: 'quiet', blank: true });
  });

  // By hand: 3.0 dB/km × 0.18 km + 2 × 0.75 dB = 2.04 dB (TIA-568.3-E, one-cord, both ends counted);
  // less U = 0.15 dB: 1.89 dB.
  test('prints the limit for the method in use, and from where a result is marginal', () => {
    const words = wordsOf(sheet().blocks);
    expect(words).toContain('850 nm  limit 2.04 dB');
    expect(words).toContain('marginal above 1.89');
    expect(words).toContain('End A: OPS/R2, panel B, 01 to 02');
    expect(words).toContain('A>B: source at end A, meter at end B');
  });

  test('says what a reading that no longer counts needs, and keeps its figure', () => {
    const aged = `${site}\nwork KQ-B2 {\n  done        cleaned\n  fibres      1\n  on          2026-03-20 10:00\n}\n`;
    const page = tables(sheet(aged)).at(-2);
    expect(page?.rows[0]?.[4]).toEqual({ text: '0.97 stale', look: 'quiet', blank: true });
  });
});

describe('the set-up', () => {
  test('names the cords by plug and fibre, the reference by its steps, and a set-up of the plan that fits', () => {
    const { blocks } = sheet();
    const listed = blocks.flatMap((block) =>
      block.kind === 'list' ? block.items.map((runs) => runs.join('')) : [],
    );
    expect(listed).toContain('Launch cord: plugs LC, fibre OM4');
    expect(listed).toContain('Receive cord: plugs LC, fibre OM4');
    expect(listed.some((each) => each.includes('this is the reference; it holds no joint'))).toBe(
      true,
    );
    expect(wordsOf(blocks)).toContain('MM-1: source S-3; meter M-5');
    expect(headings(sheet()).filter((each) => each.startsWith('Set-up'))).toEqual(['Set-up 1']);
  });

  test.each([
    ['two-cord', 'it holds one joint'],
    ['three-cord', 'it holds two joints'],
  ])('follows the method: %s', (method, words) => {
    const { blocks } = sheet(site.replaceAll('one-cord', method));
    const steps = blocks.flatMap((block) =>
      block.kind === 'list' && block.numbered ? block.items.map((runs) => runs.join('')) : [],
    );
    expect(steps.join('\n')).toContain(words);
  });

  test('says the usual cautions', () => {
    const cautions = sheet()
      .blocks.filter((block) => block.kind === 'list')
      .at(-1);
    const words = cautions?.items.flat().join(' ');
    for (const said of ['Never look into a fibre', 'shards', 'live', 'licensed practice decide']) {
      expect(words).toContain(said);
    }
  });
});

test.each([
  'arrays',
  'splitter-network',
  'ring',
  'outside-plant',
  'shipboard',
  'legacy',
  'machine-hall',
  'wavelengths',
])('a sheet of the example %s asks for every reading that is missing or void', (example) => {
  for (const plan of openExample(example).plans) {
    const paper = sheetPaper({
      plan,
      display: plainDisplay,
      asOf: '2026-04-01',
      tool: 'linkwright',
    });
    const blanks = tables(paper)
      .filter(({ columns }) => columns.at(-1)?.head === 'remark')
      .flatMap(({ rows }) => rows.flat())
      .filter((cell) => typeof cell !== 'string' && 'blank' in cell && cell.blank).length;
    const { untested, invalid, stale } = plan.result.totals.counts;
    expect(blanks).toBe(untested + invalid + stale);
  }
});
