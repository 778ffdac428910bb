/** Every doubt and every note can be answered in words, in the plan; nothing else is answered with it, and no contradiction is. */
import { expect, test } from 'vitest';
import { checks } from '../../server/src/checks/index.ts';
import { judge } from '../support/judge.ts';

/** The answers themselves are not answered. */
const open = checks.filter(({ name }) => !name.startsWith('silence-'));

function told(text: string): string[] {
  return judge(text)
    .findings.map(({ name }) => name)
    .sort();
}

function answered(text: string, name: string): string {
  return text.replace(/^(plan "[^"]*" \{\n)/mu, `$1  silence     ${name} because "seen"\n`);
}

test.each(open.filter(({ kind }) => kind !== 'contradiction').map((check) => [check.name, check]))(
  '%s',
  (name, { bad }) => {
    const text = answered(bad, name);
    expect(text).not.toBe(bad);
    expect(told(text)).toEqual(told(bad).filter((each) => each !== name));
  },
);

test.each(open.filter(({ kind }) => kind === 'contradiction').map((check) => [check.name, check]))(
  'but not %s',
  (name, { bad }) => {
    expect(told(answered(bad, name))).toEqual([...told(bad), 'silence-refused'].sort());
  },
);

/** The text with an answer at the head of the block that a line stands in. */
function answeredBeside(text: string, line: number, name: string): string {
  const lines = text.split('\n');
  const head = lines.slice(0, line + 1).findLastIndex((each) => /^\S.*\{$/u.test(each));
  lines.splice(head + 1, 0, `  silence     ${name} because "seen"`);
  return lines.join('\n');
}

const answerable = open.filter(({ kind }) => kind !== 'contradiction');

test.each(answerable.map((check) => [check.name, check] as const))(
  '%s, where it stands',
  (name, { bad }) => {
    const { plan, findings } = judge(bad);
    const own = findings.filter((each) => each.name === name);
    expect(own).not.toEqual([]);
    for (const { place } of own) {
      const line = plan.locate(place)!.range.start.line;
      const after = told(answeredBeside(bad, line, name));
      expect(after.filter((each) => each === name).length).toBeLessThan(own.length);
      expect(after.filter((each) => each !== name)).toEqual(
        told(bad).filter((each) => each !== name),
      );
    }
  },
);

test('an answer beside evidence that answers nothing is said there, once for all its objects', () => {
  const bad = open.find(({ name }) => name === 'marginal-pass')!.bad;
  const rows = bad.split('\n').findIndex((line) => line.startsWith('readings'));
  expect(told(answeredBeside(bad, rows, 'marginal'))).toContain('silence-unknown');
  expect(told(answeredBeside(bad, rows, 'loss-negative'))).toContain('silence-refused');
});
