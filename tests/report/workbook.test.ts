/** The record as a workbook, read back part by part (ECMA-376): real numbers, frozen heads, no formula. */
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { plainDisplay } from '../../server/src/report/figures.ts';
import { pathFrom, type Recorded, stateOf } from '../../server/src/report/record/recorded.ts';
import { readSeal } from '../../server/src/report/record/seal.ts';
import { recordWorkbook } from '../../server/src/report/record/workbook.ts';
import { judge } from '../support/judge.ts';

const plan = `plan "=1+1" {
  site        "<b> & \\"quay\\" 'x'"
  revision    "-2" on 2026-03-01
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
}

link KQ-1 "=HYPERLINK(1)" {
  from        OPS/R2/A:01..02
  to          B1/R1/A:01..02
  connector   LC
  segment     180 m OM4
  connector   LC
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "@SUM(A1)"
  values      loss in dB
  columns fibre, 850 nm A>B
  1                0.97
  2                -
}

setup MM-1 {
  reference   one-cord
  source      "+S-3" LED calibrated 2026-01-12 due 2027-01-12
  meter       "M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}
`;

async function workbook() {
  const { project, plan: judged } = judge(plan);
  const recorded: Recorded = {
    plan: judged,
    display: plainDisplay,
    asOf: '2026-04-01',
    tool: 'linkwright 0',
    issue: false,
    files: judged.files.map((uri) => ({
      uri,
      path: pathFrom(judged.root, uri),
      text: project.document(uri)?.text() ?? '',
    })),
  };
  const parts = unzipSync(await recordWorkbook(recorded, stateOf(recorded)));
  return new Map(Object.entries(parts).map(([name, bytes]) => [name, strFromU8(bytes)]));
}

const parts = await workbook();
const book = parts.get('xl/workbook.xml') ?? '';
const names = [...book.matchAll(/<sheet [^>]*name="([^"]*)"/gu)].map(([, name = '']) => name);
const sheet = (name: string) =>
  parts.get(`xl/worksheets/sheet${names.indexOf(name) + 1}.xml`) ?? '';
const shared = [
  ...(parts.get('xl/sharedStrings.xml') ?? '').matchAll(/<t[^>]*>([^<]*)<\/t>/gu),
].map(([, text]) => text ?? '');

describe('a workbook of a record', () => {
  test('has a sheet for every part that has something in it', () => {
    expect(names).toEqual([
      'Record',
      'Missing',
      'Links',
      'Readings',
      'Not tested',
      'Set-ups',
      'Files',
    ]);
  });

  test('says on every sheet that it is a draft, and keeps its heads in sight', () => {
    for (const name of names) {
      expect(sheet(name), name).toMatch(/<pane [^>]*ySplit="2"[^>]*state="frozen"/u);
      const [, first = ''] = /<c r="A1"[^>]*t="s"[^>]*><v>(\d+)<\/v>/u.exec(sheet(name)) ?? [];
      expect(shared[Number(first)], name).toContain('Draft of 2026-04-01, not issued');
    }
  });

  test('holds numbers as numbers', () => {
    const cells = [...sheet('Readings').matchAll(/<c r="([A-Z]+)3"([^>]*)><v>([^<]*)<\/v>/gu)];
    const numbers = cells
      .filter(([, , kind = '']) => !kind.includes('t="s"'))
      .map(([, , , v]) => v);
    for (const each of ['850', '0.97', '2.04', '1.07']) expect(numbers).toContain(each);
  });

  test('holds no formula and no link, whatever the names are', () => {
    for (const [name, text] of parts) {
      expect(text, name).not.toMatch(/<f[ >]|<hyperlink|externalLink/u);
    }
    expect(shared).toContain('=HYPERLINK(1)');
    expect(shared.join('\n')).toContain('&lt;b');
  });

  test('carries the seal', () => {
    expect(readSeal(shared.join('\n'))).toMatchObject({ state: 'draft', title: '=1+1' });
  });
});
