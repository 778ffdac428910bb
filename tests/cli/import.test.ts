/** `import` as people run it: listed, counted, written whole, and never twice. */
import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dist } from '../../client/build/paths.ts';
import { longWorkbook } from '../support/long-workbook.ts';
import { Folder, runWith } from './run.ts';

const example = readFileSync('examples/first-link/first-link.lwl', 'utf8');
const plan = example
  .slice(0, example.indexOf('readings KQ'))
  .replace('\n\nlink', '\n\ninclude "berths.lwl"\n\nlink');
const mapping = JSON.stringify({
  values: { what: 'loss', unit: 'dB', sign: 'positive' },
  columns: {
    link: 'link',
    fibre: 'fibre',
    setup: { always: 'MM-1' },
    tested: { always: '2026-03-14 09:05' },
    readings: [
      { column: '850 A>B', wavelength: 850, direction: 'A>B' },
      { column: '850 B>A', wavelength: 850, direction: 'B>A' },
    ],
  },
});
const table = `link,fibre,850 A>B,850 B>A
KQ-OPS-B3,1,0.97,0.99
KQ-OPS-B3,2,1.08,
`;

let folder: Folder;
beforeEach(() => {
  folder = new Folder({
    'plan.lwl': plan,
    'berths.lwl': '# Readings of the berths\n',
    'berths.csv': table,
    'berths.json': mapping,
    'empty.json': '{}',
    'other.json': mapping.replace('"link":"link"', '"link":"object"'),
  });
});
afterEach(() => folder.remove());

const run = (...more: string[]) =>
  folder.run('import', 'berths.csv', '--mapping', 'berths.json', '--into', 'berths.lwl', ...more);
const written = () => readFileSync(join(folder.path, 'berths.lwl'), 'utf8');

describe('import', () => {
  it('writes readings behind what stands in the file, and says how many', () => {
    expect(run()).toEqual({
      code: 0,
      out: '',
      error: '3 readings of 2 rows written into berths.lwl, in 1 block.\n',
    });
    expect(written()).toMatch(/^# Readings of the berths\n\nreadings KQ-OPS-B3 \{\n/u);
    expect(folder.run('check', '--as-of', '2026-03-15').error).not.toContain('error');
    expect(folder.run('format', '--check', 'berths.lwl')).toMatchObject({ code: 0 });
    expect(readdirSync(folder.path)).toHaveLength(6);
  });

  it('says of a workbook that no memory holds what to do, and leaves the plan', () => {
    writeFileSync(join(folder.path, 'berths.xlsx'), longWorkbook(400_000));
    const words = ['--mapping', 'berths.json', '--into', 'berths.lwl'];
    const little = { NODE_OPTIONS: '--max-old-space-size=64' };
    const before = written();
    expect(runWith(little, folder.path, 'import', 'berths.xlsx', ...words)).toMatchObject({
      code: 2,
      error: expect.stringContaining(
        'berths.xlsx: The workbook takes more memory than there is to read it at once: split it, or save it as CSV.',
      ),
    });
    expect(written()).toBe(before);
  });

  it('writes nothing where it is only asked what it would do', () => {
    expect(run('--dry-run')).toMatchObject({
      code: 0,
      error: '3 readings of 2 rows would be written into berths.lwl, in 1 block.\n',
    });
    expect(written()).toBe('# Readings of the berths\n');
  });

  it('writes nothing twice', () => {
    run();
    const once = written();
    expect(run()).toEqual({
      code: 0,
      out: [
        'row 2: duplicate: KQ-OPS-B3 fibre 1 at 850 nm A>B, 0.97, stands in the plan already.\n',
        'row 2: duplicate: KQ-OPS-B3 fibre 1 at 850 nm B>A, 0.99, stands in the plan already.\n',
        'row 3: duplicate: KQ-OPS-B3 fibre 2 at 850 nm A>B, 1.08, stands in the plan already.\n',
      ].join(''),
      error: 'Nothing new in 2 rows; berths.lwl stays as it is. 3 duplicates not written again.\n',
    });
    expect(written()).toBe(once);
  });

  it('takes what fits, lists the rest by row, and ends with 1', () => {
    folder.remove();
    folder = new Folder({
      'plan.lwl': plan,
      'berths.lwl': '',
      'berths.csv': `${table}KQ-OPS-B9,1,0.9,0.9\nKQ-OPS-B3,3,0.93,low\n`,
      'berths.json': mapping,
    });
    expect(run()).toEqual({
      code: 1,
      out: 'row 4: not taken: the plan has no link "KQ-OPS-B9".\nrow 5: not taken: 850 nm B>A: "low" is no reading.\n',
      error:
        '4 readings of 4 rows written into berths.lwl, in 1 block. 2 things not taken, listed above.\n',
    });
    expect(written()).toMatch(/^ {2}3 +0\.93 +-$/mu);
  });

  it.each([
    [['--mapping', 'none.json'], /Cannot read none\.json/u],
    [['--mapping', 'berths.csv'], /berths\.csv: line 1, column 1: this is no JSON/u],
    [['--mapping', 'empty.json'], /^empty\.json: line 1, column 1, values: this is missing/mu],
    [['--mapping', 'other.json'], /^other\.json: line 1, column \d+, columns\.link: /mu],
    [['--into', 'none.lwl'], /Cannot read none\.lwl/u],
    [['--into', 'berths.csv'], /berths\.csv is part of no plan with links/u],
  ])('cannot run with %j, and says why', (words, sentence) => {
    const ran = run(...words);
    expect([ran.code, ran.out]).toEqual([2, '']);
    expect(ran.error).toMatch(sentence);
    expect(written()).toBe('# Readings of the berths\n');
  });

  it('ends with 2 where it is not told what the columns mean', () => {
    expect(folder.run('import', 'berths.csv', '--into', 'berths.lwl')).toMatchObject({ code: 2 });
  });

  it('leaves the old file or the new one, whenever it is killed', async () => {
    const whole = '# Readings of the berths\n';
    run();
    const after = written();
    for (const delay of [100, 300, 500, 600, 700, 800, 1000]) {
      folder.remove();
      folder = new Folder({
        'plan.lwl': plan,
        'berths.lwl': whole,
        'berths.csv': table,
        'berths.json': mapping,
      });
      const words = ['import', 'berths.csv', '--mapping', 'berths.json', '--into', 'berths.lwl'];
      const child = spawn(process.execPath, [join(dist, 'linkwright.cjs'), ...words], {
        cwd: folder.path,
        stdio: 'ignore',
      });
      const ended = new Promise((done) => child.on('exit', done));
      await new Promise((done) => setTimeout(done, delay));
      child.kill('SIGKILL');
      await ended;
      expect([whole, after]).toContain(written());
    }
  }, 60_000);
});
