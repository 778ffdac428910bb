/** `linkwright record`: drafts, issuing and its refusal, and whether a plan is still that of a record. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { Folder } from './run.ts';

const title = 'Quay <script>alert(1)</script> & Πύλη, причал';

const plan = `plan "${title}" {
  site        "\\"><img src=x onerror=alert(2)>"
  revision    "A" on 2026-03-01
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20
}

include "sub/readings.lwl"

link KQ-1 "=HYPERLINK(1)" {
  from        OPS/R2/A:01..02
  to          B1/R1/A:01..02
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
`;

const readings = (second: string) => `readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                0.97
  2                ${second}
}
`;

let folder: Folder;

afterEach(() => folder.remove());

const asOf = ['--as-of', '2026-04-01'];
const files = (second = '1.02') => ({ 'plan.lwl': plan, 'sub/readings.lwl': readings(second) });
const text = (name: string) => readFileSync(join(folder.path, name), 'utf8');

describe('a draft', () => {
  it('is what comes out unless it is to be issued, and says so', () => {
    folder = new Folder(files('-'));
    const { code, out, error } = folder.run('record', 'plan.lwl', ...asOf);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toContain('<strong>Draft</strong>');
    expect(out).toContain('@top-right { content: "Draft"');
    expect(out).toContain('KQ-1: 1 reading untested');
    expect(out).not.toMatch(/<script|<img|<link|@import|url\(/u);
  });

  it('takes its form from the name of the file', () => {
    folder = new Folder(files());
    expect(folder.run('record', '.', ...asOf, '--out', 'a.csv').code).toBe(0);
    expect(folder.run('record', '.', ...asOf, '--out', 'a.json').code).toBe(0);
    expect(text('a.csv')).toContain("KQ-1,'=HYPERLINK(1),1,OPS/R2/A:01,B1/R1/A:01,");
    expect(JSON.parse(text('a.json'))).toMatchObject({ state: 'draft', job: { revision: 'A' } });
    expect(readdirSync(folder.path).sort()).toEqual(['a.csv', 'a.json', 'plan.lwl', 'sub']);
  });
});

describe('the fingerprint of a plan', () => {
  it('is that of its record, from wherever its results are asked', () => {
    folder = new Folder({ 'quay/plan.lwl': plan, 'quay/sub/readings.lwl': readings('1.02') });
    folder.run('record', 'quay', ...asOf, '--out', 'r.json');
    const { results } = JSON.parse(text('r.json'));
    for (const [name, where] of [
      ['here.json', 'quay'],
      ['file.json', 'quay/plan.lwl'],
      ['whole.json', join(folder.path, 'quay')],
    ] as const) {
      folder.run('results', where, ...asOf, '--format', 'json', '--out', name);
      const { plan: of } = JSON.parse(text(name));
      expect(of.fingerprint).toBe(results.plan.fingerprint);
      expect(of.files).toEqual(['quay/plan.lwl', 'quay/sub/readings.lwl']);
    }
  });
});

describe('issuing', () => {
  it('is refused while something is missing: it is listed, nothing is written', () => {
    folder = new Folder(files('-'));
    const { code, out, error } = folder.run('record', '.', ...asOf, '--issue', '--out', 'r.html');
    expect(code).toBe(1);
    expect(out).toBe('KQ-1: 1 reading untested\n');
    expect(error).toBe('The record is not issued: 1 thing is missing. Nothing was written.\n');
    expect(readdirSync(folder.path)).not.toContain('r.html');
  });

  it('leaves the record that stands there as it was, where a new one cannot be issued', () => {
    folder = new Folder({ ...files('-'), 'r.html': 'before' });
    folder.run('record', '.', ...asOf, '--issue', '--out', 'r.html');
    expect(text('r.html')).toBe('before');
  });

  it('says so on the record, which is no draft then', () => {
    folder = new Folder(files());
    expect(folder.run('record', '.', ...asOf, '--issue', '--out', 'r.html')).toMatchObject({
      code: 0,
      out: '',
      error: '',
    });
    expect(text('r.html')).toContain('<strong>Issued</strong><p>2026-04-01</p>');
    expect(text('r.html')).not.toContain('Draft');
  });
});

describe('holding a plan against its record', () => {
  it.each(['html', 'json', 'csv', 'xlsx'])('finds the same plan the same, from %s', (format) => {
    folder = new Folder(files());
    folder.run('record', '.', ...asOf, '--issue', '--out', `r.${format}`);
    const { code, out } = folder.run('record', 'plan.lwl', '--verify', `r.${format}`);
    expect(out).toContain('It was issued on 2026-04-01');
    expect(out).toContain('Plan and evidence are those of this record.\n');
    expect(code).toBe(0);
  });

  it.each(['html', 'json', 'csv', 'xlsx'])(
    'notices one changed digit of evidence, from %s',
    (format) => {
      folder = new Folder(files());
      folder.run('record', '.', ...asOf, '--issue', '--out', `r.${format}`);
      writeFileSync(join(folder.path, 'sub/readings.lwl'), readings('1.01'));
      const { code, out } = folder.run('record', '.', '--verify', `r.${format}`);
      expect(out).toContain('Plan and evidence are no longer those of this record.\n');
      if (format !== 'csv') expect(out).toContain('changed: sub/readings.lwl\n');
      expect(code).toBe(1);
    },
  );

  it('accepts nothing by a draft, and reads no record out of another file', () => {
    folder = new Folder({ ...files(), 'note.txt': 'no record' });
    folder.run('record', '.', ...asOf, '--out', 'r.html');
    const draft = folder.run('record', '.', '--verify', 'r.html');
    expect(draft.code).toBe(1);
    expect(draft.out).toContain('A draft accepts nothing.');
    expect(folder.run('record', '.', '--verify', 'note.txt')).toMatchObject({ code: 2, out: '' });
    expect(folder.run('record', '.', '--verify', 'none.txt')).toMatchObject({ code: 2, out: '' });
  });
});
