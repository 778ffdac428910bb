/** A figure from memory is marked as such wherever it governs, and no other figure is. */
import { describe, expect, test } from 'vitest';
import type { LinkResult } from '../../server/src/evaluate/result.ts';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { readingJson, toJson } from '../../server/src/report/json.ts';
import { toText } from '../../server/src/report/text.ts';
import { readingsCsv } from '../support/fleet.ts';
import { judge } from '../support/judge.ts';

const setup = `setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
  taken       2026-03-14 08:10 1300 nm -20.31 dBm
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 1300 nm A>B
  1  0.97  0.80
}
`;

/** 100 m of OM4 between two pairs, under a set of limits of the plan's own. */
function plan(limits: string, words = ''): string {
  return `plan "Kestrel Quay" {
  limits      KQ-OWNER
  measure     850 nm, 1300 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
}

limits KQ-OWNER {
${limits}}

link KQ-1 {
  fibres      1
  connector   LC
  segment     100 m OM4
  connector   LC
${words}}

${setup}`;
}

function trusts(text: string): readonly (string | null)[] {
  const { plan } = judge(text);
  const result = plan.result.link('KQ-1') as LinkResult;
  return result.readings.map((reading) => readingJson('KQ-1', reading).limit_trust);
}

const policy = '  policy      counting\n';
const rates = '  fibre       OM4 850 nm 3.0 dB/km\n';
const slow = '  fibre       OM4 1300 nm 1.5 dB/km\n';
const pairs = '  connector   any 0.75 dB\n';
const read = '  basis       "seen in the edition" read\n';
const recalled = '  basis       "from memory of the edition" recalled\n';

describe('which figures a basis stands for', () => {
  test('all that stand above it, where there is one', () => {
    expect(trusts(plan(policy + rates + slow + pairs + recalled))).toEqual([
      'recalled',
      'recalled',
    ]);
    expect(trusts(plan(policy + rates + slow + pairs + read))).toEqual(['read', 'read']);
  });

  test('those up to the one before', () => {
    expect(trusts(plan(policy + pairs + rates + read + slow + recalled))).toEqual([
      'read',
      'recalled',
    ]);
    expect(trusts(plan(policy + slow + recalled + pairs + rates + read))).toEqual([
      'read',
      'recalled',
    ]);
  });

  test('the last, for what has none below it', () => {
    expect(trusts(plan(recalled + policy + rates + slow + pairs))).toEqual([
      'recalled',
      'recalled',
    ]);
  });

  test('several in a row together, a note between them or not', () => {
    const both = ['recalled', 'recalled'];
    expect(trusts(plan(policy + rates + slow + pairs + read + recalled))).toEqual(both);
    const noted = `${recalled}  note        "second print"\n${read}`;
    expect(trusts(plan(policy + rates + slow + pairs + noted))).toEqual(both);
  });

  test('none that nobody gave a word for', () => {
    const silent = '  basis       "contract clause 7.2"\n';
    expect(trusts(plan(policy + rates + slow + pairs))).toEqual([null, null]);
    expect(trusts(plan(policy + rates + slow + pairs + silent))).toEqual([null, null]);
  });
});

describe('what is brought by like', () => {
  const base = `limits KQ-BASE {\n${policy}${pairs}${rates}${read}${slow}${recalled}}\n\n`;

  test('keeps the word that it has there', () => {
    expect(trusts(base + plan('  like        KQ-BASE\n'))).toEqual(['read', 'recalled']);
    // What is said below of own entries does not vouch for what was brought.
    expect(trusts(base + plan(`  like        KQ-BASE\n${pairs}${read}`))).toEqual([
      'read',
      'recalled',
    ]);
  });

  test('is recalled where the likeness itself is', () => {
    expect(trusts(base + plan(`  like        KQ-BASE\n${recalled}`))).toEqual([
      'recalled',
      'recalled',
    ]);
  });

  test('of the library says so too', () => {
    // 1300 nm on OM4 stands in the library's TIA-568.3-E from memory (tests/published/figures.json).
    expect(trusts(plan('  like        TIA-568.3-E\n'))[1]).toBe('recalled');
  });
});

test('an application’s row is trusted by its own basis, not by another row’s', () => {
  const service = `application KQ-FAST {
  count       1
  wavelength  850 nm
  fibre       OM3 reach 300 m loss 1.4 dB
  basis       "from memory" recalled
  fibre       OM4 reach 400 m loss 1.5 dB
  basis       "the standard's table" read
}

`;
  const text = service + plan(policy + rates + slow + pairs + read, '  carries     KQ-FAST\n');
  const result = judge(text).plan.result.link('KQ-1');
  expect(result?.readings[0]?.limit).toMatchObject({ kind: 'application', recalled: false });
  expect(result?.applications[0]?.recalled).toBe(false);
  const other = text.replace('"from memory" recalled', '"its table" read');
  const turned = judge(other.replace(`table" read\n}`, 'table" recalled\n}')).plan.result;
  expect(turned.link('KQ-1')?.readings[0]?.limit).toMatchObject({ recalled: true });
  expect(turned.link('KQ-1')?.applications[0]?.recalled).toBe(true);
});

describe('the forms of results', () => {
  const text = plan(policy + pairs + rates + read + slow + recalled).replace('0.80', '1.64');
  const { plan: judged } = judge(text);
  const results = judged.result.order.flatMap((name) => judged.result.link(name) ?? []);

  test('say which limit a reading is judged by, and on what it rests', () => {
    const { links } = toJson({ tool: 'test', result: judged.result, files: [], findings: [] });
    expect(
      links[0]?.readings.map((one) => [one.limit_kind, one.limit_name, one.limit_trust]),
    ).toEqual([
      ['components', 'KQ-OWNER', 'read'],
      ['components', 'KQ-OWNER', 'recalled'],
    ]);
    expect(links[0]?.wavelengths.map(({ limits }) => limits[0]?.trust)).toEqual([
      'read',
      'recalled',
    ]);
    const rows = readingsCsv(judged).text.split('\r\n');
    expect(rows[0]).toMatch(
      /,current,limit_kind,limit_name,limit_trust,reason,because,quantity,reflectance_db,/u,
    );
    expect(rows[1]).toMatch(/,pass,true,components,KQ-OWNER,read,,,loss,,/u);
    expect(rows[2]).toMatch(/,marginal-pass,true,components,KQ-OWNER,recalled,,,loss,,/u);
    // The worst margin stands against 1.5 dB/km × 0.1 km + 2 × 0.75 dB, whose rate is from memory.
    expect(toText(judged.result, results, plainDisplay)).toContain(
      'limit 1.65 dB (components, recalled)',
    );
  });

  test('say why a reading does not count', () => {
    const void_ = judge(text.replace('0.97', '-0.97')).plan.result.link('KQ-1')!;
    expect(readingJson('KQ-1', void_.readings[0]!)).toMatchObject({
      verdict: 'invalid',
      reason: 'loss-negative',
    });
    expect(readingJson('KQ-1', void_.readings[0]!).because).toContain('more light arrived');
    const blind = judge(text.replace(slow, '')).plan.result.link('KQ-1')!;
    expect(readingJson('KQ-1', blind.readings[1]!)).toMatchObject({
      verdict: 'not-judged',
      reason: 'no-limit',
      limit_kind: null,
      limit_trust: null,
    });
    const worked = `${text}
work KQ-1 {
  done        re-spliced
  on          2026-03-20
}
`;
    expect(readingJson('KQ-1', judge(worked).plan.result.link('KQ-1')!.readings[0]!)).toMatchObject(
      { verdict: 'stale', reason: 'work' },
    );
  });
});
