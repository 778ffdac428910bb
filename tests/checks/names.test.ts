/** Findings of names: which two look alike, which only resemble, and who may answer for it. */
import { describe, expect, test } from 'vitest';
import { decodeFile } from '../../server/src/project/index.ts';
import { findingsOf, judge, planUri } from '../support/judge.ts';

const settings = (more = '') => `plan "Names" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
  uncertainty 0.15 dB
${more}}
`;

const link = (name: string, more = '') => `link ${name} {
  fibres      1..2
  connector   LC
  segment     80 m OM4
  connector   LC
${more}}
`;

const names = (...parts: readonly string[]) =>
  judge(parts.join('\n')).findings.map(({ name }) => name);
const answer =
  '  silence     look-alike-names because "painted on the panels since 1998" by "M. Ashdown"\n';

describe('names that are taken for each other', () => {
  test.each([
    ['KQ-10', 'KQ-1O', 'letters that look like digits'],
    ['KQ-11', 'KQ-1I', 'letters that look like digits'],
    ['KQ-11', 'KQ-l1', 'letters that look like digits'],
    ['KQ-A', 'kq-a', 'capital letters'],
    ['KQ-01', 'KQ-1', 'leading zeros'],
    ['K-007-B', 'K-7-B', 'leading zeros'],
  ])('%s and %s: %s', (first, second, differ) => {
    const { findings, plan } = judge([settings(), link(second), link(first)].join('\n'));
    expect(findings.map(({ name }) => name)).toEqual(['look-alike-names']);
    expect(findings[0]).toMatchObject({ kind: 'doubt', about: second });
    expect(findings[0]?.message).toContain(`${second} and ${first} differ only in ${differ}`);
    expect(plan.result.totals.accepted).toBe(false);
  });

  test.each([
    ['KQ-1', 'KQ-10'],
    ['KQ-1.5', 'KQ-1.05'],
    ['TAIL', 'TALL'],
    ['KQ-100', 'KQ-200'],
    ['KQ-A1', 'KQ-A2'],
  ])('%s and %s are two names', (first, second) => {
    expect(names(settings(), link(first), link(second))).toEqual([]);
  });

  test('things of different kinds may be called alike', () => {
    const fibre = 'fibre KQ-1O {\n  like        OM4\n}\n';
    const used = link('KQ-10').replace('80 m OM4', '80 m KQ-1O');
    expect(names(settings(), used, fibre)).not.toContain('look-alike-names');
  });

  test('are told once, and no longer once one has another name', () => {
    const text = (second: string) => [settings(), link('KQ-01'), link(second)].join('\n');
    const { project, plan } = judge(text('KQ-1'));
    expect(findingsOf(plan)).toHaveLength(1);
    project.put(planUri, decodeFile(new TextEncoder().encode(text('KQ-2'))));
    expect(findingsOf(project.planOf(planUri)!)).toEqual([]);
    project.put(planUri, decodeFile(new TextEncoder().encode(text('KQ-001'))));
    expect(findingsOf(project.planOf(planUri)!).map(({ about }) => about)).toEqual(['KQ-01']);
  });
});

describe('a finding of a name is answered in words', () => {
  test('by the plan', () => {
    expect(names(settings(answer), link('KQ-01'), link('KQ-1'))).toEqual([]);
  });

  test.each([0, 1])('by either of the two declarations', (which) => {
    const parts = ['KQ-01', 'KQ-1'].map((name, index) => link(name, index === which ? answer : ''));
    expect(names(settings(), ...parts)).toEqual([]);
  });

  test('and comes back with the answer taken out', () => {
    const text = (more: string) => [settings(more), link('KQ-01'), link('KQ-1')].join('\n');
    const { project, plan } = judge(text(answer));
    expect(findingsOf(plan)).toEqual([]);
    project.put(planUri, decodeFile(new TextEncoder().encode(text(''))));
    expect(findingsOf(project.planOf(planUri)!).map(({ name }) => name)).toEqual([
      'look-alike-names',
    ]);
  });

  test('a note too: a name of the library used anew', () => {
    const own = (more: string) => `fibre OM4 {\n  like        OM4\n${more}}\n`;
    const path = link('KQ-1');
    expect(names(settings(), path, own(''))).toEqual(['library-shadowed']);
    const meant = '  silence     library-shadowed because "the maker’s figures" by "M. Ashdown"\n';
    expect(names(settings(), path, own(meant))).toEqual([]);
    expect(names(settings(meant), path, own(''))).toEqual([]);
  });

  test('but not a name declared twice', () => {
    const meant = '  silence     duplicate-definition because "so be it"\n';
    expect(names(settings(meant), link('KQ-1'), link('KQ-1'))).toContain('duplicate-definition');
  });
});

describe('what nothing names', () => {
  const owner = (name: string, more = '') =>
    `limits ${name} {\n  like        TIA-568.3-E\n  edition     "clause 7.4"\n${more}}\n`;
  const tail =
    'pattern tail {\n  connector   LC\n  segment     <length> OM4\n  connector   LC\n}\n';
  const rows = (pattern: string) =>
    `links as ${pattern} {\n  fibres      1..2\n  columns link, length in m\n  KQ-5  40\n}\n`;

  test('is a note, with the fix that takes it out', () => {
    const text = [settings(), link('KQ-1'), owner('KQ-OWNER')].join('\n');
    const { findings, plan } = judge(text);
    expect(findings.map(({ name, kind, about }) => [name, kind, about])).toEqual([
      ['unused-definition', 'note', 'KQ-OWNER'],
    ]);
    expect(findings[0]?.message).toContain('the set of limits KQ-OWNER');
    expect(plan.locate(findings[0]!.fix!.edits[0]!.place)?.range.start.line).toBe(14);
  });

  test.each([
    ['the plan', [settings('  compare     KQ-OWNER\n'), link('KQ-1'), owner('KQ-OWNER')]],
    ['a link', [settings(), link('KQ-1', '  limits      KQ-OWNER\n'), owner('KQ-OWNER')]],
    [
      'another of its kind',
      [
        settings('  compare     KQ-FIRST\n'),
        link('KQ-1'),
        owner('KQ-OWNER'),
        owner('KQ-FIRST').replace('TIA-568.3-E', 'KQ-OWNER'),
      ],
    ],
    ['a table', [settings(), tail, rows('tail')]],
  ])('may be named by %s', (_, parts) => {
    expect(names(...parts)).not.toContain('unused-definition');
  });

  test('a hole of a row names it too', () => {
    const drop = tail.replace('OM4', '<glass>');
    const glass = 'fibre KQ-GLASS {\n  like        OM4\n}\n';
    const table = rows('tail')
      .replace('length in m', 'length in m, glass')
      .replace('40', '40 KQ-GLASS');
    expect(names(settings(), drop, glass, table)).not.toContain('unused-definition');
  });

  test('is named by who misspells it: one slip is one finding, as long as it stands', () => {
    const text = (used: string) =>
      [settings(), link('KQ-1'), tail, rows(used), owner('KQ-OWNER')].join('\n');
    const { project, plan } = judge(text('tial'));
    const found = (of = plan) =>
      findingsOf(of).map(({ name, details }) => [name, details.nearest ?? details.name]);
    const misspelt = [
      ['unknown-reference', 'tail'],
      ['unused-definition', 'KQ-OWNER'],
    ];
    expect(found()).toEqual(misspelt);
    const edited = (used: string) => {
      project.put(planUri, decodeFile(new TextEncoder().encode(text(used))));
      return found(project.planOf(planUri)!);
    };
    expect(edited('shelves')).toEqual([
      ['unused-definition', 'tail'],
      ['unknown-reference', 'shelves'],
      ['unused-definition', 'KQ-OWNER'],
    ]);
    expect(edited('tial')).toEqual(misspelt);
    expect(edited('tail')).toEqual([['unused-definition', 'KQ-OWNER']]);
  });

  test('to take after what the library calls alike is no use of itself', () => {
    const own = 'fibre OM5 {\n  like        OM5\n}\n';
    expect(names(settings(), link('KQ-1'), own)).toContain('unused-definition');
  });

  test('what stands on a line that cannot be read may name it', () => {
    const tree = `link HALL-1 {
  connector   SC-APC
  segment     1850 m G.652.D
  splice      fusion
  split SP-1 PLC-1x4 {
    out         1..4 to HALL/K-01..04 as tail length 60 m
  }
}
`;
    const own = settings('').replace('multimode', 'single-mode');
    expect(names(own, tree, tail)).not.toContain('unused-definition');
    const slip = tree.replace('as tail', 'ax tail');
    expect(names(own, slip, tail)).toEqual(['unknown-argument']);
    // What it does not name is clutter all the same.
    expect(names(own, slip, tail, owner('KQ-OWNER'))).toContain('unused-definition');
  });

  test('is not asked of a file under no plan, which others may include', () => {
    expect(names(owner('KQ-OWNER'))).toEqual([]);
  });

  test('comes and goes with the last that names it', () => {
    const named = [settings('  compare     KQ-OWNER\n'), link('KQ-1'), owner('KQ-OWNER')].join(
      '\n',
    );
    const { project, plan } = judge(named);
    const put = (text: string) => {
      project.put(planUri, decodeFile(new TextEncoder().encode(text)));
      return findingsOf(project.planOf(planUri)!).map(({ name }) => name);
    };
    expect(findingsOf(plan)).toEqual([]);
    expect(put(named.replace('  compare     KQ-OWNER\n', ''))).toEqual(['unused-definition']);
    expect(put(named)).toEqual([]);
    expect(put(named.replace(/^plan [^}]*\}\n/u, ''))).not.toContain('unused-definition');
  });
});

describe('ports of two links', () => {
  const between = (name: string, from: string, to: string, more = '') =>
    link(name, `  from        ${from}\n  to          ${to}\n${more}`).replace(
      '  fibres      1..2\n',
      '',
    );

  test('alike at both ends are a doubt at the later one, once for all of them', () => {
    const first = between('KQ-1', 'OPS/A:01..04', 'B3/A:01..04');
    const { findings, plan } = judge(
      [settings(), first, between('KQ-2', 'OPS/A:03..06', 'B3/A:03..06')].join('\n'),
    );
    expect(findings.map(({ name, about }) => [name, about])).toEqual([
      ['ports-taken-twice', 'KQ-2'],
    ]);
    expect(findings[0]?.message).toContain(
      'KQ-2 lies between ports of KQ-1: OPS/A:03 and B3/A:03, and 1 more.',
    );
    expect(plan.locate(findings[0]!.related[0]!.place)?.range.start.line).toBe(7);
  });

  test.each([
    ['one port where two links meet', 'B3/A:01..02', 'B4/A:01..02'],
    ['the same near end', 'OPS/A:01..02', 'B4/A:01..02'],
    ['ports of their own', 'OPS/A:03..04', 'B3/A:03..04'],
  ])('%s are none', (_, from, to) => {
    const first = between('KQ-1', 'OPS/A:01..02', 'B3/A:01..02');
    expect(names(settings(), first, between('KQ-2', from, to))).toEqual([]);
  });

  test('may be answered, and go with the link', () => {
    const first = between('KQ-1', 'OPS/A:01..02', 'B3/A:01..02');
    const meant =
      '  silence     ports-taken-twice because "the old cable lies beside, cut" by "M. Ashdown"\n';
    const second = (more = '') => between('KQ-2', 'OPS/A:01..02', 'B3/A:01..02', more);
    expect(names(settings(), first, second(meant))).toEqual([]);
    expect(names(settings(meant), first, second())).toEqual([]);
    const text = (...parts: readonly string[]) => [settings(), ...parts].join('\n');
    const { project, plan } = judge(text(first, second()));
    expect(findingsOf(plan).map(({ about }) => about)).toEqual(['KQ-2']);
    project.put(planUri, decodeFile(new TextEncoder().encode(text(second()))));
    expect(findingsOf(project.planOf(planUri)!)).toEqual([]);
    project.put(planUri, decodeFile(new TextEncoder().encode(text(second(), first))));
    expect(findingsOf(project.planOf(planUri)!).map(({ about }) => about)).toEqual(['KQ-1']);
  });
});
