/** `check --since` and a record held against its plan: what a gate and an inspector rely on. */

import { readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020.js';
import { afterEach, describe, expect, it } from 'vitest';
import { comparedWithRecord, recordAt } from '../../server/src/cli/compare-record.ts';
import { recordFormats } from '../../server/src/cli/formats/changes/since-record.ts';
import { github } from '../../server/src/cli/formats/github.ts';
import { sarif } from '../../server/src/cli/formats/sarif.ts';
import { parseInstant } from '../../server/src/project/instant.ts';
import { MadeRepository, removeAll } from '../git/made.ts';
import { asOf, plan, readings, whole } from './compared-plan.ts';
import { Folder, runIn } from './run.ts';

let folder: Folder | undefined;

afterEach(() => {
  folder?.remove();
  folder = undefined;
  removeAll();
});

describe('check --since', () => {
  const second = `
link KQ-2 {
  fibres      1..2
  connector   LC
  segment     90 m OM4
  connector   LC
}
`;
  const failing = (text: string) => text.replaceAll('KQ-1', 'KQ-2').replace('0.90', '9.10');
  /** KQ-1 passes; KQ-2 has failed for long. */
  const made = () => {
    const repository = new MadeRepository().write({
      'plan.lwl': `include "readings.lwl"\n\n${plan}${second}`,
      'readings.lwl': `${readings('0.90', '1.10')}\n${failing(readings('0.90', '1.10'))}`,
    });
    repository.commit();
    return repository;
  };
  const check = ({ path }: MadeRepository, ...words: string[]) =>
    runIn(path, 'check', '--since', 'HEAD', ...words, ...asOf);

  it('does not fail for what was there before', () => {
    const repository = made();
    expect(runIn(repository.path, 'check', ...asOf).code).toBe(1);
    expect(check(repository)).toEqual({
      code: 0,
      out: expect.stringMatching(/^Since HEAD \([0-9a-f]{8}\): no engineering change\.\n$/u),
      error: '',
    });
  });

  it('says findings and lines of what a change touches, and of nothing else', () => {
    const repository = made();
    repository.write({
      'plan.lwl': `include "readings.lwl"\n\n${plan.replace('180 m', '150 m')}${second}`,
    });
    const { code, out } = check(repository, '--fail-on', 'verdict');
    expect(code).toBe(0);
    expect(out).toMatch(/^KQ-1 +pass +150 m/mu);
    expect(out).not.toMatch(/^KQ-2|KQ-2 fibre/mu);
    expect(out).toMatch(/1 engineering change, 1 of 2 links touched\.$/mu);
  });

  it('fails for a reading that was edited in place, in every form', () => {
    const repository = made();
    repository.write({
      'readings.lwl': `${readings('0.80', '1.10')}\n${failing(readings('0.90', '1.10'))}`,
    });
    const { code, out } = check(repository);
    expect(code).toBe(1);
    expect(out).toMatch(
      /^readings\.lwl:6:\d+: error: .*was 0\.90 dB, now 0\.80 dB.* \[reading-altered\]$/mu,
    );
    const json = JSON.parse(check(repository, '--format', 'json').out);
    expect(json.findings[0]).toMatchObject({ name: 'reading-altered', severity: 'error' });
    expect(json.links.map(({ name }: { name: string }) => name)).toEqual(['KQ-1']);
    expect(check(repository, '--format', 'junit').out).toContain('reading-altered at 6:');
    expect(check(repository, '--format', 'github').out).toMatch(
      /^::error file=readings\.lwl,line=6/mu,
    );
  });

  it('lets a newer attempt below the older one pass', () => {
    const repository = made();
    const later = readings('0.70', '1.00').replace(
      '2026-03-14 09:05 to 09:40',
      '2026-03-14 10:05 to 10:40',
    );
    repository.write({
      'readings.lwl': `${readings('0.90', '1.10')}\n${failing(readings('0.90', '1.10'))}\n${later}`,
    });
    const { code, out } = check(repository);
    expect({ code, altered: /altered|removed/u.test(out) }).toEqual({ code: 0, altered: false });
  });

  it('says a finding that is new, wherever it stands', () => {
    const repository = made();
    repository.git('mv', 'readings.lwl', 'days.lwl');
    const { code, out } = check(repository);
    expect(code).toBe(1);
    expect(out).toMatch(/^plan\.lwl:1:\d+: error: .*\[include-missing\]$/mu);
  });

  it('ends with 2 where there is no such revision', () => {
    const { code, error } = runIn(made().path, 'check', '--since', 'nowhere', ...asOf);
    expect(code).toBe(2);
    expect(error).toContain('There is no revision "nowhere"');
  });
});

describe('compare RECORD PLAN', () => {
  const later = `
readings KQ-1 {
  setup       MM-1
  tested      2026-04-20 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                0.70
}
`;
  function since(now: string, ...words: string[]) {
    folder = new Folder({ 'plan.lwl': whole, 'now/plan.lwl': now });
    folder.run('record', 'plan.lwl', '--format', 'json', '--out', 'record.json', ...asOf);
    return again(...words);
  }
  /** The same record and plan once more. */
  function again(...words: string[]) {
    const asked = ['compare', 'record.json', 'now/plan.lwl', ...words, '--as-of', '2026-05-01'];
    return folder!.run(...asked);
  }

  it('is quiet where all evidence stands as it was, with newer readings below', () => {
    const { code, out, error } = since(`${whole}${later}`);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toContain('its files are others now');
    expect(out).toContain('All its evidence stands as it was, judged as it was.');
  });

  it('says reading by reading what was altered, removed and added, and where', () => {
    const { code, out } = since(
      whole
        .replace('0.90', '0.80')
        .replace(/ {2}2 +1\.10\n/u, '')
        .replace('1..2', '1..3')
        .replace(/( {2}1 +0\.80\n)/u, '$1  3  1.00\n'),
    );
    expect(code).toBe(1);
    const lines = out.split('\n').filter((line) => line.includes('[record-evidence-'));
    expect(
      lines.map((line) => / (fibre \d).*\[record-evidence-(\w+)\]$/u.exec(line)?.slice(1)),
    ).toEqual([
      ['fibre 1', 'altered'],
      ['fibre 2', 'removed'],
      ['fibre 3', 'added'],
    ]);
    expect(lines[0]).toMatch(/^now\/plan\.lwl:32: .*was 0\.90 dB, .*; now 0\.80 dB, /u);
  });

  it('says which reference was altered under readings that look the same', () => {
    const { code, out } = since(whole.replace('-20.05 dBm', '-20.35 dBm'));
    expect(code).toBe(1);
    expect(out).toMatch(/MM-1 \w+ of 2026-03-14 08:10, 850 nm: was −20\.05 dBm; now −20\.35 dBm/u);
  });

  it('tells apart what is judged by another limit, as one change and no alteration', () => {
    const changed = whole.replace('180 m', '150 m');
    const { code, out } = since(changed);
    expect(code).toBe(1);
    expect(out).toMatch(
      /fibre 1, 850 nm A>B, attempt 1, and 1 more reading: was pass, limit 2\.04 dB; now pass, limit 1\.95 dB/u,
    );
    expect(again('--fail-on', 'evidence').code).toBe(0);
  });

  it('fits its published schema as JSON, and is said in the other forms', async () => {
    const form = JSON.parse(since(whole.replace('0.90', '0.80'), '--format', 'json').out);
    const validate = new Ajv().compile(
      JSON.parse(readFileSync('server/comparison.schema.json', 'utf8')),
    );
    expect(validate(form), JSON.stringify(validate.errors)).toBe(true);
    expect(form).toMatchObject({
      document: 'comparison with a record',
      same_files: false,
      differences: [{ difference: 'altered', object: 'KQ-1' }],
    });
    const [record, now] = [`${folder!.path}/record.json`, `${folder!.path}/now/plan.lwl`];
    const read = await recordAt(record);
    const compared = await comparedWithRecord(read!, record, now, parseInstant('2026-05-01')!);
    const findings = recordFormats.told(compared);
    expect(github({ findings })).toMatch(/^::error file=[^,]*now\/plan\.lwl,line=32,/u);
    const [{ tool }] = JSON.parse(sarif({ findings }, recordFormats.titles)).runs;
    expect(tool.driver.rules).toEqual([
      {
        id: 'record-evidence-altered',
        shortDescription: { text: 'Evidence of the record says something else now' },
      },
    ]);
    expect(recordFormats.markdown(compared)).toMatch(/^\| altered \| KQ-1 fibre 1/mu);
    expect(recordFormats.junit(compared)).toContain('failures="1"');
  });

  it('refuses a record that holds no readings, and one of another plan', () => {
    folder = new Folder({
      'plan.lwl': whole,
      'other.lwl': whole.replaceAll('KQ-1', 'KQ-8'),
    });
    folder.run('record', 'plan.lwl', '--out', 'record.html', ...asOf);
    folder.run('record', 'plan.lwl', '--out', 'record.json', ...asOf);
    const noReadings = folder.run('compare', 'record.html', 'plan.lwl');
    expect(noReadings).toMatchObject({ code: 2, out: '' });
    expect(noReadings.error).toContain('only a record written as JSON');
    expect(folder.run('compare', 'record.json', 'other.lwl').error).toContain('None of the links');
    expect(folder.run('compare', 'record.json').error).toContain('Name the plan');
  });
});
