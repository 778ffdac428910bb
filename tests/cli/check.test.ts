/** `linkwright check`: what it says, in which form, and the exit code that scripts rely on. */
import { afterEach, describe, expect, it } from 'vitest';
import { expectSarif } from '../support/sarif.ts';
import { plan, readings } from './compared-plan.ts';
import { Folder } from './run.ts';

const mistaken = plan.replace('OM4\n  connector', 'OM44\n  connector');

let folder: Folder;

afterEach(() => folder.remove());

const asOf = ['--as-of', '2026-04-01'];

describe('check', () => {
  it('says one line a link and ends with 0 where all is well', () => {
    folder = new Folder({ 'plan.lwl': `${plan}\n${readings('0.90', '1.10')}` });
    const { code, out, error } = folder.run('check', ...asOf);
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out).toMatch(
      /^KQ-1 +pass +180 m +limit 2\.04 dB \(components(?:, recalled)?\) +margin \+0\.94 dB +2 of 2 readings$/mu,
    );
  });

  it('does not fail for what is not tested yet', () => {
    folder = new Folder({ 'plan.lwl': plan });
    const { code, out } = folder.run('check', ...asOf);
    expect(code).toBe(0);
    expect(out).toMatch(/^KQ-1 +untested .* 0 of 2 readings$/mu);
  });

  it('fails for a failing verdict, unless told to look at findings alone', () => {
    folder = new Folder({ 'plan.lwl': `${plan}\n${readings('0.90', '9.10')}` });
    expect(folder.run('check', ...asOf)).toMatchObject({ code: 1 });
    expect(folder.run('check', ...asOf).out).toMatch(/^KQ-1 +fail /mu);
    expect(folder.run('check', ...asOf, '--fail-on', 'error')).toMatchObject({ code: 0 });
    // What stands behind the option's value is a path, and several values take a comma.
    expect(folder.run('check', ...asOf, '--fail-on', 'error', '.')).toMatchObject({ code: 0 });
    expect(folder.run('check', ...asOf, '--fail-on', 'error,nothing', '.')).toMatchObject({
      code: 2,
    });
  });

  it('fails for an error, at the place where it stands', () => {
    folder = new Folder({ 'sub/plan.lwl': mistaken });
    const { code, out } = folder.run('check', 'sub', ...asOf);
    expect(code).toBe(1);
    expect(out).toMatch(/^sub\/plan\.lwl:13:21: error: .*OM44.* \[unknown-reference\]$/mu);
  });

  it('judges as of the time it is told', () => {
    folder = new Folder({
      'plan.lwl': `${plan}\n${readings('0.90', '3.10')}
concession KQ-1 {
  accepted    4 dB
  because     "rework booked"
  by          "M. Ashdown" on 2026-03-20
  until       2026-06-30
}
`,
    });
    expect(folder.run('check', '--as-of', '2026-06-01')).toMatchObject({ code: 0 });
    expect(folder.run('check', '--as-of', '2026-07-01')).toMatchObject({ code: 1 });
  });

  it.each([
    ['a path that is not there', ['check', 'nowhere'], 'There is no file or folder "nowhere".'],
    ['a folder without plans', ['check', 'empty'], 'There is no plan'],
    ['a time that is none', ['check', '--as-of', 'soon'], '2026-03-14'],
    ['a form that it does not know', ['check', '--format', 'poem'], 'Allowed choices are text'],
    ['a command that it does not know', ['chekc'], "unknown command 'chekc'"],
  ])('ends with 2 for %s', (_, words, says) => {
    folder = new Folder({ 'plan.lwl': plan, 'empty/readme.txt': 'nothing' });
    const { code, out, error } = folder.run(...words);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toContain(says);
  });

  it('writes its answer to a file, where told so', () => {
    folder = new Folder({ 'plan.lwl': plan });
    expect(folder.run('check', '--out', 'answer.txt', ...asOf)).toMatchObject({ code: 0, out: '' });
    expect(folder.run('check', '--out', 'no/such/folder', ...asOf)).toMatchObject({ code: 2 });
  });

  it('reads a single file with what it includes, and not what lies beside it', () => {
    folder = new Folder({
      'plan.lwl': `include "more.lwl"\n\n${plan}`,
      'more.lwl': readings('0.90', '1.10'),
      'other.lwl': mistaken,
    });
    const { code, out } = folder.run('check', 'plan.lwl', ...asOf);
    expect(code).toBe(0);
    expect(out).toContain('2 of 2 readings');
  });

  it('lets an include reach the working folder and nothing above it', () => {
    folder = new Folder({ 'a/plan.lwl': `include "../b/more.lwl"\n\n${plan}`, 'b/more.lwl': '' });
    expect(folder.run('check', 'a', ...asOf)).toMatchObject({ code: 0 });
    const outside = new Folder({ 'plan.lwl': `include "../../x.lwl"\n\n${plan}` });
    expect(outside.run('check', ...asOf).out).toContain('include-outside-workspace');
    outside.remove();
  });

  it('says which bytes are no text and judges the rest', () => {
    folder = new Folder({
      'plan.lwl': `include "photo.lwl"\n\n${plan}`,
      'photo.lwl': Uint8Array.from({ length: 999 }, (_, index) => index % 256),
    });
    const { code, out } = folder.run('check', ...asOf);
    expect(code).toBe(1);
    expect(out).toContain('photo.lwl:1:1: error: This file is not a text');
    expect(out).toMatch(/^KQ-1 +untested/mu);
  });
});

describe('forms for other tools', () => {
  it('sarif holds each finding with its place', () => {
    folder = new Folder({ 'my plan.lwl': mistaken });
    const { code, out } = folder.run('check', '--format', 'sarif', ...asOf);
    expect(code).toBe(1);
    const log = JSON.parse(out);
    expectSarif(log);
    const [run] = log.runs;
    const result = run.results.find(
      (each: { ruleId: string }) => each.ruleId === 'unknown-reference',
    );
    expect(run.tool.driver.rules[result.ruleIndex].id).toBe('unknown-reference');
    expect(result.locations[0].physicalLocation).toMatchObject({
      artifactLocation: { uri: 'my%20plan.lwl' },
      region: { startLine: 13, startColumn: 21 },
    });
  });

  it('github says one command a finding', () => {
    folder = new Folder({ 'plan.lwl': mistaken });
    const { out } = folder.run('check', '--format', 'github', ...asOf);
    expect(out).toMatch(
      /^::error file=plan\.lwl,line=13,endLine=13,col=21,endColumn=25,title=unknown-reference::/mu,
    );
  });

  it('gitlab gives each finding a fingerprint that a moved line keeps', () => {
    folder = new Folder({ 'plan.lwl': mistaken });
    const before = JSON.parse(folder.run('check', '--format', 'gitlab', ...asOf).out);
    folder.remove();
    folder = new Folder({ 'plan.lwl': `# moved\n\n${mistaken}` });
    const after = JSON.parse(folder.run('check', '--format', 'gitlab', ...asOf).out);
    const prints = (report: readonly { fingerprint: string }[]) =>
      report.map(({ fingerprint }) => fingerprint);
    expect(prints(after)).toEqual(prints(before));
    expect(new Set(prints(after)).size).toBe(after.length);
    expect(after[0].location.lines.begin).toBe(before[0].location.lines.begin + 2);
  });

  it('junit counts links and findings as cases', () => {
    folder = new Folder({ 'plan.lwl': `${plan}\n${readings('0.90', '9.10')}` });
    const { out } = folder.run('check', '--format', 'junit', ...asOf);
    expect(out).toMatch(/<testsuite name="Example" tests="1" failures="1" skipped="0">/u);
    expect(out).toMatch(/<testcase name="KQ-1" classname="verdict"><failure message="KQ-1: fail/u);
  });
});
