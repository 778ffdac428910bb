import { readFileSync } from 'node:fs';
import Ajv from 'ajv';
import { describe, expect, test } from 'vitest';
import { verdicts } from '../../server/src/evaluate/result.ts';
import { fingerprintOf, toJson } from '../../server/src/report/json.ts';
import { resultJsonSchema, resultSchema } from '../../server/src/report/schema.ts';
import { readingsCsv } from '../support/fleet.ts';
import { judge } from '../support/judge.ts';

const text = readFileSync('examples/first-link/first-link.lwl', 'utf8');

function formOf(source: string) {
  const { plan } = judge(source);
  const files = [{ path: 'plan.lwl', text: source }];
  return {
    form: toJson({ tool: 'linkwright test', result: plan.result, files, findings: [] }),
  };
}

describe('the JSON form', () => {
  test('is what its schema says, by zod and by JSON Schema alike', () => {
    const { form } = formOf(text.replace('1.08', 'dark'));
    const plain: unknown = JSON.parse(JSON.stringify(form));
    expect(resultSchema.parse(plain)).toEqual(plain);
    const ajv = new Ajv({ strict: false, validateSchema: false });
    const valid = ajv.compile(resultJsonSchema());
    expect(valid(plain), JSON.stringify(valid.errors)).toBe(true);
    expect(valid({ ...(plain as object), version: 2 })).toBe(false);
  });

  test('says unknown as null and keeps every digit', () => {
    const { form } = formOf(text.replace('180 m', '185 m').replace('1.08', '-'));
    const [link] = form.links;
    const [at] = link?.wavelengths ?? [];
    // 3.0 dB/km × 0.185 km + 2 × 0.75 dB
    expect(at?.limit_db).toBe(2.055);
    const missing = link?.readings.find(({ attempt }) => attempt === null);
    expect(missing).toMatchObject({
      fibre: 2,
      loss_db: null,
      margin_db: null,
      verdict: 'untested',
    });
  });

  test('says what a share of links keeps, how its parts are taken to be spread, and null where none says', () => {
    const { form } = formOf(text);
    expect(form.links[0]?.wavelengths[0]?.percentile).toBeNull();
    const spread = formOf(`${text}
connector LC {
  loss        typ 0.3 dB max 0.75 dB
  share       100 % 0.6 dB
}
`);
    expect(spread.form.links[0]?.wavelengths[0]?.percentile).toMatchObject({
      share_percent: 97.7,
      fixed_db: 0.54,
      parts: [{ count: 2, assumed: 'evenly between 0 dB and its shares: 100 % up to 0.6 dB' }],
    });
  });

  test('counts each verdict once', () => {
    const { form } = formOf(text);
    const counted = Object.values(form.totals.verdicts).reduce((sum, count) => sum + count, 0);
    expect(counted).toBe(form.totals.expected_readings);
    expect(Object.keys(form.totals.verdicts)).toHaveLength(verdicts.length);
  });

  test('says where light comes out and where it must', () => {
    const { form } = formOf(`link KQ-T {
  to          ROW/A:01..12
  fibres      1..12
  connector   MPO-12
  segment     60 m OM4 map reversed
  connector   MPO-12
}

channel KQ-C {
  cord        2 m OM4 crossed
  link        KQ-T fibres 1..2 to 12, 11
  cord        2 m OM4
  carries     10GBASE-SR
}
`);
    const [link] = form.links;
    expect(link?.arrivals.slice(0, 2)).toEqual([
      { fibre: 1, place: 12, port: 'ROW/A:12', wanted_place: null },
      { fibre: 2, place: 11, port: 'ROW/A:11', wanted_place: null },
    ]);
    const [channel] = form.channels;
    expect(channel?.arrivals[0]).toEqual({ fibre: 1, place: null, port: null, wanted_place: 2 });
    expect(resultSchema.parse(form)).toEqual(form);
  });

  test('a fingerprint follows the text and not its line ends', () => {
    const of = (source: string) => fingerprintOf([{ path: 'plan.lwl', text: source }]);
    expect(of(text.replaceAll('\n', '\r\n'))).toBe(of(text));
    expect(of(text.replace('1.08', '1.09'))).not.toBe(of(text));
    // SHA-256 of the empty name and text: FIPS 180-4, one line feed.
    expect(fingerprintOf([{ path: '', text: '' }])).toBe(
      '01ba4719c80b6fe911b091a7c05124b64eeece964e09c058ef8f9805daca546b',
    );
  });
});

describe('the CSV form', () => {
  test('has a row for each reading, ended as RFC 4180 ends it', () => {
    const { form } = formOf(text);
    const lines = readingsCsv(judge(text).plan).text.split('\r\n');
    expect(lines.at(-1)).toBe('');
    expect(lines).toHaveLength((form.links[0]?.readings.length ?? 0) + 2);
    expect(lines[1]).toMatch(
      /^KQ-OPS-B3,1,850,A>B,1,MM-1,2026-03-14 09:05 to 09:20,-20.05,,0.97,2.04,1.07,0.15,pass,true,components,TIA-568.3-E,re(ad|called),,,loss,,/u,
    );
  });

  test('quotes what holds a comma, and never hands a spreadsheet a formula', () => {
    const { plan } = judge(text.replaceAll('KQ-OPS-B3', '"=1+1, north"'));
    expect(readingsCsv(plan).text.split('\r\n')[1]).toMatch(/^"'=1\+1, north",1,850,/u);
  });
});
