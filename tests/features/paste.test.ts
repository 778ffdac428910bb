/** Readings copied from a spreadsheet find their rows and columns; what is there already stays. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Pasted, pasteReadings } from '../../server/src/features/entry/paste.ts';
import { answer, applyEdits, ask } from '../support/ask.ts';

const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const cursor = (text: string) => ask(text.replace('KQ-OPS-B3 "', '$0KQ-OPS-B3 "'));
const untested = example.slice(0, example.indexOf('readings KQ'));
const rows = example.slice(example.indexOf('  1   '));
/** The example laid out and not typed yet. */
const open = example.replace(/(\d\.\d\d)(?=\s)(?=[^"]*\}\n$)/gu, (digits) => digits && '-');

function paste(text: string, copied: string): { text: string; left: readonly string[] } {
  const asked = cursor(text);
  const pasted: Pasted = answer(pasteReadings, asked, { text: copied, now: '2026-03-14 09:21' });
  if ('because' in pasted) return { text: asked.text, left: [pasted.because] };
  return { text: applyEdits(asked.text, pasted.edits), left: pasted.left };
}

const values = [
  ['1', '0,97', '0,99', '0,66', '0,64'],
  ['2', '1,08', '1,05', '0,77', '0,79'],
  ['3', '0,93', '0,96', '0,61', '0,63'],
  ['4', '1,02', '1,01', '0,70', '0,72'],
];
const cells = (part: (row: readonly string[]) => readonly string[]) =>
  values.map((row) => part(row).join('\t')).join('\r\n');

describe('a block of cells', () => {
  it('stands laid out in this test', () => {
    expect(open.match(/ -(?=\s)/gu)).toHaveLength(16);
  });

  it('with a column of fibres goes into the rows of those fibres', () => {
    expect(
      paste(
        open,
        cells((row) => row),
      ),
    ).toEqual({ text: example, left: [] });
    expect(
      paste(
        open,
        values
          .toReversed()
          .map((row) => row.join('\t'))
          .join('\n'),
      ).text,
    ).toBe(example);
  });

  it('may be headed with the direction first', () => {
    expect(paste(open, 'Port\tB-A 850\n1\t0.99').text).toMatch(/^ {2}1 +- +0\.99 +- +-$/mu);
  });

  it('may name the unit of its column, and is written without', () => {
    expect(
      paste(
        open,
        cells((row) => row.map((cell, at) => (at === 0 ? cell : `${cell} dB`))),
      ).text,
    ).toBe(example);
  });

  it('with a value far from the others is questioned', () => {
    const pasted: Pasted = answer(pasteReadings, cursor(open), {
      text: cells((row) => row).replace('1,02', '10,2'),
      now: '2026-03-14 09:21',
    });
    expect('doubts' in pasted && pasted.doubts.join(' ')).toMatch(
      /fibre 4, 850 nm A>B: 10\.20 dB, and the median of 3 other fibres is 0\.97 dB/u,
    );
  });

  it.each([
    ['rows laid out', open],
    ['no rows yet', untested],
  ])('with a value that cannot be is questioned before it is written: %s', (_, text) => {
    const copied = '1\t0,97\t0,99\n3\t-0,93\t0,96';
    const pasted: Pasted = answer(pasteReadings, cursor(text), {
      text: copied,
      now: '2026-03-14 09:21',
    });
    expect('doubts' in pasted && pasted.doubts.join(' ')).toContain('more light arrived');
    const sound: Pasted = answer(pasteReadings, cursor(text), {
      text: copied.replace('-', ''),
      now: '2026-03-14 09:21',
    });
    expect('doubts' in sound && sound.doubts).toEqual([]);
  });

  it('without one goes in order', () => {
    expect(
      paste(
        open,
        cells((row) => row.slice(1)),
      ),
    ).toEqual({ text: example, left: [] });
  });

  it('goes by its headings where it has some, and says which columns it leaves out', () => {
    const heads = ['Fibre', '1300 nm A to B', 'Tester', '850 nm (B-A)', '1300nm B>A', '850 AB'];
    const copied = values.map(([fibre, a, b, c, d]) => [fibre, c, 'R. Vale', b, d, a].join('\t'));
    const { text, left } = paste(open, [heads.join('\t'), ...copied].join('\n'));
    expect(text).toBe(example);
    expect(left).toEqual(['Column "Tester" is left out.']);
  });

  it('with empty cells leaves those to be typed', () => {
    const { text } = paste(open, '1\t0,97\t\t0,66\n\n3\t\t0,96');
    expect(text).toMatch(/^ {2}1 +0\.97 +- +0\.66 +-$/mu);
    expect(text).toMatch(/^ {2}3 +- +0\.96 +- +-$/mu);
  });

  it('makes a block of its own where nothing is laid out', () => {
    const { text } = paste(
      untested,
      cells((row) => row),
    );
    expect(text).toContain(rows.trimEnd());
    expect(text).toContain('tested      2026-03-14 09:21');
  });
});

describe('nothing is overwritten and nothing is lost silently', () => {
  it('a reading that is there stays, and is said', () => {
    const some = open.replace(/^( {2}1 {16})- /mu, '$10.50');
    const { text, left } = paste(
      some,
      cells((row) => row),
    );
    expect(text).toMatch(/^ {2}1 +0\.50 +0\.99/mu);
    expect(left).toEqual(['fibre 1 at 850 nm A>B has a reading already, which stays.']);
  });

  it.each([
    [
      'a fibre the link has not',
      '9\t0,97\t0,99\t0,66\t0,64\n1\t0,97\t0,99\t0,66\t0,64',
      /no fibre 9/u,
    ],
    [
      'a power where losses stand',
      '1\t0,97\t-21.1 dBm\t0,66\t0,64',
      /"-21\.1 dBm" is no loss in dB/u,
    ],
    ['a cell that is no number', '1\t0,97\tn.a.\t0,66\t0,64', /"n\.a\." is no reading/u],
    ['cells that commas part', '1,0.97,0.99', /is no reading\. Tabs or semicolons part the cells/u],
    ['a heading without its direction', 'Fibre\t850 nm\n1\t0,97', /says no direction/u],
    ['a wavelength nobody wants', 'Fibre\t1550 nm A>B\n1\t0,97', /no such reading/u],
    ['more rows than fibres', '0,9\n0,9\n0,9\n0,9\n0,9', /one more than there are fibres/u],
    ['an empty clipboard', ' \n', /^Nothing was copied/u],
    ['prose', 'dear all', /^"dear all" holds no reading\. Copy the cells/u],
  ])('%s is said', (_, copied, pattern) => {
    expect(paste(open, copied).left.join('\n')).toMatch(pattern);
  });

  it('with every reading there, says so', () => {
    expect(
      paste(
        example,
        cells((row) => row),
      ).left.join(),
    ).toMatch(/no reading that is missing/u);
  });
});
