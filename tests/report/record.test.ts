/** The acceptance record: what it needs before it is issued, what it lists, and how it is held against its plan. */
import Ajv from 'ajv';
import { describe, expect, test } from 'vitest';
import { plainDisplay } from '../../server/src/report/figures.ts';
import type { Block, Table } from '../../server/src/report/paper/blocks.ts';
import { recordCsv } from '../../server/src/report/record/csv.ts';
import {
  concessionsIn,
  exceptionsIn,
  retestsIn,
  untestedIn,
  withdrawalsIn,
} from '../../server/src/report/record/exceptions.ts';
import { recordJson } from '../../server/src/report/record/json.ts';
import { recordPaper } from '../../server/src/report/record/paper.ts';
import { pathFrom, type Recorded, stateOf } from '../../server/src/report/record/recorded.ts';
import { recordJsonSchema, recordSchema } from '../../server/src/report/record/schema.ts';
import { checkSeal, readSeal, sealOf, writtenSeal } from '../../server/src/report/record/seal.ts';
import { openExample } from '../examples/open.ts';
import { judge } from '../support/judge.ts';

const whole = `plan "Kestrel Quay: berth 3" {
  site        "Ferry terminal, Kestrel Quay"
  revision    "B" on 2026-03-20
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20
}

link KQ-B3 "Operations room to berth 3" {
  from        OPS/R2/A:01..02
  to          B3/R1/A:01..02
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

readings KQ-B3 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, 850 nm B>A
  1                0.97        0.99
  2                1.05        1.02
}
`;

function recorded(
  texts: string | Readonly<Record<string, string>> = whole,
  issue = true,
): Recorded {
  const { project, plan } = judge(texts);
  return {
    plan,
    display: plainDisplay,
    asOf: '2026-04-01',
    tool: 'linkwright 0',
    issue,
    files: plan.files.map((uri) => ({
      uri,
      path: pathFrom(plan.root, uri),
      text: project.document(uri)?.text() ?? '',
    })),
  };
}

const missing = (text: string) =>
  stateOf(recorded(text)).missing.map(({ of, what }) => `${of}: ${what}`);

describe('what a record needs', () => {
  test('nothing, where every field is there and every reading accepted', () => {
    expect(stateOf(recorded())).toMatchObject({ state: 'issued', missing: [] });
    expect(stateOf(recorded(whole, false)).state).toBe('draft');
  });

  test.each([
    ['  site        "Ferry terminal, Kestrel Quay"\n', 'the plan: no site'],
    ['  revision    "B" on 2026-03-20\n', 'the plan: no revision'],
    ['  from        OPS/R2/A:01..02\n', 'KQ-B3: no ports at end A'],
    [' by "R. Vale"', 'KQ-B3: 4 readings of 2026-03-14 09:05 to 09:40 without the tester'],
    ['  launch      encircled-flux\n', 'set-up MM-1: no launch condition'],
    [' LED calibrated', 'set-up MM-1: the source does not say LED or laser', ' calibrated'],
    [
      '"M-5" floor -60 dBm calibrated 2026-01-12 due 2027-01-12',
      'set-up MM-1: no calibration of the meter',
      '"M-5" floor -60 dBm',
    ],
    [' verified 0.08 dB', 'set-up MM-1: what TC-2 lost when it was proven is not said'],
    ['  adopt       TIA-568.3-E by "M. Ashdown" on 2026-02-20\n', ''],
  ])('says so where this is left out: %s', (cut, said, instead = '') => {
    expect(whole).toContain(cut);
    const list = missing(whole.replace(cut, instead));
    if (said === '') expect(list).toEqual([]);
    else
      expect(
        list.some((each) => each.startsWith(said)),
        list.join('\n'),
      ).toBe(true);
  });

  // OM4 at 1300 nm under TIA-568.3-E is a figure from memory in the library.
  test('asks who answers for a figure from memory that governs', () => {
    const both = whole
      .replace('measure     850 nm', 'measure     850 nm, 1300 nm')
      .replace('  taken ', '  taken       2026-03-14 08:12 1300 nm -20.31 dBm\n  taken ')
      .replace('850 nm B>A\n', '850 nm B>A, 1300 nm A>B, 1300 nm B>A\n')
      .replace('0.99\n', '0.99  0.60  0.61\n')
      .replace('1.02\n', '1.02  0.64  0.63\n');
    expect(missing(both)).toEqual([]);
    const list = missing(both.replace(/ {2}adopt .*\n/u, ''));
    expect(list).toHaveLength(1);
    expect(list[0]).toContain('the limit of TIA-568.3-E rests on figures from memory');
    expect(list[0]).toContain('fibre OM4 at 1300 nm');
  });

  test('counts readings that are missing or over their limit, and doubts that nobody answered', () => {
    expect(missing(whole.replace('0.99\n', '-\n'))).toContain('KQ-B3: 1 reading untested');
    const over = missing(whole.replace('0.99\n', '2.60\n'));
    expect(over).toContain('KQ-B3: 1 reading fail');
    expect(over.some((each) => each.includes('direction-asymmetry is not answered'))).toBe(true);
  });
});

const evidence = `${whole
  .replace('0.97        0.99', '2.61        2.58')
  .replace('1.05        1.02', '1.05        -')}
readings KQ-B3 {
  setup       MM-1
  tested      2026-03-14 10:05 to 10:10 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B, remark
  2                1.01      "cleaned"
}

concession KQ-B3 {
  fibres      1
  wavelength  850 nm
  accepted    2.61 dB
  because     "spare fibre, closure rework booked"
  by          "M. Ashdown" on 2026-03-24
}

withdraw KQ-B3 {
  fibres      2
  tested      2026-03-14 09:05 to 09:40
  because     "far plug was in the neighbouring panel"
  by          "R. Vale" on 2026-03-14
}
`;

describe('what a record lists', () => {
  const subject = recorded(evidence, false);

  test('exceptions with their figures, concessions and withdrawals with reason and name', () => {
    expect(
      exceptionsIn(subject).map(({ place, loss, limit, margin, verdict }) => [
        place,
        loss,
        limit,
        margin,
        verdict,
      ]),
    ).toEqual([
      ['fibre 1', '2.61', '2.04', '−0.57', 'conceded'],
      ['fibre 1', '2.58', '2.04', '−0.54', 'conceded'],
    ]);
    expect(concessionsIn(subject)).toEqual([
      {
        object: 'KQ-B3',
        of: 'fibre 1 850 nm',
        what: 'up to 2.61 dB',
        because: 'spare fibre, closure rework booked',
        by: 'M. Ashdown, 2026-03-24',
      },
    ]);
    expect(withdrawalsIn(subject)[0]).toMatchObject({
      of: 'fibre 2',
      because: 'far plug was in the neighbouring panel',
    });
  });

  test('what was read again, with every attempt, and what was not read', () => {
    expect(retestsIn(subject)).toMatchObject([
      { object: 'KQ-B3', place: 'fibre 2', what: '850 nm A>B', attempts: [{}, {}] },
    ]);
    expect(retestsIn(subject)[0]?.attempts[1]).toBe('1.01 pass, 2026-03-14 10:05 to 10:10, stands');
    expect(untestedIn(subject)).toEqual([
      { object: 'KQ-B3', what: '850 nm B>A, fibre 2', why: '' },
    ]);
  });

  test('every section of a record, with the sum of each limit and its source', () => {
    const paper = recordPaper(subject, stateOf(subject));
    const headings = paper.blocks.flatMap((block) =>
      block.kind === 'heading' ? [block.text] : [],
    );
    for (const each of [
      'Acceptance record',
      'Job',
      'How it was tested and judged',
      'Result',
      'Missing before it can be issued',
      'Signed',
      'Exceptions',
      'Concessions',
      'Withdrawn',
      'Read again',
      'Not tested',
      'KQ-B3',
      'Set-ups and instruments',
      'MM-1',
      'Work done',
      'Doubts answered',
      'Files',
    ]) {
      expect(headings).toContain(each);
    }
    const words = JSON.stringify(paper.blocks satisfies readonly Block[]);
    expect(words).toContain('0.18 km × 3 dB/km = 0.54');
    expect(words).toContain('TIA-568.3-E, fibre OM4 at 850 nm');
    expect(words).toContain('OPS/R2, panel A, 01 to 02');
    expect(paper.stamp).toBe('Draft');
    expect(recordPaper(recorded(), stateOf(recorded())).stamp).toBeUndefined();
  });

  test('powers with two decimals at least, and whether a check rose or fell', () => {
    const subject = recorded(
      whole.replace(
        /^ {2}taken .*$/mu,
        `  taken       2026-03-14 08:10 850 nm -20.3 dBm
  checked     2026-03-14 10:00 850 nm -20.28 dBm
  checked     2026-03-14 12:00 850 nm -20.4 dBm`,
      ),
    );
    const texts = JSON.stringify(recordPaper(subject, stateOf(subject)));
    for (const figure of ['−20.30', '−20.28', '+0.02', '−20.40', '−0.10']) {
      expect(texts).toContain(`"${figure}"`);
    }
  });

  test('every reading in the JSON form and in the table, equal to the results', () => {
    const state = stateOf(subject);
    const form = JSON.parse(recordJson(subject, state));
    const readings = form.results.links[0].readings as { loss_db: number | null }[];
    const [head = '', ...rows] = recordCsv(subject, state).trimEnd().split('\r\n');
    const loss = head.split(',').indexOf('loss_db');
    expect(rows.map((row) => row.split(',')[loss])).toEqual(
      readings.map((each) => (each.loss_db === null ? '' : String(each.loss_db))),
    );
    expect(form).toMatchObject({ state: 'draft', date: '2026-04-01', job: { revision: 'B' } });
    expect(form.setups[0]).toMatchObject({ name: 'MM-1', source: { due: '2027-01-12' } });
  });
});

describe('the table for spreadsheets', () => {
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', ' =1', '\uFF1D1'])('cannot be run: %s', (begin) => {
    const name = `${begin}HYPERLINK`;
    const subject = recorded(
      whole
        .replace('"Operations room to berth 3"', JSON.stringify(name))
        .replace('"R. Vale"', JSON.stringify(name)),
      false,
    );
    const [, row = ''] = recordCsv(subject, stateOf(subject)).split('\r\n');
    const cells = row.split(',').filter((each) => each.includes('HYPERLINK'));
    expect(cells.length).toBeGreaterThanOrEqual(2);
    for (const cell of cells) expect(cell).toMatch(/^"?'/u);
  });

  test('keeps numbers numbers, losses below zero too', () => {
    const subject = recorded(whole.replace('0.97 ', '-0.04'), false);
    expect(recordCsv(subject, stateOf(subject))).toContain(',-0.04,');
  });
});

describe('the seal', () => {
  const seal = sealOf(recorded(), stateOf(recorded()));

  test('comes back out of any text that holds it', () => {
    expect(readSeal(`<meta content="${writtenSeal(seal)}">`)).toEqual(seal);
    expect(writtenSeal(seal)).toMatch(/^[\w:-]+$/u);
    expect(readSeal('linkwright-record:1:bm90IGpzb24')).toBeUndefined();
    expect(readSeal('')).toBeUndefined();
    const word = writtenSeal(seal);
    expect(readSeal(`${word} ${word}`)).toEqual(seal);
    expect(readSeal(`${writtenSeal({ ...seal, state: 'draft' })} ${word}`)).toBeUndefined();
  });

  test('holds names in any script', () => {
    const own = sealOf(
      recorded(whole.replace('Kestrel Quay: berth 3', 'Πύλη 3, причал')),
      stateOf(recorded()),
    );
    expect(readSeal(writtenSeal(own))?.title).toBe('Πύλη 3, причал');
  });

  test('says which file has changed, has come or is gone, and forgives line ends', () => {
    const { files } = recorded();
    expect(checkSeal(seal, files)).toEqual({ same: true, changed: [], gone: [], added: [] });
    const [file] = files as [Recorded['files'][number]];
    const crlf = [{ ...file, text: file.text.replaceAll('\n', '\r\n') }];
    expect(checkSeal(seal, crlf).same).toBe(true);
    expect(checkSeal(seal, [{ ...file, text: file.text.replace('1.05', '1.04') }])).toMatchObject({
      same: false,
      changed: ['plan.lwl'],
    });
    expect(checkSeal(seal, [{ ...file, path: 'other.lwl' }])).toMatchObject({
      same: false,
      gone: ['plan.lwl'],
      added: ['other.lwl'],
    });
  });

  test('names files from the folder of the plan, wherever that lies', () => {
    expect(pathFrom('file:///a/b/plan.lwl', 'file:///a/b/c/day%201.lwl')).toBe('c/day 1.lwl');
    expect(pathFrom('file:///a/b/plan.lwl', 'file:///a/cables.lwl')).toBe('../cables.lwl');
    expect(pathFrom('file:///a/b/plan.lwl', 'file:///a/b/plan.lwl')).toBe('plan.lwl');
  });
});

describe('the course of readings in the record', () => {
  /** Twenty-four fibres read one after the other by a source that loses 0.01 dB a fibre. */
  const drifting = whole.replaceAll('01..02', '01..24').replace(/columns fibre[^}]*/u, () => {
    const rows = Array.from({ length: 24 }, (_, at) => {
      const loss = (0.8 + at / 100).toFixed(2);
      return `  ${at + 1}  ${loss}  ${loss}  09:${String(10 + at)}`;
    });
    return `columns fibre, 850 nm A>B, 850 nm B>A, time\n${rows.join('\n')}\n`;
  });
  const chart = (text: string) => {
    const subject = recorded(text);
    return recordPaper(subject, stateOf(subject)).blocks.find(
      (block) => block.kind === 'picture' && block.says.includes('in the order in which'),
    ) as Extract<Block, { kind: 'picture' }> | undefined;
  };

  test('says from when to when and between which losses, and rises where the source drifts', () => {
    const { says, svg } = chart(drifting)!;
    expect(says).toContain('2026-03-14 09:10 to 2026-03-14 09:33: 850 nm, 48 readings');
    const middles = [...svg.matchAll(/M[\d.]+ ([\d.]+)H[\d.]+" stroke="#000000"/gu)].map((each) =>
      Number(each[1]),
    );
    expect(middles).toHaveLength(48);
    // Further up is a smaller figure; two readings of one fibre are alike.
    expect(middles.every((each, at) => at < 2 || each < middles[at - 2]!)).toBe(true);
  });

  test('is left out where few readings were made', () => {
    expect(chart(whole)).toBeUndefined();
  });
});

/** The schema that is published, by a checker that is not ours. */
const asSchema = new Ajv({ strict: false, validateSchema: false }).compile(recordJsonSchema());

/** Every row has as many cells as there are columns, and the heads above them lie over all. */
function expectWhole({ columns, groups, rows }: Table): void {
  for (const row of rows) expect(row.length).toBe(columns.length);
  if (!groups) return;
  expect(groups.every(({ span }) => span > 0)).toBe(true);
  expect(groups.reduce((sum, { span }) => sum + span, 0)).toBe(columns.length);
}

test.each([
  'arrays',
  'splitter-network',
  'ring',
  'outside-plant',
  'shipboard',
  'owner-figures',
  'legacy',
  'machine-hall',
  'wavelengths',
])('the record of the example %s tells of every link and of every reading', (example) => {
  const { plans, project } = openExample(example);
  for (const plan of plans) {
    const subject: Recorded = {
      plan,
      display: plainDisplay,
      asOf: '2026-04-01',
      tool: 'linkwright 0',
      issue: true,
      files: plan.files.map((uri) => ({
        uri,
        path: pathFrom(plan.root, uri),
        text: project.document(uri)?.text() ?? '',
      })),
    };
    const state = stateOf(subject);
    const { blocks } = recordPaper(subject, state);
    const headings = blocks.flatMap((block) => (block.kind === 'heading' ? [block.text] : []));
    for (const name of plan.result.order) expect(headings).toContain(name);
    for (const block of blocks) if (block.kind === 'table') expectWhole(block);
    const rows = recordCsv(subject, state).trimEnd().split('\r\n').length - 1;
    const readings = plan.result.order
      .flatMap((name) => plan.result.link(name) ?? [])
      .reduce((sum, each) => sum + each.readings.length + each.reflectances.length, 0);
    expect(rows).toBe(readings);
    const form: unknown = JSON.parse(recordJson(subject, state));
    expect(recordSchema.parse(form)).toEqual(form);
    expect(asSchema(form), JSON.stringify(asSchema.errors)).toBe(true);
    if (!plan.result.totals.accepted) expect(state.state).toBe('draft');
  }
});
