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
    const cable = 'fibre KQ-1O {\n  like        OM4\n}\n';
    expect(names(settings(), link('KQ-10'), cable)).toEqual([]);
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
    expect(names(settings(), own(''))).toEqual(['library-shadowed']);
    const meant = '  silence     library-shadowed because "the maker’s figures" by "M. Ashdown"\n';
    expect(names(settings(), own(meant))).toEqual([]);
    expect(names(settings(meant), own(''))).toEqual([]);
  });

  test('but not a name declared twice', () => {
    const meant = '  silence     duplicate-definition because "so be it"\n';
    expect(names(settings(meant), link('KQ-1'), link('KQ-1'))).toContain('duplicate-definition');
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
